using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>
/// An advisory lock of the database, held by one open connection: nodes with data folders of their own share no file
/// that could hold one of them off. PostgreSQL drops it with the connection, so a killed start leaves nothing behind.
/// </summary>
internal sealed class PostgreSqlStartHold : IAsyncDisposable
{
    // Any number does, as long as nothing else in the database uses it; this one spells "accessio" in ASCII.
    private const long Key = 0x616363657373696F;
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    private readonly AccessionDb _db;

    private PostgreSqlStartHold(AccessionDb db) => _db = db;

    public static async Task<IAsyncDisposable> TakeAsync(AccessionDb db, CancellationToken cancellation)
    {
        await EnsureThereAsync(db, cancellation);
        await db.Database.OpenConnectionAsync(cancellation);
        var usual = db.Database.GetCommandTimeout();
        db.Database.SetCommandTimeout(Patience);
        await db.Database.ExecuteSqlAsync($"SELECT pg_advisory_lock({Key})", cancellation);
        db.Database.SetCommandTimeout(usual);
        return new PostgreSqlStartHold(db);
    }

    public async ValueTask DisposeAsync()
    {
        // The connection goes back to its pool and may live on; the lock must not.
        await _db.Database.ExecuteSqlAsync($"SELECT pg_advisory_unlock({Key})");
        await _db.Database.CloseConnectionAsync();
    }

    // Migrating would make the database as well, but only inside the lock that is to be taken in it.
    private static async Task EnsureThereAsync(AccessionDb db, CancellationToken cancellation)
    {
        var creator = db.GetService<IRelationalDatabaseCreator>();
        if (await creator.ExistsAsync(cancellation))
        {
            return;
        }

        try
        {
            await creator.CreateAsync(cancellation);
        }
        catch (PostgresException twice) when (twice.SqlState
            is PostgresErrorCodes.DuplicateDatabase or PostgresErrorCodes.UniqueViolation)
        {
            // Another node made it in the same moment.
        }
    }
}
