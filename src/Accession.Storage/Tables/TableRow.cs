namespace Accession.Storage.Tables;

/// <summary>One row of a list as text, or its refusal. Either way it says which lines it came from.</summary>
/// <param name="Line">The line where the row begins, from 1; in a workbook the row number a spreadsheet shows.</param>
/// <param name="LastLine">The line where it ends: a quoted cell may hold line breaks.</param>
/// <param name="Cells">One text for each heading, without the white space round it; empty when refused.</param>
/// <param name="Problems">What a person should know about the row; never empty when it is refused.</param>
/// <param name="IsRefused">Whether the row could not be read. Its text then stands in the problem.</param>
public sealed record TableRow(
    int Line,
    int LastLine,
    IReadOnlyList<string> Cells,
    IReadOnlyList<TableProblem> Problems,
    bool IsRefused)
{
    /// <summary>
    /// The columns, from 0, whose cells the spreadsheet holds as dates: a collector number there has been
    /// rewritten by the spreadsheet and must be looked up again.
    /// </summary>
    public IReadOnlyList<int> DateColumns { get; init; } = [];
}
