using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// Takes back the last thing that somebody put on the list of a load by scanning, while its lid is open.
/// </summary>
public sealed class TakeLineBack(AccessionDb db, PartInHand parts, TimeProvider clock)
{
    public Task<Outcome<BenchDone>> RunAsync(Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take something off the list of a load", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => TakeBackAsync(door, act, cancellation), cancellation);
    }

    private async Task<Outcome<BenchDone>> TakeBackAsync(Door door, Act act, CancellationToken cancellation)
    {
        var last = await db.LoadItems
            .Where(item => item.Act.ActorId == door.By.Id && item.Act.What == PutOnLoad.What)
            .OrderByDescending(item => item.Id)
            .Select(item => new
            {
                item.Id,
                db.Loads.Single(load => load.Id == item.LoadId).Number,
            })
            .FirstOrDefaultAsync(cancellation);
        if (last is null)
        {
            return new Refusal(RefusalKind.Conflict, "You put nothing on a list here that could be taken back.");
        }

        await db.SaveChangesAsync(cancellation);   // the line names this act
        var load = (await HeldLoad.OfAsync(db, last.Number, cancellation))!;
        var item = await db.LoadItems.SingleAsync(one => one.Id == last.Id, cancellation);
        if (item.PartId is { } id)
        {
            var specimen = await db.Parts.Where(p => p.Id == id).Select(p => p.SpecimenId).SingleAsync(cancellation);
            var held = await parts.HeldAsync(id, specimen, cancellation);
            return load.TakeOff(item, null, held.Part, act) is { } stays ? stays : held.TellTakenBack();
        }

        var parcel = await db.Parcels.SingleAsync(p => p.Id == item.ParcelId, cancellation);
        return load.TakeOff(item, parcel, null, act) is { } refusal
            ? refusal
            : new BenchDone(parcel.Tag, "", 0, parcel.FromWhom, "", "Taken back", "", true, null);
    }
}
