using Accession.Core.Accessions;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Batches;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Writes a permit of a batch down, or corrects one; the rows are then compared with it.</summary>
public sealed class WritePermit(AccessionDb db, TimeProvider clock)
{
    /// <param name="CorrectsId">The permit that is corrected; null for a new one.</param>
    public sealed record Request(long BatchId, long? CorrectsId, PermitTerms Terms, string? Reason = null);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var what = request.CorrectsId is null ? "write a permit down" : "correct a permit";
        var act = Act.Of(door, what, clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync(door, act, () => WriteAsync(request, door, act, cancellation), cancellation);
    }

    private async Task<Outcome<string>> WriteAsync(
        Request request, Door door, Act act, CancellationToken cancellation)
    {
        if (!door.By.MaySeePapers)
        {
            return new Refusal(RefusalKind.NotAllowed, "Permits are for curators: they may name exact places.");
        }

        var batch = await db.Batches.SingleOrDefaultAsync(
            b => b.Id == request.BatchId && b.JoinedToBatchId == null, cancellation);
        if (batch is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no batch {request.BatchId}.");
        }

        if (request.Terms.PaperId is { } paper && !await db.Papers.AnyAsync(
            p => p.Id == paper && db.WithJoined(batch.Id).Contains(p.BatchId), cancellation))
        {
            return new Refusal(RefusalKind.Invalid, "Choose a paper of this batch.");
        }

        var permit = Permit.Of(batch, request.Terms, act);
        if (request.CorrectsId is { } id)
        {
            var earlier = await db.Permits.SingleOrDefaultAsync(
                p => p.Id == id && db.WithJoined(batch.Id).Contains(p.BatchId), cancellation);
            permit = earlier is null
                ? new Refusal(RefusalKind.NotFound, "There is no such permit of this batch.")
                : earlier.Correct(batch, request.Terms, act);
        }

        if (permit.IsRefused)
        {
            return permit.Refusals.ToList();
        }

        db.Add(permit.Value);
        db.Add(WorkRow.Wanted(ComparePermitsWork.Kind, batch.Id, act));
        return permit.Value.Name;
    }
}
