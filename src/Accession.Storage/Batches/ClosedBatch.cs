using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Batches;

/// <summary>
/// A closed batch takes no list, no decision, no row and no sheet. Every door that would give it one asks here, within
/// its transaction: whoever closes the batch comes before it or after.
/// </summary>
public static class ClosedBatch
{
    /// <summary>Why nothing may be changed in a batch; null while it is open.</summary>
    /// <param name="db">The register.</param>
    /// <param name="batchId">The batch.</param>
    /// <param name="isShared">
    /// Whether others may ask so at the same time, who do not change the batch itself; two who did would wait for each
    /// other.
    /// </param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<Refusal?> WhyNotAsync(
        AccessionDb db, long batchId, bool isShared, CancellationToken cancellation)
    {
        var batches = db.Batches.AsNoTracking();
        var held = isShared ? batches.HeldTogether() : batches.Held();
        return Say(db, await held.SingleOrDefaultAsync(b => b.Id == batchId, cancellation)) is { } said
            ? await said.SingleAsync(cancellation)
            : null;
    }

    /// <summary>Why no sheet of an accession may be numbered or counted; null while its batch is open.</summary>
    public static async Task<Refusal?> WhyNoSheetAsync(
        AccessionDb db, long accessionId, CancellationToken cancellation)
    {
        var batchId = await db.Accessions.Where(lot => lot.Id == accessionId).Select(lot => lot.BatchId)
            .SingleAsync(cancellation);
        return await WhyNotAsync(db, batchId, isShared: true, cancellation);
    }

    private static IQueryable<Refusal>? Say(AccessionDb db, Batch? batch) => batch?.ClosedActId is { } act
        ? db.Closings.Where(closing => closing.ActId == act)
            .Select(closing => new Refusal(
                RefusalKind.Conflict,
                $"Batch {batch.Id} was closed by {closing.Act.ActorName} on {Days.Words(closing.Day)}; reopen it with "
                + "a reason first."))
        : null;
}
