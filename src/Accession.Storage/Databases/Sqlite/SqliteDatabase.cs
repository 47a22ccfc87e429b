using System.Data;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>The embedded default: one file in the data folder.</summary>
public sealed class SqliteDatabase : IDatabase
{
    private const int ConstraintUnique = 2067;
    private const int ConstraintPrimaryKey = 1555;

    public string Name => "SQLite";

    public IRowStore Rows { get; } = new SqliteRowStore();

    public IMatchStore Matches { get; } = new SqliteMatchStore();

    public IFindStore Finding { get; } = new SqliteFindStore();

    public IArchiveLines ArchiveLines { get; } = new SqliteArchiveLines();

    public IWholeRegister Whole { get; } = new SqliteWholeRegister();

    // The engine runs in this process, and gives a key as it stores the row.
    public void DrawKeys(ModelBuilder builder)
    {
    }

    public bool IsUniqueViolation(DbUpdateException exception) =>
        exception.InnerException is SqliteException
        {
            SqliteExtendedErrorCode: ConstraintUnique or ConstraintPrimaryKey,
        };

    // There is one writer, and whoever is it holds everything.
    public string UnlessTaken => "";

    // The register is a file of the data folder, so whoever holds that folder's lock is alone already.
    public Task<IAsyncDisposable?> HoldStartAsync(AccessionDb db, CancellationToken cancellation) =>
        Task.FromResult<IAsyncDisposable?>(null);

    // A process killed while migrating leaves its lock row behind, and Migrate would wait for it for ever. The caller
    // holds the data folder's lock, so nobody else can be migrating now.
    public async Task BeforeMigratingAsync(AccessionDb db, CancellationToken cancellation)
    {
        // It stays so with the file; the connection is not kept, for the context goes to others with it.
        await db.Database.ExecuteSqlRawAsync("PRAGMA journal_mode = WAL", cancellation);
        await db.Database.ExecuteSqlRawAsync("DROP TABLE IF EXISTS \"__EFMigrationsLock\"", cancellation);
    }

    // Whoever reads the file reads all of it.
    public Task<string?> GrantPublicAsync(AccessionDb db, CancellationToken cancellation) =>
        Task.FromResult<string?>(null);

    // The driver takes the write lock at once for every other level; in WAL mode this one reads a snapshot as well.
    public Task<IDbContextTransaction> ReadOneMomentAsync(AccessionDb db, CancellationToken cancellation) =>
        db.Database.BeginTransactionAsync(IsolationLevel.ReadUncommitted, cancellation);

    public async Task<IAsyncDisposable> LayOverAsync(
        AccessionDb db, long? sourceId, CancellationToken cancellation) =>
        await SqliteLaidOver.LayAsync(db, sourceId, cancellation);

    public async Task<IAsyncDisposable> MakeRoomAsync(AccessionDb db, CancellationToken cancellation) =>
        await SqliteRoom.MakeAsync(db, cancellation);

    // Without counts it plans by what its indexes promise, and those of a moment would be taken for lasting.
    public string? Counting(IReadOnlyList<string> tables) => null;
}
