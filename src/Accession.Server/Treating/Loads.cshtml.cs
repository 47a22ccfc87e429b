using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>Freezer loads: those that are not settled first, then all others, the newest first.</summary>
public sealed class LoadsModel(AccessionDb db, ListLoad list, OpenLoadNumbers open, TimeProvider clock) : PageModel
{
    private const int OfAPage = 50;

    private static readonly LoadStanding[] Open =
        [LoadStanding.Listed, LoadStanding.Running, LoadStanding.TakenOut];

    public IReadOnlyList<Line> Unsettled { get; private set; } = [];

    public IReadOnlyList<Line> Settled { get; private set; } = [];

    /// <summary>Behind the last one shown; null when there are no more.</summary>
    public int? Next { get; private set; }

    /// <summary>Since when no load is listed, because the register was put back; null while they are.</summary>
    public DateTime? ClosedSince { get; private set; }

    public IReadOnlyList<Freezer> Freezers { get; private set; } = [];

    public IReadOnlyList<Regime> Regimes { get; private set; } = [];

    [BindProperty]
    public long? Freezer { get; set; }

    [BindProperty]
    public long? Regime { get; set; }

    public DateTime Now => clock.GetUtcNow().UtcDateTime;

    public sealed record Line(
        int Number, string Freezer, string Regime, LoadStanding Standing, int Items, DateTime? ClockFrom,
        DateTime? MayOpenFrom, bool IsRepeated);

    public Task OnGetAsync(int? before, CancellationToken cancellation) => LoadAsync(before, cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await list.RunAsync(new(Freezer, Regime), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(null, cancellation);
            return this.Show(outcome.Refusals, nameof(Freezer));
        }

        TempData["Said"] = $"Load {outcome.Value} is begun. Put on its list what goes in, then close the lid.";
        return Redirect($"/freezer-load/{outcome.Value}");
    }

    public async Task<IActionResult> OnPostNumbersAsync(int? highest, CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await open.RunAsync(new(highest), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(null, cancellation);
            return this.Show(outcome.Refusals, "highest");
        }

        TempData["Said"] = outcome.Value == 0
            ? "Loads are listed again."
            : $"Loads are listed again, behind {outcome.Value:N0} that are on slips and not known here. What was in "
                + "them counts as untreated.";
        return Redirect("/freezer-loads");
    }

    private async Task LoadAsync(int? before, CancellationToken cancellation)
    {
        Unsettled = await Lines(db.Loads.Where(l => Open.Contains(l.Standing)).OrderBy(l => l.Number))
            .ToListAsync(cancellation);
        var below = before ?? int.MaxValue;
        var settled = await Lines(
            db.Loads.Where(l => !Open.Contains(l.Standing) && l.Number < below).OrderByDescending(l => l.Number)
                .Take(OfAPage + 1)).ToListAsync(cancellation);
        Next = settled.Count > OfAPage ? settled[OfAPage - 1].Number : null;
        Settled = [.. settled.Take(OfAPage)];
        Freezers = await db.Freezers.AsNoTracking().OrderBy(f => f.Name).ToListAsync(cancellation);
        ClosedSince = await db.TagCounters.Where(c => c.Kind == TagKind.Load && c.ClosedActId != null)
            .Select(c => (DateTime?)db.Acts.Where(act => act.Id == c.ClosedActId).Select(act => act.At).First())
            .SingleOrDefaultAsync(cancellation);
        Regimes = await LatestRegimes.OfAsync(db, cancellation);
    }

    private IQueryable<Line> Lines(IQueryable<FreezerLoad> loads) => loads.Select(l => new Line(
        l.Number, l.Freezer.Name, l.Regime.Name, l.Standing, db.LoadItems.Count(i => i.LoadId == l.Id), l.ClockFrom,
        l.MayOpenFrom, db.Loads.Any(other => other.RepeatsId == l.Id)));
}
