using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Accession.Storage.Databases;

/// <summary>Everything that differs between SQLite and PostgreSQL stands behind this, one class for each.</summary>
public interface IDatabase
{
    /// <summary>What people call it.</summary>
    string Name { get; }

    /// <summary>Whether saving failed because somebody else had stored the same key a moment before.</summary>
    bool IsUniqueViolation(DbUpdateException exception);

    /// <summary>Makes ready what migrating needs; a start that was killed half way must not block the next.</summary>
    Task BeforeMigratingAsync(AccessionDb db, CancellationToken cancellation);

    /// <summary>
    /// Begins a transaction that only reads: all of it sees the register as it was at one moment, and nobody waits for
    /// it.
    /// </summary>
    Task<IDbContextTransaction> ReadOneMomentAsync(AccessionDb db, CancellationToken cancellation);

    /// <summary>The bulk path of intake.</summary>
    IRowStore Rows { get; }

    /// <summary>The bulk path of publishing.</summary>
    IArchiveLines ArchiveLines { get; }
}
