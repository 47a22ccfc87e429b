using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Storage;
using Accession.Storage.Batches;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Arriving;

/// <summary>Says that sheets of a batch came in a parcel, or takes that back.</summary>
public sealed class TieParcel(AccessionDb db, TimeProvider clock)
{
    /// <param name="Untie">Whether the tie is taken back: it was the wrong one.</param>
    public sealed record Request(string Tag, long BatchId, bool Untie = false);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var what = request.Untie ? "untie a batch from a parcel" : "tie a batch to a parcel";
        var act = Act.Of(door, what, clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => TieAsync(request, door.By, act, cancellation), cancellation);
    }

    private async Task<Outcome<string>> TieAsync(
        Request request, Actor by, Act act, CancellationToken cancellation)
    {
        if (!by.Roles.Contains(Role.Curator))
        {
            return new Refusal(RefusalKind.NotAllowed, "Which batch came in which parcel is for curators to say.");
        }

        var tag = Parcel.TagIn(request.Tag);
        var parcel = await db.Parcels.AsNoTracking().SingleOrDefaultAsync(p => p.Tag == tag, cancellation);
        if (parcel is null)
        {
            return new Refusal(RefusalKind.NotFound, $"No parcel has the tag \"{tag}\". Tags look like Q2026-0014.");
        }

        var batch = await db.Batches.SingleOrDefaultAsync(
            b => b.Id == request.BatchId && b.JoinedToBatchId == null, cancellation);
        if (batch is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no batch {request.BatchId}.");
        }

        if (await ClosedBatch.WhyNotAsync(db, batch.Id, isShared: true, cancellation) is { } closed)
        {
            return closed;
        }

        var tie = await db.ParcelsOfBatches.SingleOrDefaultAsync(
            t => t.BatchId == batch.Id && t.ParcelId == parcel.Id && t.UntiedActId == null, cancellation);
        if (request.Untie)
        {
            return tie is null
                ? new Refusal(RefusalKind.NotFound, $"Batch {batch.Id} and parcel {tag} are not tied.")
                : tie.Untie(act) is { } refusal ? refusal : tag;
        }

        if (tie is not null)
        {
            return new Refusal(RefusalKind.Conflict, $"Batch {batch.Id} and parcel {tag} are tied already.");
        }

        db.Add(ParcelOfBatch.Tie(batch, parcel, act));
        return tag;
    }
}
