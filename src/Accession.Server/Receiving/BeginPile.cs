using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Begins a batch for a pile that came without a list: its rows will be typed here from the labels.</summary>
public sealed class BeginPile(AccessionDb db, TimeProvider clock)
{
    /// <param name="SourceName">Who sends the pile; a new name makes a new source.</param>
    /// <param name="ParcelTag">The tag of the parcel that it came in; empty when nobody says so.</param>
    public sealed record Request(string? SourceName, string? ParcelTag);

    /// <returns>The number of the batch.</returns>
    public Task<Outcome<long>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "begin to key a pile", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => BeginAsync(request, door.By, act, cancellation), cancellation);
    }

    private async Task<Outcome<long>> BeginAsync(
        Request request, Actor by, Act act, CancellationToken cancellation)
    {
        Parcel? parcel = null;
        if (!string.IsNullOrWhiteSpace(request.ParcelTag))
        {
            if (!by.Roles.Contains(Role.Curator))
            {
                return new Refusal(RefusalKind.NotAllowed, "Which batch came in which parcel is for curators to say.");
            }

            var tag = Parcel.TagIn(request.ParcelTag);
            parcel = await db.Parcels.AsNoTracking().SingleOrDefaultAsync(p => p.Tag == tag, cancellation);
            if (parcel is null)
            {
                return new Refusal(
                    RefusalKind.NotFound, $"No parcel has the tag \"{tag}\". Tags look like Q2026-0014.");
            }
        }

        var source = await NamedSources.OfAsync(db, request.SourceName, "the pile", cancellation);
        if (source.IsRefused)
        {
            return source.Refusals.ToList();
        }

        var batch = Batch.TypedHere(source.Value, TypedFields.Headings, TypedFields.Match, act);
        db.Add(batch);
        await db.SaveChangesAsync(cancellation);
        if (parcel is not null)
        {
            db.Add(ParcelOfBatch.Tie(batch, parcel, act));
        }

        return batch.Id;
    }
}
