using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>Lets one sheet in untreated: for curators, with a reason.</summary>
public sealed class WaiveTreatment(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long PartId, string? Reason);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "let a sheet in untreated", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync<string>(door, act, async () =>
        {
            var part = await db.Parts.SingleOrDefaultAsync(p => p.Id == request.PartId, cancellation);
            if (part is null)
            {
                return new Refusal(RefusalKind.NotFound, "There is no such sheet.");
            }

            var plan = part.PlanId is { } followed
                ? await db.StepPlans.AsNoTracking().SingleAsync(one => one.Id == followed, cancellation)
                : null;
            return part.Waive(door.By, plan, act) is { } refusal ? refusal : part.Code;
        }, cancellation);
    }
}
