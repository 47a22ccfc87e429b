using Accession.Storage;
using Accession.Storage.Batches;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>A parcel in which sheets of a batch came.</summary>
public sealed record ShownParcel(string Tag, bool IsTreated)
{
    public static async Task<IReadOnlyList<ShownParcel>> OfAsync(
        AccessionDb db, long batchId, CancellationToken cancellation) => await db.Parcels
        .Where(p => db.ParcelsOfBatches.Any(t => t.ParcelId == p.Id && t.UntiedActId == null
            && db.WithJoined(batchId).Contains(t.BatchId)))
        .OrderBy(p => p.Id).Select(p => new ShownParcel(p.Tag, p.ClearedAt != null)).ToListAsync(cancellation);
}
