using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// Takes back the last sheet that somebody marked at a step, by an entry of its own: the undo of the bench.
/// </summary>
public sealed class TakeStepBack(AccessionDb db, PartInHand parts, TimeProvider clock)
{
    public Task<Outcome<BenchDone>> RunAsync(Step step, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take a step back", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<BenchDone>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Overlaps([Role.Curator, Role.Technician]))
                {
                    return new Refusal(RefusalKind.NotAllowed, "The bench is for technicians and curators.");
                }

                // What was taken back before stands behind a later entry, and is passed over.
                var last = await db.Parts.SelectMany(p => p.Steps)
                    .Where(entry => entry.Step == step && entry.Mark == StepMark.Done && entry.Act.ActorId == door.By.Id
                        && !db.Parts.SelectMany(p => p.Steps).Any(
                            later => later.PartId == entry.PartId && later.Step == step && later.Id > entry.Id))
                    .OrderByDescending(entry => entry.Id)
                    .Select(entry => new
                    {
                        entry.PartId,
                        SpecimenId = db.Parts.Where(p => p.Id == entry.PartId).Select(p => p.SpecimenId).Single(),
                    })
                    .FirstOrDefaultAsync(cancellation);
                if (last is null)
                {
                    return new Refusal(RefusalKind.Conflict, "You marked nothing here that could be taken back.");
                }

                var held = await parts.HeldAsync(last.PartId, last.SpecimenId, cancellation);
                return held.Part.TakeBack(step, held.Plan, act) is { } refusal
                    ? refusal
                    : held.TellTakenBack();
            },
            cancellation);
    }
}
