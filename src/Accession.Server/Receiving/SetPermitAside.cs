using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Batches;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Sets a permit aside with a reason; it stays, and rows are no longer compared with it.</summary>
public sealed class SetPermitAside(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long BatchId, long PermitId, string? Reason);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "set a permit aside", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                if (!door.By.MaySeePapers)
                {
                    return new Refusal(RefusalKind.NotAllowed, "Permits are for curators: they may name exact places.");
                }

                var batch = await db.Batches.SingleOrDefaultAsync(b => b.Id == request.BatchId, cancellation);
                var permit = await db.Permits.SingleOrDefaultAsync(
                    p => p.Id == request.PermitId && db.WithJoined(request.BatchId).Contains(p.BatchId), cancellation);
                if (batch is null || permit is null)
                {
                    return new Refusal(RefusalKind.NotFound, "There is no such permit of this batch.");
                }

                if (permit.SetAside(batch, act) is { } refusal)
                {
                    return refusal;
                }

                db.Add(WorkRow.Wanted(ComparePermitsWork.Kind, batch.Id, act));
                return permit.Name;
            },
            cancellation);
    }
}
