using System.Data;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>For larger sites: several server processes may share it.</summary>
/// <param name="publicRole">The role under which is read what becomes public; null for the one that signs in.</param>
public sealed class PostgreSqlDatabase(string? publicRole = null) : IDatabase
{
    private readonly PostgreSqlPublicRole? _publicRole = publicRole is null ? null : new(publicRole);

    public string Name => "PostgreSQL";

    public IRowStore Rows { get; } = new PostgreSqlRowStore();

    public IMatchStore Matches { get; } = new PostgreSqlMatchStore();

    public IFindStore Finding { get; } = new PostgreSqlFindStore();

    public IArchiveLines ArchiveLines => new PostgreSqlArchiveLines(_publicRole);

    public IWholeRegister Whole { get; } = new PostgreSqlWholeRegister();

    /// <summary>Keys drawn ahead for this process.</summary>
    internal PostgreSqlKeys Keys { get; } = new();

    public void DrawKeys(ModelBuilder builder) => PostgreSqlKeys.DrawIn(builder);

    public bool IsUniqueViolation(DbUpdateException exception) =>
        exception.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation };

    public string UnlessTaken => PostgreSqlHeldRows.UnlessTaken;

    public async Task<IAsyncDisposable?> HoldStartAsync(AccessionDb db, CancellationToken cancellation) =>
        await PostgreSqlStartHold.TakeAsync(db, cancellation);

    // PostgreSQL drops the lock with the connection that held it: nothing stays behind.
    public Task BeforeMigratingAsync(AccessionDb db, CancellationToken cancellation) => Task.CompletedTask;

    public Task<string?> GrantPublicAsync(AccessionDb db, CancellationToken cancellation) =>
        _publicRole?.GrantAsync(db, cancellation) ?? Task.FromResult<string?>(null);

    // Read committed would see a new moment with each statement.
    public Task<IDbContextTransaction> ReadOneMomentAsync(AccessionDb db, CancellationToken cancellation) =>
        db.Database.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancellation);

    public async Task<IAsyncDisposable> LayOverAsync(
        AccessionDb db, long? sourceId, CancellationToken cancellation) =>
        await PostgreSqlLaidOver.LayAsync(db, sourceId, cancellation);

    // The server has its own.
    public async Task<IAsyncDisposable> MakeRoomAsync(AccessionDb db, CancellationToken cancellation)
    {
        await db.Database.OpenConnectionAsync(cancellation);
        return new HeldConnection(db);
    }

    // Its own daemon comes once a minute, and never to temporary tables. Until then it takes every table for small.
    public string? Counting(IReadOnlyList<string> tables) => $"ANALYZE {string.Join(", ", tables)}";
}
