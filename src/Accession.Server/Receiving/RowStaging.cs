using Accession.Core.Batches;
using Accession.Storage.Databases;
using Accession.Storage.Tables;

namespace Accession.Server.Receiving;

/// <summary>
/// Turns the rows of a table into rows as they are stored, slice by slice; only one slice is in memory.
/// </summary>
internal sealed class RowStaging(Table table, ListReader reader, RowIdentity identity)
{
    /// <summary>What the dates that were read so far prove about day and month.</summary>
    public OrderTally Tally { get; private set; } = new();

    public sealed record Staged(List<StagedRow> Rows, List<StagedProblem> LinesNotRead);

    public IEnumerable<Staged> Slices(int size)
    {
        var slice = new Staged([], [.. table.Notes.Select(note => FromFile(note, blocks: false))]);
        foreach (var row in table.Rows())
        {
            if (row.IsRefused)
            {
                slice.LinesNotRead.AddRange(row.Problems.Select(problem => FromFile(problem, blocks: true)));
            }
            else
            {
                slice.Rows.Add(Stage(row));
            }

            if (slice.Rows.Count + slice.LinesNotRead.Count >= size)
            {
                yield return slice;
                slice = new Staged([], []);
            }
        }

        if (slice.Rows.Count + slice.LinesNotRead.Count > 0)
        {
            yield return slice;
        }
    }

    private StagedRow Stage(TableRow row)
    {
        var cells = new RowCells(row.Cells, row.DateColumns);
        var reading = reader.Read(cells);
        var (evidence, text) = reader.OrderEvidence(cells);
        Tally = Tally.With(row.Line, text, evidence);
        var id = identity.Of(row.Cells);
        return new(
            0, row.Line, id, identity.NextOccurrence(id), reading.PairKey, cells.ToJson(), reading.Sheets,
            [
                .. row.Problems.Select(problem => FromFile(problem, blocks: problem.ColumnName is null)),
                .. reading.Faults.Select(fault => Of(fault, row.Line)),
            ])
        {
            CatalogNumber = reading.CatalogNumber,
        };
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
