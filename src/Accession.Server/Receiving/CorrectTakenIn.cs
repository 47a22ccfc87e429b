using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Says that rows correct rows of the register: they lead to the gatherings that are there, and are not taken in again.
/// </summary>
public sealed class CorrectTakenIn(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long BatchId, IReadOnlyList<long> RowIds, string? Reason);

    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(
            door, "say that rows correct the register", clock.GetUtcNow().UtcDateTime, request.Reason);
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
                var rows = db.Rows.Where(SettledRows.Open).Where(LikeRows.AreAsked(db))
                    .Where(row => row.BatchId == request.BatchId && request.RowIds.Contains(row.Id));
                var ids = await rows.Select(row => row.Id).ToListAsync(cancellation);
                if (ids.Count == 0)
                {
                    return new Refusal(RefusalKind.Conflict,
                        "None of these rows waits to be told from a row of the register. Look at them again.");
                }

                await rows.ExecuteUpdateAsync(
                    row => row.SetProperty(r => r.GatheringId, r => db.Rows
                        .Where(old => old.SupersededById == r.Id).Max(old => old.GatheringId)),
                    cancellation);
                await db.Problems
                    .Where(problem => problem.Reason == LikeRows.Question && ids.Contains(problem.RowId!.Value))
                    .ExecuteDeleteAsync(cancellation);
                await db.Rows.Where(row => ids.Contains(row.Id)).ExecuteUpdateAsync(
                    row => row.SetProperty(r => r.OpenProblems, r => r.OpenProblems - 1), cancellation);
                return ids.Count;
            },
            cancellation);
    }
}
