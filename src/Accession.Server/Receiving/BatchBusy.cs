using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>While long work runs on a batch, nothing that it depends on may be settled differently.</summary>
internal static class BatchBusy
{
    public static async Task<Refusal?> WhyNotNowAsync(AccessionDb db, long batchId, CancellationToken cancellation) =>
        await IsBusyAsync(db, batchId, cancellation)
            ? new(RefusalKind.Conflict, "The batch is being worked on. Wait until that is done, then do it again.")
            : null;

    /// <summary>Whether some work on the batch is not finished.</summary>
    public static Task<bool> IsBusyAsync(AccessionDb db, long batchId, CancellationToken cancellation) =>
        db.Work.AnyAsync(
            work => work.FinishedAt == null
                && ((work.Kind == ReadListWork.Kind
                        && db.Lists.Any(list => list.Id == work.Subject && list.BatchId == batchId))
                    || (work.Kind == RereadRowsWork.Kind && work.Subject == batchId)
                    || (work.Kind == FindDuplicatesWork.Kind && work.Subject == batchId)
                    || ((work.Kind == TakeInRowsWork.Kind || work.Kind == TakeOverRowsWork.Kind)
                        && db.Accessions.Any(lot => lot.Id == work.Subject && lot.BatchId == batchId))),
            cancellation);
}
