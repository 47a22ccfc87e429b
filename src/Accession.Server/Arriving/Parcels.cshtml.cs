using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Arriving;

/// <summary>
/// Parcels: what waits for treatment first, the oldest first; then all others. And the form at the door.
/// </summary>
public sealed class ParcelsModel(
    AccessionDb db, TagParcel tag, TieParcel tie, OpenTags open, InstitutionClock calendar, TimeProvider clock)
    : PageModel
{
    private const int OfAPage = 50;

    public IReadOnlyList<Line> Waiting { get; private set; } = [];

    public IReadOnlyList<Line> Treated { get; private set; } = [];

    /// <summary>Behind the last of those that wait; null when there are no more.</summary>
    public long? NextWaiting { get; private set; }

    /// <summary>Behind the last of those that are treated; null when there are no more.</summary>
    public long? NextTreated { get; private set; }

    public int WaitingInAll { get; private set; }

    /// <summary>Since when no tag is issued, because the register was put back; null while they are.</summary>
    public DateTime? ClosedSince { get; private set; }

    /// <summary>The places where a parcel may stand.</summary>
    public IReadOnlyList<ShownPlace> Places { get; private set; } = [];

    [BindProperty]
    public long? Place { get; set; }

    [BindProperty]
    public string? FromWhom { get; set; }

    [BindProperty]
    public DateOnly? CameOn { get; set; }

    [BindProperty]
    public string? Carrier { get; set; }

    [BindProperty]
    public int Boxes { get; set; } = 1;

    [BindProperty]
    public int Bundles { get; set; }

    [BindProperty]
    public string? Condition { get; set; }

    [BindProperty]
    public string? Standing { get; set; }

    public sealed record Line(
        long Id, string Tag, string FromWhom, DateOnly CameOn, int Boxes, int Bundles, string Standing, int? Load,
        ClearedBy? ClearedBy, DateTime? MayOpenFrom);

    public sealed record ShownPlace(long Id, string Name);

    public DateTime Now => clock.GetUtcNow().UtcDateTime;

    public async Task<IActionResult> OnGetAsync(
        long? waiting, long? treated, string? scan, CancellationToken cancellation)
    {
        // The tag of a parcel or of its receipt, scanned at the door.
        if (Parcel.TryReadTag(scan, out _, out _))
        {
            return Redirect($"/parcel/{Parcel.TagIn(scan)}");
        }

        CameOn = calendar.Day(Now);
        await LoadAsync(waiting, treated, cancellation);
        return string.IsNullOrWhiteSpace(scan)
            ? Page()
            : this.Show([new(RefusalKind.NotFound, "That is no tag of a parcel. Tags look like Q2026-0014.")], "scan");
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        ModelState.Clear();
        var details = new ParcelDetails(
            Text(FromWhom), CameOn, Text(Carrier), Boxes, Bundles, Text(Condition), Text(Standing), Place);
        var outcome = await tag.RunAsync(new(details), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(null, null, cancellation);
            var field = details.WhyNot(calendar.Day(Now)).Select(one => one.Field).FirstOrDefault() ?? "";
            return this.Show(outcome.Refusals, field);
        }

        TempData["Said"] = $"Parcel {outcome.Value} is tagged. Print its tag, stick it on, and keep it sealed until it "
            + "was frozen.";
        return Redirect($"/parcel/{outcome.Value}");
    }

    public async Task<IActionResult> OnPostTieAsync(
        string? parcel, long batch, bool back, CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await tie.RunAsync(new(parcel ?? "", batch), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(null, null, cancellation);
            return this.Show(outcome.Refusals);
        }

        TempData["Said"] = $"Batch {batch} came in parcel {outcome.Value}. Sheets numbered from now on "
            + "share its treatment.";
        return Redirect(back ? $"/batch/{batch}" : $"/parcel/{outcome.Value}");
    }

    public async Task<IActionResult> OnPostTagsAsync(string? highest, CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await open.RunAsync(new(highest), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(null, null, cancellation);
            return this.Show(outcome.Refusals, "highest");
        }

        TempData["Said"] = outcome.Value == 0
            ? "Tags are issued again."
            : $"Tags are issued again, behind {outcome.Value:N0} that are on parcels and not known here. Look for "
                + "those parcels: they are untreated, as far as anybody knows.";
        return Redirect("/parcels");
    }

    private static string Text(string? typed) => typed?.Trim() ?? "";

    private async Task LoadAsync(long? waiting, long? treated, CancellationToken cancellation)
    {
        var after = waiting ?? 0;
        var untreated = await Lines(db.Parcels.Where(p => p.ClearedAt == null && p.Id > after).OrderBy(p => p.Id))
            .ToListAsync(cancellation);
        var before = treated ?? long.MaxValue;
        var cleared = await Lines(
            db.Parcels.Where(p => p.ClearedAt != null && p.Id < before).OrderByDescending(p => p.Id))
            .ToListAsync(cancellation);
        (Waiting, NextWaiting) = Paged(untreated);
        (Treated, NextTreated) = Paged(cleared);
        ClosedSince = await db.TagCounters.Where(c => c.Kind == TagKind.Parcel && c.ClosedActId != null)
            .Select(c => (DateTime?)db.Acts.Where(act => act.Id == c.ClosedActId).Select(act => act.At).First())
            .SingleOrDefaultAsync(cancellation);
        Places = await db.Places.Where(p => p.Zone == Zone.Quarantine).OrderBy(p => p.Name)
            .Select(p => new ShownPlace(p.Id, p.Name)).ToListAsync(cancellation);
        WaitingInAll = await db.Parcels.CountAsync(p => p.ClearedAt == null, cancellation);
    }

    private IQueryable<Line> Lines(IQueryable<Parcel> parcels) => parcels.Take(OfAPage + 1).Select(p => new Line(
        p.Id, p.Tag, p.FromWhom, p.CameOn, p.Boxes, p.Bundles,
        db.Places.Where(place => place.Id == p.PlaceId).Select(place => place.Name).FirstOrDefault() ?? p.Standing,
        db.Loads.Where(l => l.Id == p.LoadId).Select(l => (int?)l.Number).FirstOrDefault(),
        p.ClearedBy, p.MayOpenFrom));

    private static (IReadOnlyList<Line> Shown, long? Next) Paged(List<Line> lines) => lines.Count > OfAPage
        ? (lines[..OfAPage], lines[OfAPage - 1].Id)
        : (lines, null);
}
