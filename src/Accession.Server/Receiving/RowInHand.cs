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
        var row = await db.Rows.Held().SingleOrDefaultAsync(
            r => r.Id == rowId && r.BatchId == batchId, cancellation);
        if (row is null)
        {
            return new Refusal(RefusalKind.NotFound, "That row is not in this batch.");
        }

        return await BatchBusy.WhyNotNowAsync(db, batchId, cancellation) is { } busy ? busy : row;
    }
}
