using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Localities;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>Everything that one act corrected, and the way to take it back.</summary>
[Authorize(Access.Curators)]
public sealed class CorrectionModel(AccessionDb db, CorrectedRecords records, TakeCorrectionsBack takeBack) : PageModel
{
    public long ActId { get; private set; }

    public IReadOnlyList<CorrectedRecords.Entry> Entries { get; private set; } = [];

    /// <summary>A sheet of each gathering, by which its record is opened.</summary>
    public IReadOnlyDictionary<long, Sheet> Sheets { get; private set; } = new Dictionary<long, Sheet>();

    /// <summary>The act that took it back; null while it stands.</summary>
    public long? TakenBackBy { get; private set; }

    [BindProperty]
    public string? Reason { get; set; }

    public sealed record Sheet(string CatalogNumber, int Repeat, bool IsRepeated)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation) =>
        await LoadAsync(id, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(long id, CancellationToken cancellation)
    {
        var outcome = await takeBack.RunAsync(new(id, Reason), HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] = "Taken back: what stood before stands again.";
            return Redirect($"/correction/{outcome.Value.ActId}");
        }

        return await LoadAsync(id, cancellation) ? this.Show(outcome.Refusals) : NotFound();
    }

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        ActId = id;
        Entries = await records.EntriesAsync(db.Corrections.Where(c => c.ActId == id), cancellation);
        TakenBackBy = await db.Corrections.Where(c => c.TakesBackActId == id).Select(c => (long?)c.ActId)
            .FirstOrDefaultAsync(cancellation);
        var ids = Entries.Select(entry => entry.GatheringId).Distinct().ToList();
        Sheets = (await db.Specimens.Where(s => ids.Contains(s.GatheringId)).OrderBy(s => s.Id)
                .Select(s => new
                {
                    s.GatheringId,
                    Sheet = new Sheet(s.CatalogNumber, s.Repeat, db.Specimens.Any(
                        o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id)),
                })
                .ToListAsync(cancellation))
            .DistinctBy(one => one.GatheringId).ToDictionary(one => one.GatheringId, one => one.Sheet);
        return Entries.Count > 0;
    }
}
