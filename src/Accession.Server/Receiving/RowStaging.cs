using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Storage.Databases;
using Accession.Storage.Tables;

namespace Accession.Server.Receiving;

/// <summary>
/// Turns the rows of a table into rows as they are stored, slice by slice; only one slice is in memory. The rows of a
/// slice are read side by side, and counted in their order.
/// </summary>
internal sealed class RowStaging(Table table, ListReader reader, RowIdentity identity)
{
    /// <summary>What the dates that were read so far prove about day and month.</summary>
    public OrderTally Tally { get; private set; } = new();

    public sealed record Staged(List<StagedRow> Rows, List<StagedProblem> LinesNotRead);

    public IEnumerable<Staged> Slices(int size)
    {
        List<TableRow> rows = [];
        List<StagedProblem> notRead = [.. table.Notes.Select(note => FromFile(note, blocks: false))];
        foreach (var row in table.Rows())
        {
            if (row.IsRefused)
            {
                notRead.AddRange(row.Problems.Select(problem => FromFile(problem, blocks: true)));
            }
            else
            {
                rows.Add(row);
            }

            if (rows.Count + notRead.Count >= size)
            {
                yield return new(Stage(rows), notRead);
                (rows, notRead) = ([], []);
            }
        }

        if (rows.Count + notRead.Count > 0)
        {
            yield return new(Stage(rows), notRead);
        }
    }

    private List<StagedRow> Stage(List<TableRow> rows)
    {
        List<StagedRow> staged = [];
        foreach (var (row, evidence, text) in rows.SideBySide(Stage))
        {
            Tally = Tally.With(row.Line, text, evidence);
            staged.Add(row with { Occurrence = identity.NextOccurrence(row.Identity) });
        }

        return staged;
    }

    private (StagedRow Row, DayMonthEvidence Evidence, string Text) Stage(TableRow row)
    {
        var cells = new RowCells(row.Cells, row.DateColumns);
        var reading = reader.Read(cells);
        var (evidence, text) = reader.OrderEvidence(cells);
        var staged = new StagedRow(
            0, row.Line, identity.Of(row.Cells), 0, reading.PairKey, cells.ToJson(), reading.Sheets,
            [
                .. row.Problems.Select(problem => FromFile(problem, blocks: problem.ColumnName is null)),
                .. reading.Faults.Select(fault => Of(fault, row.Line)),
            ])
        {
            CatalogNumber = reading.CatalogNumber,
        };
        return (staged, evidence, text);
    }

    public static StagedProblem Of(RowFault fault, int line) =>
        new(line, Cut(fault.Heading, 200), Cut(fault.Text, 500), fault.Reason, fault.Blocks);

    private static StagedProblem FromFile(TableProblem problem, bool blocks) => new(
        problem.Line, Cut(problem.ColumnName ?? "", 200), Cut(problem.Text, 500), problem.Reason, blocks,
        FromFile: true);

    // A cut between the two halves of one character would leave a text that a database refuses.
    private static string Cut(string text, int length) => text.Length <= length
        ? text
        : text[..(char.IsHighSurrogate(text[length - 1]) ? length - 1 : length)] + "…";
}
