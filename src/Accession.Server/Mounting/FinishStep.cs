using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Shared;
using Accession.Storage;

namespace Accession.Server.Mounting;

/// <summary>Marks a step of the sheet that was scanned as done.</summary>
public sealed class FinishStep(AccessionDb db, PartInHand parts, TimeProvider clock)
{
    public sealed record Request(Step Step, string? Code);

    public Task<Outcome<BenchDone>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "finish a step", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<BenchDone>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Overlaps([Role.Curator, Role.Technician]))
                {
                    return new Refusal(RefusalKind.NotAllowed, "The bench is for technicians and curators.");
                }

                var held = await parts.FindAsync(request.Code, cancellation);
                return held.IsRefused ? held.Refusals.ToList()
                    : held.Value.Part.Finish(request.Step, held.Value.Plan, act) is { } refusal ? refusal
                    : held.Value.Tell(TreatmentWords.Of(request.Step), $"is {BenchCommand.WordOf(request.Step)}");
            },
            cancellation);
    }
}
