namespace Accession.Storage.Databases;

/// <summary>The bulk path of intake: rows of a list and their problems, stored a slice at a time.</summary>
public interface IRowStore
{
    /// <summary>
    /// Stores a slice within the open transaction. A row that is there already (same batch, identity and occurrence)
    /// only learns its new line and that it stands in this list too.
    /// </summary>
    Task StoreAsync(AccessionDb db, RowSlice slice, CancellationToken cancellation);

    /// <summary>
    /// Writes what reading a slice of stored rows again brought, within the open transaction. Problems found in the
    /// file itself stay and count.
    /// </summary>
    Task RewriteAsync(AccessionDb db, RowSlice slice, CancellationToken cancellation);

    /// <summary>
    /// Writes within the open transaction what permits say against rows; rows are given in the order of their keys.
    /// </summary>
    Task WarnAsync(AccessionDb db, IReadOnlyList<RowWarning> warnings, CancellationToken cancellation);
}

/// <summary>Rows of one list of one batch.</summary>
public sealed record RowSlice(
    long BatchId, long ListId, IReadOnlyList<StagedRow> Rows, IReadOnlyList<StagedProblem> LinesNotRead);

/// <summary>A row as it is stored.</summary>
/// <param name="Id">The key of a row that is stored already; 0 for a row from the file.</param>
public sealed record StagedRow(
    long Id,
    int Line,
    string Identity,
    int Occurrence,
    string PairKey,
    string Cells,
    int Sheets,
    IReadOnlyList<StagedProblem> Problems)
{
    /// <summary>The number that its sheet bears and keeps; empty where it has none, or gets it here.</summary>
    public string CatalogNumber { get; init; } = "";

    public int OpenProblems => Problems.Count(problem => problem.Blocks);
}

/// <summary>What permits say against a row.</summary>
/// <param name="Id">The key of the row.</param>
/// <param name="Warning">The reasons in sentences; null when a permit covers it.</param>
public sealed record RowWarning(long Id, string? Warning);

/// <summary>A problem as it is stored.</summary>
/// <param name="FromFile">Found in the file itself; it stays when the row is read again.</param>
public sealed record StagedProblem(
    int Line, string ColumnName, string Text, string Reason, bool Blocks, bool FromFile = false);
