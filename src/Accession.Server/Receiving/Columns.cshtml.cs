using Accession.Core.Batches;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

public sealed class ColumnsModel(AccessionDb db, SettleList settle) : PageModel
{
    private const int SampleRows = 8;

    public long Id { get; private set; }

    public string Source { get; private set; } = "";

    public ColumnMatch Match { get; private set; } = null!;

    public bool CarriesNumbers { get; private set; }

    /// <summary>What a column of this list can mean.</summary>
    public IEnumerable<ListField> Fields =>
        ListField.All.Where(meaning => CarriesNumbers || meaning != ListField.CatalogNumber);

    public IReadOnlyList<SampleRow> Sample { get; private set; } = [];

    /// <summary>What was chosen on a page that was refused: it stands there again.</summary>
    public IReadOnlyDictionary<int, string?> Chosen { get; private set; } = new Dictionary<int, string?>();

    /// <summary>Whether a meaning is the one that its column shows.</summary>
    public bool IsShown(MatchedColumn column, ListField field) =>
        Chosen.TryGetValue(column.Column, out var name) ? name == field.Name : column.Field == field;

    public sealed record SampleRow(int Line, IReadOnlyList<string> Cells);

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation) =>
        await LoadAsync(id, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(
        long id, Dictionary<int, string?> chosen, CancellationToken cancellation)
    {
        var outcome = await settle.MatchAsync(
            id, chosen.ToDictionary(pair => pair.Key, pair => pair.Value ?? ""), HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] =
                "The columns are matched, and remembered for this source. The rows are being read again.";
            return Redirect($"/batch/{id}");
        }

        Chosen = chosen;
        return await LoadAsync(id, cancellation) ? this.Show(outcome.Refusals) : NotFound();
    }

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        var list = await db.Lists.Where(l => l.BatchId == id && l.IsRead && l.RefusedBecause == null)
            .OrderByDescending(l => l.Id)
            .Select(l => new
            {
                l.Id,
                l.Headings,
                l.Batch.Match,
                l.Batch.CarriesNumbers,
                Source = l.Batch.Source.Name,
                LastTime = db.Batches
                    .Where(earlier => earlier.SourceId == l.Batch.SourceId && earlier.Id < id)
                    .OrderByDescending(earlier => earlier.Id).Select(earlier => earlier.Match).FirstOrDefault(),
            })
            .FirstOrDefaultAsync(cancellation);
        if (list is null)
        {
            return false;
        }

        (Id, Source) = (id, list.Source);
        CarriesNumbers = list.CarriesNumbers;
        Match = ListColumns.Match(list.Headings, list.Match, list.CarriesNumbers)
            .Explained(list.LastTime is { } match ? ListColumns.Remembered(match) : null);
        // A row that came before keeps the cells in the order of the headings that it came under.
        var rows = await db.Rows.Where(row => row.BatchId == id && row.LastListId == list.Id)
            .OrderBy(row => row.Line).Take(SampleRows)
            .Select(row => new
            {
                row.Line,
                row.Cells,
                Headings = db.Lists.Where(l => l.Id == row.FirstListId).Select(l => l.Headings).First(),
            }).ToListAsync(cancellation);
        Sample = [.. rows.Select(row => new SampleRow(row.Line, InOrder(row.Headings, row.Cells)))];
        return true;
    }

    private List<string> InOrder(string headings, string cells)
    {
        var written = ListColumns.Headings(headings).Zip(RowCells.FromJson(cells).Cells)
            .ToDictionary(pair => pair.First, pair => pair.Second, StringComparer.OrdinalIgnoreCase);
        return [.. Match.Columns.Select(column => written.GetValueOrDefault(column.Heading, ""))];
    }
}
