using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// What a private link shows: every number of a parcel or a batch, where it is and what it was named. No place of any
/// plant stands here, protected or not: a link can be passed on.
/// </summary>
[AllowAnonymous, EnableRateLimiting(Access.SignInRate)]
public sealed class WhereIsItModel(AccessionDb db, PrivateLinks links) : PageModel
{
    private const int PageSize = 50;

    /// <summary>The parcel's tag, or the batch.</summary>
    public string Heading { get; private set; } = "";

    /// <summary>Rows of the list that no curator has accepted yet.</summary>
    public int Waiting { get; private set; }

    public IReadOnlyList<Gone> SetAside { get; private set; } = [];

    public IReadOnlyList<Number> Numbers { get; private set; } = [];

    public string? Next { get; private set; }

    /// <summary>One number with its sheets.</summary>
    public sealed record Number(Gathered Of, IReadOnlyList<Sheet> Sheets)
    {
        public int Unnumbered => Of.Expected - Of.Numbered;
    }

    public sealed record Gathered(
        long Id, string RecordedBy, string RecordNumber, string EventDate, string DateVerbatim, string NameVerbatim,
        int Expected, int Numbered);

    /// <param name="Since">When it came where it is.</param>
    public sealed record Sheet(
        long GatheringId, string Code, string Name, string NamedBy, string Holder, Zone Zone, DateTime Since,
        Step? Next);

    /// <summary>Sheets that did not stay.</summary>
    public sealed record Gone(string RecordedBy, string RecordNumber, int Sheets, RowDecision Decision, DateTime At);

    public async Task<IActionResult> OnGetAsync(string token, long? after, CancellationToken cancellation)
    {
        Response.Headers["Referrer-Policy"] = "no-referrer";
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        if (await links.SubjectAsync(token, cancellation) is not { } subject)
        {
            return NotFound();
        }

        var batches = await BatchesAsync(subject, cancellation);
        Heading = subject.ParcelId is { } parcel
            ? $"Parcel {await db.Parcels.Where(p => p.Id == parcel).Select(p => p.Tag).SingleAsync(cancellation)}"
            : $"Batch {subject.BatchId}";
        Waiting = await db.Rows.Where(BatchRow.Waiting).CountAsync(r => batches.Contains(r.BatchId), cancellation);
        var gatherings = db.Gatherings.Where(g =>
            db.Accessions.Any(lot => lot.Id == g.AccessionId && batches.Contains(lot.BatchId))
            || (subject.ParcelId != null && db.Specimens.Any(s => s.GatheringId == g.Id
                && s.Parts.Any(p => p.ParcelId == subject.ParcelId))));
        // Bad news first.
        SetAside = await db.SetAside.Where(s => gatherings.Any(g => g.Id == s.GatheringId)).OrderBy(s => s.Id)
            .Join(db.Gatherings, s => s.GatheringId, g => g.Id, (s, g) => new Gone(
                g.Notes.RecordedBy, g.Notes.RecordNumber, s.Sheets, s.Decision, s.Act.At))
            .Take(PageSize).ToListAsync(cancellation);
        var from = after ?? 0;
        var found = await gatherings.Where(g => g.Id > from).OrderBy(g => g.Id).Take(PageSize + 1)
            .Select(g => new Gathered(
                g.Id, g.Notes.RecordedBy, g.Notes.RecordNumber, g.Notes.EventDate, g.Notes.DateVerbatim,
                g.Notes.NameVerbatim, g.SheetsExpected, g.SheetsNumbered))
            .ToListAsync(cancellation);
        Next = found.Count > PageSize ? $"/to/{token}?after={found[PageSize - 1].Id}" : null;
        await LoadAsync([.. found.Take(PageSize)], cancellation);
        return Page();
    }

    private async Task<List<long>> BatchesAsync(PrivateLinks.Subject subject, CancellationToken cancellation) =>
        subject.BatchId is { } batch
            ? [batch]
            : await db.ParcelsOfBatches.Where(t => t.ParcelId == subject.ParcelId && t.UntiedActId == null)
                .Select(t => t.BatchId).ToListAsync(cancellation);

    private async Task LoadAsync(List<Gathered> gathered, CancellationToken cancellation)
    {
        var ids = gathered.ConvertAll(g => g.Id);
        var sheets = (await db.Parts
                .Join(db.Specimens.Where(s => ids.Contains(s.GatheringId)), p => p.SpecimenId, s => s.Id, (p, s) => new
                {
                    p.Id,
                    s.GatheringId,
                    p.Code,
                    s.CurrentName,
                    NamedBy = s.Determinations.OrderBy(d => d.Id)
                        .Where(d => s.CurrentDeterminationId == null || d.Id == s.CurrentDeterminationId)
                        .Select(d => d.IdentifiedBy).FirstOrDefault(),
                    p.Holder,
                    p.Zone,
                    Held = p.Custody.Max(c => c.Act.At),
                    Put = p.Places.Max(e => (DateTime?)e.Act.At),
                    p.NextStep,
                })
                .OrderBy(p => p.Id).ToListAsync(cancellation))
            .ToLookup(
                p => p.GatheringId,
                p => new Sheet(
                    p.GatheringId, p.Code, p.CurrentName, p.NamedBy ?? "", p.Holder, p.Zone,
                    p.Put > p.Held ? p.Put.Value : p.Held, p.NextStep));
        Numbers = gathered.ConvertAll(g => new Number(g, [.. sheets[g.Id]]));
    }
}
