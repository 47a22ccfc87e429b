namespace Accession.Storage.Tables;

/// <summary>An opened file of either kind, before its headings are known.</summary>
/// <param name="Format">What it is, for people.</param>
/// <param name="Encoding">How its letters are written, for people.</param>
/// <param name="Upper">The first rows with something in them, enough to find the headings among.</param>
/// <param name="Rows">Reads it from the beginning.</param>
/// <param name="Notes">What a person should know about the file as a whole.</param>
/// <param name="ReportsShortRows">Whether a row with too few cells is worth a word: not where most are so.</param>
internal sealed record TableSource(
    string Format,
    string Encoding,
    IReadOnlyList<RawRow> Upper,
    Func<IEnumerable<RawRow>> Rows,
    IReadOnlyList<TableProblem> Notes,
    bool ReportsShortRows);
