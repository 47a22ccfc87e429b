using Accession.Core.Numbers;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

public sealed class PilesModel(AccessionDb db) : PageModel
{
    private const int MostShown = 200;

    public IReadOnlyList<Pile> Shown { get; private set; } = [];

    public bool HasSeries { get; private set; }

    public sealed record Pile(string Number, string Source, DateTime TakenInAt, int Left, int ToScanBack);

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        HasSeries = await db.Series.AnyAsync(s => s.Use == SeriesUse.Specimens, cancellation);
        Shown = await db.Accessions
            .Select(lot => new
            {
                lot.Id,
                lot.Number,
                lot.Act.At,
                Source = db.Batches.Where(b => b.Id == lot.BatchId).Select(b => b.Source.Name).Single(),
                Left = db.Gatherings.Where(g => g.AccessionId == lot.Id).Sum(g => g.SheetsExpected - g.SheetsNumbered),
                ToScanBack = db.Specimens.Count(
                    s => s.Gathering.AccessionId == lot.Id && s.Parts.Any(p => !p.IsNumbered && !p.IsFromBefore)),
            })
            .Where(lot => lot.Left > 0 || lot.ToScanBack > 0)
            .OrderBy(lot => lot.Id)
            .Take(MostShown)
            .Select(lot => new Pile(lot.Number, lot.Source, lot.At, lot.Left, lot.ToScanBack))
            .ToListAsync(cancellation);
    }
}
