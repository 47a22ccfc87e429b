using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>The row that somebody decides about.</summary>
internal static class RowInHand
{
    /// <summary>
    /// Holds it until the transaction ends, so that somebody else who decides about it, or takes it in, comes before or
    /// after; refuses what is not in the batch, or while long work runs on that.
    /// </summary>
    public static async Task<Outcome<BatchRow>> HoldAsync(
        AccessionDb db, long batchId, long rowId, CancellationToken cancellation)
    {
        // The batch before the row: who settles many rows at once holds them in this order too.
        var busy = await BatchBusy.WhyNotNowAsync(db, batchId, cancellation, isShared: true);
        var row = await db.Rows.Held().SingleOrDefaultAsync(
            r => r.Id == rowId && r.BatchId == batchId, cancellation);
        if (row is null)
        {
            return new Refusal(RefusalKind.NotFound, "That row is not in this batch.");
        }

        return busy is null ? row : busy;
    }
}
