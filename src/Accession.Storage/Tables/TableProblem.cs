namespace Accession.Storage.Tables;

/// <summary>Something in a file that could not be taken as it stands, at the place where it happened.</summary>
/// <param name="Line">The line of the file, from 1; in a workbook the row number that a spreadsheet shows.</param>
/// <param name="Column">The column, from 1; null when the whole line is meant.</param>
/// <param name="ColumnName">The heading of that column; null when the whole line is meant.</param>
/// <param name="Text">What stands there, to the letter; long texts are cut and end in "…".</param>
/// <param name="Reason">What is wrong with it, as a sentence for a curator.</param>
public sealed record TableProblem(int Line, int? Column, string? ColumnName, string Text, string Reason)
{
    private const int LongestQuote = 500;

    /// <summary>A text short enough to stand in a list of problems.</summary>
    internal static string Cut(string text) => text.Length <= LongestQuote ? text : text[..LongestQuote] + "…";
}
