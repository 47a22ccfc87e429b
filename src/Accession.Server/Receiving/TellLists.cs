using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Says of a list that is much like an earlier one of its source whether it is that list again. Another list may be
/// joined after all while none of its rows is in the register.
/// </summary>
public sealed class TellLists(AccessionDb db, TimeProvider clock)
{
    /// <summary>It is another list, and stays a batch of its own.</summary>
    public Task<Outcome<long>> AnotherAsync(long batchId, Door door, CancellationToken cancellation) =>
        TellAsync(batchId, "tell lists apart", door, (batch, _) => Task.FromResult<Outcome<long>>(
            batch.TellApart() is { } refusal ? refusal : batch.Id), cancellation);

    /// <summary>It is the earlier batch's list again: it moves there and is read as such.</summary>
    public Task<Outcome<long>> SameAsync(long batchId, Door door, CancellationToken cancellation) => TellAsync(
        batchId, "join a list to an earlier batch", door, (batch, act) => JoinAsync(batch, act, cancellation),
        cancellation);

    private Task<Outcome<long>> TellAsync(
        long batchId, string what, Door door, Func<Batch, Act, Task<Outcome<long>>> tell,
        CancellationToken cancellation)
    {
        var act = Act.Of(door, what, clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(
            door, act,
            async () =>
            {
                var batch = await db.Batches.Include(b => b.Source).Include(b => b.Lists)
                    .SingleOrDefaultAsync(b => b.Id == batchId, cancellation);
                return batch is null ? new Refusal(RefusalKind.NotFound, $"There is no batch {batchId}.")
                    : await BatchBusy.WhyNotNowAsync(db, batchId, cancellation) is { } busy ? busy
                    : await tell(batch, act);
            },
            cancellation);
    }

    private async Task<Outcome<long>> JoinAsync(Batch batch, Act act, CancellationToken cancellation)
    {
        var earlier = await db.Batches.Include(b => b.Source).Include(b => b.Lists).SingleOrDefaultAsync(
            b => b.Id == batch.ResemblesBatchId && b.JoinedToBatchId == null, cancellation);
        if (earlier is null || batch.JoinedToBatchId is not null)
        {
            return new Refusal(RefusalKind.Conflict, "There is no earlier batch to join any more. Look at it again.");
        }

        if (await WhyNotJoinAsync(batch, earlier, cancellation) is { } refusal)
        {
            return refusal;
        }

        // What the rows say is in the file: they are staged anew where they belong.
        var lists = batch.Lists.ToList();
        var latest = lists.Where(list => list.RefusedBecause is null).MaxBy(list => list.Id)!;
        batch.JoinTo(earlier);
        latest.ReadOnceMore();
        await db.SaveChangesAsync(cancellation);
        await db.Problems.Where(problem => problem.BatchId == batch.Id).ExecuteDeleteAsync(cancellation);
        await db.Rows.Where(row => row.BatchId == batch.Id).ExecuteDeleteAsync(cancellation);
        db.Add(WorkRow.Wanted(ReadListWork.Kind, latest.Id, act));
        return earlier.Id;
    }

    private async Task<Refusal?> WhyNotJoinAsync(Batch batch, Batch earlier, CancellationToken cancellation)
    {
        if (await BatchBusy.WhyNotNowAsync(db, earlier.Id, cancellation) is { } busy)
        {
            return busy;
        }

        if (await db.Accessions.AnyAsync(lot => lot.BatchId == batch.Id, cancellation))
        {
            return new(RefusalKind.Conflict,
                "Rows of this list are in the register under an accession of their own: it stays a batch of its own.");
        }

        return earlier.Lists.Max(list => list.Id) > batch.Lists.Min(list => list.Id)
            ? new(RefusalKind.Conflict,
                $"Batch {earlier.Id} has had a newer list since this one came, so this one can no longer join it. Say "
                + "that it is another list, or ask the sender for the whole list once more and receive it there.")
            : null;
    }
}
