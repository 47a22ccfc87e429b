using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Settles rows whose problems nobody can mend: what could not be read stays to the letter and has no value beside it.
/// </summary>
public sealed class TakeAsWritten(AccessionDb db, TimeProvider clock)
{
    /// <param name="RowIds">The rows; empty for every open row of the batch.</param>
    public sealed record Request(long BatchId, IReadOnlyList<long> RowIds, string? Reason);

    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take rows as written", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync<int>(
            door, act,
            async () =>
            {
                var batch = await db.Batches.SingleOrDefaultAsync(b => b.Id == request.BatchId, cancellation);
                if (batch is null)
                {
                    return new Refusal(RefusalKind.NotFound, $"There is no batch {request.BatchId}.");
                }

                if (await BatchBusy.WhyNotNowAsync(db, request.BatchId, cancellation) is { } refusal)
                {
                    return refusal;
                }

                batch.ChangeRows();
                await db.SaveChangesAsync(cancellation);
                var rows = db.Rows.Where(SettledRows.Open).Where(row => row.BatchId == request.BatchId);
                if (request.RowIds.Count > 0)
                {
                    rows = rows.Where(row => request.RowIds.Contains(row.Id));
                }

                var settled = await rows.ExecuteUpdateAsync(
                    row => row.SetProperty(r => r.TakenAsWrittenActId, act.Id), cancellation);
                return settled > 0
                    ? settled
                    : new Refusal(RefusalKind.Conflict, "None of these rows is open any more. Look at them again.");
            },
            cancellation);
    }
}
