using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Arriving;

/// <summary>Puts a parcel in a place. The gate stands in <see cref="Parcel.Stand"/>.</summary>
public sealed class MoveParcel(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(string Tag, long? PlaceId);

    /// <summary>Answers the name of the place.</summary>
    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "put a parcel in a place", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Overlaps([Role.Curator, Role.Technician]))
                {
                    return new Refusal(RefusalKind.NotAllowed, "Parcels are for technicians and curators.");
                }

                var tag = Parcel.TagIn(request.Tag);
                var parcel = await db.Parcels.SingleOrDefaultAsync(p => p.Tag == tag, cancellation);
                var place = await db.Places.SingleOrDefaultAsync(p => p.Id == request.PlaceId, cancellation);
                return parcel is null ? new Refusal(RefusalKind.NotFound, $"No parcel has the tag \"{tag}\".")
                    : place is null ? new Refusal(RefusalKind.Invalid, "Choose the place where it goes.")
                    : parcel.Stand(place, act) is { } refusal ? refusal
                    : place.Name;
            },
            cancellation);
    }
}
