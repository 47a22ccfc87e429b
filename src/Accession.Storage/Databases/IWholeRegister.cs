namespace Accession.Storage.Databases;

/// <summary>The register in whole: copied out into the parts of a backup, and put back from them.</summary>
public interface IWholeRegister
{
    /// <summary>Whether the register is a file of the data folder, and moves with it.</summary>
    bool IsInDataFolder { get; }

    /// <summary>Whether nothing is yet where the register would be put back, as in a missing database.</summary>
    Task<bool> IsFreeAsync(AccessionDb db, CancellationToken cancellation);

    /// <summary>About how many bytes its parts will have.</summary>
    Task<long> SizeAsync(AccessionDb db, CancellationToken cancellation);

    /// <summary>
    /// Copies the register out as the open transaction sees it (see <see cref="IDatabase.ReadOneMomentAsync"/>). Nobody
    /// is kept from writing.
    /// </summary>
    /// <param name="tables">What the register is made of.</param>
    /// <param name="scratch">An empty file that may be filled meanwhile; the caller deletes it.</param>
    /// <param name="keep">Takes each part: its name, and who writes its content.</param>
    Task CopyOutAsync(
        AccessionDb db, IReadOnlyList<RegisterTable> tables, string scratch, KeepPart keep,
        CancellationToken cancellation);

    /// <summary>
    /// Puts a register back where none is, brings it up to this version of the program, and lets the caller do what is
    /// to be done before anybody sees it.
    /// </summary>
    /// <returns>Why not, in a sentence; nothing is left then. Null when all of it was done.</returns>
    Task<string?> PutBackAsync(AccessionDb db, PutBack how, CancellationToken cancellation);
}

/// <summary>Keeps a part of a backup.</summary>
/// <param name="name">Its name, with slashes.</param>
/// <param name="write">Writes its content.</param>
public delegate Task KeepPart(string name, Func<Stream, Task> write);

/// <summary>A table as a backup has it.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Columns">Its columns, in the order in which they were copied.</param>
/// <param name="Rows">How many rows it had at that moment.</param>
public sealed record RegisterTable(string Name, IReadOnlyList<string> Columns, long Rows);

/// <summary>How a register is put back.</summary>
/// <param name="Migration">The last migration of the register when it was copied out.</param>
/// <param name="Tables">What it was made of.</param>
/// <param name="Open">Opens a part.</param>
/// <param name="Finish">
/// Does the rest, in a transaction that ends with it; a sentence says why nothing is to be kept.
/// </param>
public sealed record PutBack(
    string Migration, IReadOnlyList<RegisterTable> Tables, Func<string, Stream> Open, Func<Task<string?>> Finish);
