using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Settles rows whose problems nobody can mend: what could not be read stays to the letter and has no value beside it.
/// </summary>
public sealed class TakeAsWritten(AccessionDb db, TimeProvider clock)
{
    /// <param name="RowIds">
    /// The rows; empty for every open row of the batch but those that may be in the register already.
    /// </param>
    public sealed record Request(long BatchId, IReadOnlyList<long> RowIds, string? Reason);

    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take rows as written", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync<int>(
            door, act,
            async () =>
            {
                var batch = await db.Batches.Include(b => b.Lists)
                    .SingleOrDefaultAsync(b => b.Id == request.BatchId, cancellation);
                if (batch is null)
                {
                    return new Refusal(RefusalKind.NotFound, $"There is no batch {request.BatchId}.");
                }

                if (await BatchBusy.WhyNotNowAsync(db, request.BatchId, cancellation) is { } refusal)
                {
                    return refusal;
                }

                // Ticked rows may have something else to them; all of them at once would give up every date that one
                // answer can read.
                if (request.RowIds.Count == 0 && ListColumns.AsksForOrder(batch))
                {
                    return new Refusal(RefusalKind.Conflict,
                        "Dates of this list wait for one answer: does the day or the month come first? Settle that on "
                        + "the page of the batch, then look at the rows that are still open.");
                }

                batch.ChangeRows();
                await db.SaveChangesAsync(cancellation);
                var rows = db.Rows.Where(SettledRows.Open).Where(row => row.BatchId == request.BatchId);
                rows = request.RowIds.Count > 0
                    ? rows.Where(row => request.RowIds.Contains(row.Id))
                    : rows.Where(row => !db.Rows.Any(old => old.SupersededById == row.Id && old.GatheringId != null));
                await PartAsync(batch.Id, rows, act, cancellation);
                var settled = await rows.ExecuteUpdateAsync(
                    row => row.SetProperty(r => r.TakenAsWrittenActId, act.Id), cancellation);
                return settled > 0
                    ? settled
                    : new Refusal(RefusalKind.Conflict, "None of these rows is open any more. Look at them again.");
            },
            cancellation);
    }

    // Somebody says that such a row is another gathering: the row of the register that it looked like was not corrected
    // by it, but is missing from the list. The finding does not ask the same once more.
    private async Task PartAsync(
        long batchId, IQueryable<BatchRow> rows, Act act, CancellationToken cancellation)
    {
        var parted = db.Rows.Where(old => old.BatchId == batchId && old.SupersededById != null
            && old.GatheringId != null && rows.Any(row => row.Id == old.SupersededById));
        var pairs = await parted.Select(old => new { Row = old.SupersededById!.Value, old.GatheringId })
            .ToListAsync(cancellation);
        if (pairs.Count == 0)
        {
            return;
        }

        db.AddRange(pairs.Select(pair => ToldApart.Of(pair.Row, new(pair.GatheringId, null), act)));
        db.Add(WorkRow.Wanted(FindDuplicatesWork.Kind, batchId, act));
        await parted.ExecuteUpdateAsync(
            row => row
                .SetProperty(old => old.WithdrawnInListId, old => db.Rows
                    .Where(r => r.Id == old.SupersededById).Select(r => (long?)r.LastListId).Single())
                .SetProperty(old => old.SupersededById, (long?)null),
            cancellation);
    }
}
