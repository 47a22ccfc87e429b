using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Storage;
using Accession.Storage.Batches;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>
/// Out of which parcel a sheet is taken: the only one of its batch without a word, one of several when it was chosen,
/// and none where the batch is tied to none.
/// </summary>
public static class ParcelInHand
{
    /// <summary>What is chosen when the sheet came in none of the parcels of its batch.</summary>
    public const long None = 0;

    public sealed record Shown(long Id, string Tag, DateTime? ClearedAt);

    public static async Task<Outcome<Parcel?>> FindAsync(
        AccessionDb db, long accessionId, long? chosen, CancellationToken cancellation)
    {
        var tied = await OfAsync(db, accessionId, cancellation);
        if (chosen is { } id && id != None && tied.All(parcel => parcel.Id != id))
        {
            return new Refusal(RefusalKind.Invalid, "Choose a parcel of this batch.");
        }

        if (chosen is null && tied.Count > 1)
        {
            return new Refusal(RefusalKind.Invalid,
                $"The batch came in {tied.Count} parcels: {string.Join(", ", tied.Select(parcel => parcel.Tag))}. "
                + "Choose out of which of them the sheet is. Nothing was done.");
        }

        var wanted = chosen ?? (tied is [var only] ? only.Id : None);
        return wanted == None
            ? (Parcel?)null
            : await db.Parcels.AsNoTracking().SingleAsync(parcel => parcel.Id == wanted, cancellation);
    }

    public static Task<List<Shown>> OfAsync(AccessionDb db, long accessionId, CancellationToken cancellation) =>
        db.Parcels
            .Where(parcel => db.ParcelsOfBatches.Any(tie => tie.ParcelId == parcel.Id && tie.UntiedActId == null
                && db.Batches.Any(b => b.Id == tie.BatchId && db.Accessions.Any(lot => lot.Id == accessionId
                    && (lot.BatchId == b.Id || lot.BatchId == b.JoinedToBatchId)))))
            .OrderBy(parcel => parcel.Id).Select(parcel => new Shown(parcel.Id, parcel.Tag, parcel.ClearedAt))
            .ToListAsync(cancellation);
}
