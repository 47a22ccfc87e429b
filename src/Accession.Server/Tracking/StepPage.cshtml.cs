using Accession.Core.Specimens;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>Which sheets wait for a step, the oldest first.</summary>
public sealed class StepPageModel(AccessionDb db) : PageModel
{
    private const int OfAPage = 50;

    public Step Step { get; private set; }

    public int Count { get; private set; }

    public IReadOnlyList<Line> Waiting { get; private set; } = [];

    /// <summary>Behind the last one shown; null when there are no more.</summary>
    public long? Next { get; private set; }

    public sealed record Line(
        long Id, string Code, string CatalogNumber, int Repeat, string Name, string Collector, string RecordNumber,
        string? Parcel, int? Load, DateTime? CameFromOutsideAt);

    public async Task<IActionResult> OnGetAsync(string step, long? after, CancellationToken cancellation)
    {
        if (!Enum.TryParse<Step>(step, ignoreCase: true, out var wanted) || !Enum.IsDefined(wanted)
            || char.IsDigit(step[0]))
        {
            return NotFound();
        }

        Step = wanted;
        var waiting = db.Parts.Where(p => p.NextStep == wanted);
        Count = await waiting.CountAsync(cancellation);
        var from = after ?? 0;
        var lines = await waiting.Where(p => p.Id > from).OrderBy(p => p.Id).Take(OfAPage + 1)
            .Join(db.Specimens, p => p.SpecimenId, s => s.Id, (p, s) => new Line(
                p.Id, p.Code, s.CatalogNumber, s.Repeat, s.CurrentName, s.Gathering.Notes.RecordedBy,
                s.Gathering.Notes.RecordNumber,
                db.Parcels.Where(parcel => parcel.Id == p.ParcelId).Select(parcel => parcel.Tag).FirstOrDefault(),
                db.Loads.Where(load => load.Id == p.LoadId).Select(load => (int?)load.Number).FirstOrDefault(),
                p.CameFromOutsideAt))
            .ToListAsync(cancellation);
        Next = lines.Count > OfAPage ? lines[OfAPage - 1].Id : null;
        Waiting = [.. lines.Take(OfAPage)];
        return Page();
    }
}
