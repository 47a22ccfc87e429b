using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>A batch in the list of batches.</summary>
public sealed record ListedBatch(
    long Id, string Source, string FileName, DateTime ReceivedAt, int Rows, BatchState State)
{
    /// <summary>The batches before one, the newest first.</summary>
    /// <param name="before">The batch; null for the newest of all.</param>
    /// <param name="take">How many at most.</param>
    public static async Task<IReadOnlyList<ListedBatch>> BeforeAsync(
        AccessionDb db, long? before, int take, CancellationToken cancellation)
    {
        var batches = await db.Batches
            .Where(batch => batch.JoinedToBatchId == null && (before == null || batch.Id < before))
            .OrderByDescending(batch => batch.Id)
            .Take(take)
            .Select(batch => new
            {
                batch.Id,
                Source = batch.Source.Name,
                Last = batch.Lists.OrderByDescending(list => list.Id)
                    .Select(list => new
                    {
                        list.FileName,
                        list.Act.At,
                        list.IsRead,
                        IsRefused = list.RefusedBecause != null,
                        list.Counts.Rows,
                    })
                    .First(),
                IsClosed = batch.ClosedActId != null,
                AsksWhichList = batch.ResemblesBatchId != null && !batch.IsToldApart,
                Open = db.Rows.Where(SettledRows.Open).Any(row => row.BatchId == batch.Id),
                Found = db.Rows.Where(SettledRows.Found).Any(row => row.BatchId == batch.Id),
                Settled = db.Rows.Where(SettledRows.ToTakeIn).Any(row => row.BatchId == batch.Id),
                IsIn = db.Accessions.Any(lot => lot.BatchId == batch.Id),
            })
            .ToListAsync(cancellation);
        return
        [
            .. batches.Select(batch => new ListedBatch(
                batch.Id, batch.Source, batch.Last.FileName, batch.Last.At, batch.Last.Rows,
                batch.IsClosed ? BatchState.Closed
                    : batch.AsksWhichList ? BatchState.WhichList
                    : BatchState.Of(
                        batch.Last.IsRead, batch.Last.IsRefused, batch.Open, batch.Found, batch.Settled,
                        batch.IsIn))),
        ];
    }
}
