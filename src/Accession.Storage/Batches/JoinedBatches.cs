using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Batches;

/// <summary>
/// A batch with those whose list turned out to be its own: papers and permits that were kept with one of those before
/// somebody said so are the batch's.
/// </summary>
public static class JoinedBatches
{
    /// <summary>The keys of a batch, of those that joined it, and of those that had joined one of these.</summary>
    public static IQueryable<long> WithJoined(this AccessionDb db, long batchId) => db.Batches
        .Where(b => b.Id == batchId || b.JoinedToBatchId == batchId
            || db.Batches.Any(joined => joined.Id == b.JoinedToBatchId && joined.JoinedToBatchId == batchId))
        .Select(b => b.Id);
}
