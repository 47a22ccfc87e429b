using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>Takes back the last sheet that somebody put in a place by scanning: it never went there.</summary>
public sealed class TakePlaceBack(AccessionDb db, PartInHand parts, TimeProvider clock)
{
    public Task<Outcome<BenchDone>> RunAsync(Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take a move back", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => TakeBackAsync(door, act, cancellation), cancellation);
    }

    private async Task<Outcome<BenchDone>> TakeBackAsync(Door door, Act act, CancellationToken cancellation)
    {
        var last = await db.Parts.SelectMany(p => p.Places)
            .Where(entry => entry.TakenBackActId == null && entry.Act.ActorId == door.By.Id
                && entry.Act.What == PutInPlace.What)
            .OrderByDescending(entry => entry.Id)
            .Select(entry => new
            {
                entry.PartId,
                entry.ActId,
                IsLast = !db.Parts.SelectMany(p => p.Places).Any(
                    later => later.PartId == entry.PartId && later.TakenBackActId == null && later.Id > entry.Id),
                SpecimenId = db.Parts.Where(p => p.Id == entry.PartId).Select(p => p.SpecimenId).Single(),
            })
            .FirstOrDefaultAsync(cancellation);
        if (last is null || !last.IsLast)
        {
            return new Refusal(RefusalKind.Conflict, last is null
                ? "You put nothing in a place here that could be taken back."
                : "What you scanned last was moved again since. Move it, rather than taking the move back.");
        }

        await db.SaveChangesAsync(cancellation);   // the entry names this act
        var held = await parts.HeldAsync(last.PartId, last.SpecimenId, cancellation);
        var (part, plan) = (held.Part, held.Plan);
        var wasFiled = part.Steps.OrderBy(one => one.Id).LastOrDefault(one => one.Step == Step.Filed)
            is { Mark: StepMark.Done } filed && filed.ActId == last.ActId;
        if (wasFiled && part.TakeBack(Step.Filed, plan, act) is { } stays)
        {
            return stays;
        }

        var refusal = part.MoveBack(
            await BeforeAsync(part, cancellation), await FirstCameAsync(part, cancellation), plan, act);
        return refusal is not null ? refusal : held.TellTakenBack();
    }

    private async Task<Place?> BeforeAsync(Part part, CancellationToken cancellation)
    {
        var before = part.Places.Where(entry => entry.TakenBackActId is null).OrderBy(entry => entry.Id)
            .SkipLast(1).LastOrDefault()?.PlaceId;
        return before is null ? null : await db.Places.SingleAsync(place => place.Id == before, cancellation);
    }

    // As it was when it was numbered: with its parcel, or with its number.
    private async Task<DateTime?> FirstCameAsync(Part part, CancellationToken cancellation) =>
        part.IsFromBefore ? null
        : part.ParcelId is { } parcel
            ? await db.Parcels.Where(p => p.Id == parcel).Select(p => (DateTime?)p.CameAt).SingleAsync(cancellation)
            : await db.Parts.Where(p => p.Id == part.Id).SelectMany(p => p.Custody).OrderBy(c => c.Id)
                .Select(c => (DateTime?)c.Act.At).FirstAsync(cancellation);
}
