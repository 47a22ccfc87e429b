using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>
/// More pages in the memory of a connection, and given back afterwards. With the two megabytes that a connection has
/// otherwise, an index of a list of 200,000 rows is read and written again page by page for each slice.
/// </summary>
internal sealed class SqliteRoom : IAsyncDisposable
{
    // A negative size is in kibibytes; the usual one is that of SQLite itself.
    private const string Much = "PRAGMA main.cache_size = -24000; PRAGMA temp.cache_size = -16000";
    private const string Usual = "PRAGMA main.cache_size = -2000; PRAGMA temp.cache_size = 0; PRAGMA shrink_memory";

    private readonly AccessionDb _db;

    private SqliteRoom(AccessionDb db) => _db = db;

    public static async Task<SqliteRoom> MakeAsync(AccessionDb db, CancellationToken cancellation)
    {
        await db.Database.OpenConnectionAsync(cancellation);
        Execute(db, Much);
        return new(db);
    }

    public async ValueTask DisposeAsync()
    {
        Execute(_db, Usual);
        await _db.Database.CloseConnectionAsync();
    }

    private static void Execute(AccessionDb db, string sql)
    {
        using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
        command.ExecuteNonQuery();
    }
}
