using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Arriving;

/// <summary>
/// One parcel: what happened to it, in which loads it was, what that is worth, when it may be opened.
/// </summary>
public sealed class ParcelPageModel(AccessionDb db, TieParcel tie, MoveParcel move, TimeProvider clock) : PageModel
{
    public Parcel Shown { get; private set; } = null!;

    public IReadOnlyList<TiedBatch> Batches { get; private set; } = [];

    public IReadOnlyList<Trail> Happened { get; private set; } = [];

    public int? OpenLoad { get; private set; }

    public int Sheets { get; private set; }

    public int SheetsUntreated { get; private set; }

    /// <summary>The place where it stands; null while that is known in words only.</summary>
    public ShownPlace? Place { get; private set; }

    /// <summary>Where it may go.</summary>
    public IReadOnlyList<ShownPlace> Places { get; private set; } = [];

    public string TaggedBy { get; private set; } = "";

    public bool IsCurator => User.IsInRole(nameof(Role.Curator));

    public DateTime Now => clock.GetUtcNow().UtcDateTime;

    public sealed record ShownPlace(long Id, string Name, Zone Zone);

    public sealed record TiedBatch(long Id, string Source);

    public sealed record Trail(DateTime At, string What, string Who, string? Reason, int? Load, bool IsBad);

    public async Task<IActionResult> OnGetAsync(string tag, CancellationToken cancellation) =>
        await LoadAsync(tag, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostTieAsync(string tag, long batch, CancellationToken cancellation) =>
        await TieAsync(new(tag, batch), $"Batch {batch} came in this parcel.", cancellation);

    public async Task<IActionResult> OnPostUntieAsync(string tag, long batch, CancellationToken cancellation) =>
        await TieAsync(
            new(tag, batch, Untie: true),
            $"Batch {batch} is not tied to this parcel any more. What was numbered keeps what it has.", cancellation);

    public async Task<IActionResult> OnPostMoveAsync(string tag, long? to, CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await move.RunAsync(new(tag, to), HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] = $"It stands in {outcome.Value} now.";
            return Redirect($"/parcel/{Parcel.TagIn(tag)}");
        }

        return await LoadAsync(tag, cancellation) ? this.Show(outcome.Refusals, "to") : NotFound();
    }

    private async Task<IActionResult> TieAsync(TieParcel.Request request, string said, CancellationToken cancellation)
    {
        if (!IsCurator)
        {
            return Forbid();
        }

        ModelState.Clear();
        var outcome = await tie.RunAsync(request, HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] = said;
            return Redirect($"/parcel/{outcome.Value}");
        }

        return await LoadAsync(request.Tag, cancellation) ? this.Show(outcome.Refusals, "batch") : NotFound();
    }

    private async Task<bool> LoadAsync(string tag, CancellationToken cancellation)
    {
        var wanted = Parcel.TagIn(tag);
        var parcel = await db.Parcels.AsNoTracking().Include(p => p.Act).SingleOrDefaultAsync(
            p => p.Tag == wanted, cancellation);
        if (parcel is null)
        {
            return false;
        }

        (Shown, TaggedBy) = (parcel, parcel.Act.ActorName);
        OpenLoad = await db.Loads.Where(l => l.Id == parcel.LoadId).Select(l => (int?)l.Number)
            .SingleOrDefaultAsync(cancellation);
        Batches = await db.Batches
            .Where(b => db.ParcelsOfBatches.Any(
                t => t.ParcelId == parcel.Id && t.BatchId == b.Id && t.UntiedActId == null))
            .OrderBy(b => b.Id).Select(b => new TiedBatch(b.Id, b.Source.Name)).ToListAsync(cancellation);
        Places = await db.Places
            .Where(p => p.Zone == Zone.Quarantine || (p.Zone == Zone.CollectionRoom && parcel.ClearedAt != null))
            .OrderBy(p => p.Name).Select(p => new ShownPlace(p.Id, p.Name, p.Zone)).ToListAsync(cancellation);
        Place = await db.Places.Where(p => p.Id == parcel.PlaceId).Select(p => new ShownPlace(p.Id, p.Name, p.Zone))
            .SingleOrDefaultAsync(cancellation);
        Sheets = await db.Parts.CountAsync(p => p.ParcelId == parcel.Id, cancellation);
        SheetsUntreated = await db.Parts.CountAsync(
            p => p.ParcelId == parcel.Id && p.ClearedAt == null, cancellation);
        Happened = await TrailAsync(parcel, cancellation);
        return true;
    }

    private async Task<IReadOnlyList<Trail>> TrailAsync(Parcel parcel, CancellationToken cancellation)
    {
        var loads = await db.Loads
            .Where(l => db.LoadItems.Any(i => i.LoadId == l.Id && i.ParcelId == parcel.Id && i.PartId == null))
            .SelectMany(l => l.Entries, (l, e) => new
            {
                l.Number,
                e.What,
                e.At,
                e.Act.ActorName,
                e.Act.Reason,
                Added = db.LoadItems.Where(i => i.LoadId == l.Id && i.ParcelId == parcel.Id && i.PartId == null)
                    .Select(i => (DateTime?)i.Act.At).FirstOrDefault(),
            })
            .ToListAsync(cancellation);
        var ties = await db.ParcelsOfBatches.Where(t => t.ParcelId == parcel.Id)
            .Select(t => new
            {
                t.BatchId,
                t.Act.At,
                t.Act.ActorName,
                UntiedAt = (DateTime?)t.UntiedAct!.At,
                UntiedBy = t.UntiedAct.ActorName,
            })
            .ToListAsync(cancellation);
        var places = await db.Parcels.Where(p => p.Id == parcel.Id).SelectMany(p => p.Places)
            .Join(db.Places, e => e.PlaceId, place => place.Id, (e, place) => new Trail(
                e.Act.At, "Put in " + place.Name, e.Act.ActorName, null, null, false))
            .ToListAsync(cancellation);
        return
        [
            .. loads.Where(e => e.What != LoadEvent.Listed)
                .Select(e => new Trail(
                    e.At, TreatmentWords.Of(e.What), e.ActorName, e.Reason, e.Number,
                    e.What is LoadEvent.Failed or LoadEvent.NotProved))
                .Concat(loads.DistinctBy(e => e.Number)
                    .Select(e => new Trail(e.Added!.Value, "Put on the list", "", null, e.Number, false)))
                .Concat(ties.Select(t => new Trail(t.At, $"Tied to batch {t.BatchId}", t.ActorName, null, null, false)))
                .Concat(ties.Where(t => t.UntiedAt is not null).Select(
                    t => new Trail(t.UntiedAt!.Value, $"Untied from batch {t.BatchId}", t.UntiedBy, null, null, false)))
                .Concat(places)
                .Append(new Trail(parcel.Act.At, "Tagged at the door", TaggedBy, null, null, false))
                .OrderBy(entry => entry.At),
        ];
    }
}
