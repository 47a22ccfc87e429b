using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Accession.Storage.Databases;

/// <summary>Everything that differs between SQLite and PostgreSQL stands behind this, one class for each.</summary>
public interface IDatabase
{
    /// <summary>What people call it.</summary>
    string Name { get; }

    /// <summary>Says where keys are drawn before rows are stored, where that spares the way to the server.</summary>
    void DrawKeys(ModelBuilder builder);

    /// <summary>
    /// What stands behind a query inside a statement that changes rows, so that it passes over those somebody else
    /// holds.
    /// </summary>
    string UnlessTaken { get; }

    /// <summary>Whether saving failed because somebody else had stored the same key a moment before.</summary>
    bool IsUniqueViolation(DbUpdateException exception);

    /// <summary>
    /// Holds off every other process that makes this register ready, on whatever machine, until it is disposed. It is
    /// asked for a register that may not be there yet. Null where the lock of the data folder is enough.
    /// </summary>
    Task<IAsyncDisposable?> HoldStartAsync(AccessionDb db, CancellationToken cancellation);

    /// <summary>Makes ready what migrating needs; a start that was killed half way must not block the next.</summary>
    Task BeforeMigratingAsync(AccessionDb db, CancellationToken cancellation);

    /// <summary>
    /// Lets the role of the public, if there is one, read what everyone may know and nothing else. It is asked at each
    /// start, of a migrated register. Says why it cannot be done, in a sentence; null when it is done.
    /// </summary>
    Task<string?> GrantPublicAsync(AccessionDb db, CancellationToken cancellation);

    /// <summary>
    /// Begins a transaction that only reads: all of it sees the register as it was at one moment, and nobody waits for
    /// it.
    /// </summary>
    Task<IDbContextTransaction> ReadOneMomentAsync(AccessionDb db, CancellationToken cancellation);

    /// <summary>
    /// Opens the connection and lays temporary tables over those that receiving writes, until it is disposed: a list is
    /// then received and found against the register without a row of it being stored, and nobody waits for it.
    /// </summary>
    /// <param name="db">The register; everything on it afterwards sees the temporary tables.</param>
    /// <param name="sourceId">The source whose earlier lists are to be seen; null for none.</param>
    /// <param name="cancellation">Gives up.</param>
    Task<IAsyncDisposable> LayOverAsync(AccessionDb db, long? sourceId, CancellationToken cancellation);

    /// <summary>
    /// Opens the connection and gives it room to hold more of the register until it is disposed: for work that goes
    /// through many thousand rows.
    /// </summary>
    Task<IAsyncDisposable> MakeRoomAsync(AccessionDb db, CancellationToken cancellation);

    /// <summary>
    /// The statement that lets the planner count tables that were filled a moment ago; null where that does no good.
    /// </summary>
    string? Counting(IReadOnlyList<string> tables);

    /// <summary>The bulk path of intake.</summary>
    IRowStore Rows { get; }

    /// <summary>The bulk path of matching.</summary>
    IMatchStore Matches { get; }

    /// <summary>Finding sheets by words.</summary>
    IFindStore Finding { get; }

    /// <summary>The bulk path of publishing.</summary>
    IArchiveLines ArchiveLines { get; }

    /// <summary>The register in whole, for backups.</summary>
    IWholeRegister Whole { get; }
}
