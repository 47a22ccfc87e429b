using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>Takes back the last sheet that somebody put in a place by scanning: it never went there.</summary>
public sealed class TakePlaceBack(AccessionDb db, PartInHand parts, MovesBack moves, TimeProvider clock)
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
        return await moves.TakeBackAsync(held.Part, held.Plan, act, cancellation) is { } refusal
            ? refusal
            : held.TellTakenBack();
    }
}
