using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Opens a closed batch again, with a reason; its closing stays as an entry.</summary>
public sealed class ReopenBatch(AccessionDb db, InstitutionClock calendar, TimeProvider clock)
{
    public sealed record Request(long BatchId, string? Reason);

    public Task<Outcome<long>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "reopen a batch", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync<long>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Contains(Role.Curator))
                {
                    return new Refusal(RefusalKind.NotAllowed, "Opening a batch again is for curators.");
                }

                var batch = await db.Batches.Held().SingleOrDefaultAsync(
                    b => b.Id == request.BatchId && b.JoinedToBatchId == null, cancellation);
                if (batch is null)
                {
                    return new Refusal(RefusalKind.NotFound, $"There is no batch {request.BatchId}.");
                }

                var entry = batch.Reopen(calendar.Day(act.At), act);
                if (entry.IsRefused)
                {
                    return entry.Refusals.ToList();
                }

                db.Add(entry.Value);
                return batch.Id;
            },
            cancellation);
    }
}
