using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Batches;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>While long work runs on a batch, nothing that it depends on may be settled differently.</summary>
internal static class BatchBusy
{
    /// <summary>Why nothing of a batch may be settled, taken in or received now: it is closed, or worked on.</summary>
    /// <param name="db">The register.</param>
    /// <param name="batchId">The batch.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <param name="isShared">Whether the batch itself is not changed, so that others may do the same.</param>
    public static async Task<Refusal?> WhyNotNowAsync(
        AccessionDb db, long batchId, CancellationToken cancellation, bool isShared = false) =>
        await ClosedBatch.WhyNotAsync(db, batchId, isShared, cancellation) is { } closed ? closed
            : await IsBusyAsync(db, batchId, cancellation)
            ? new(RefusalKind.Conflict, "The batch is being worked on. Wait until that is done, then do it again.")
            : null;

    /// <summary>Whether some work on the batch is not finished.</summary>
    public static Task<bool> IsBusyAsync(AccessionDb db, long batchId, CancellationToken cancellation) =>
        Unfinished(db, batchId).AnyAsync(cancellation);

    /// <summary>
    /// Whether other work on the batch is not finished, that was wanted before this one or is of another kind.
    /// </summary>
    public static Task<bool> IsOtherwiseBusyAsync(
        AccessionDb db, long batchId, long workId, CancellationToken cancellation) =>
        Unfinished(db, batchId).AnyAsync(
            work => work.Kind != ComparePermitsWork.Kind || work.Id < workId, cancellation);

    private static IQueryable<WorkRow> Unfinished(AccessionDb db, long batchId) =>
        db.Work.Where(
            work => work.FinishedAt == null
                && ((work.Kind == ReadListWork.Kind
                        && db.Lists.Any(list => list.Id == work.Subject && list.BatchId == batchId))
                    || (work.Kind == RereadRowsWork.Kind && work.Subject == batchId)
                    || (work.Kind == FindDuplicatesWork.Kind && work.Subject == batchId)
                    || (work.Kind == ComparePermitsWork.Kind && work.Subject == batchId)
                    || ((work.Kind == TakeInRowsWork.Kind || work.Kind == TakeOverRowsWork.Kind)
                        && db.Accessions.Any(lot => lot.Id == work.Subject && lot.BatchId == batchId))));
}
