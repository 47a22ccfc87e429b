using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Arriving;

/// <summary>Tags a parcel at the door: it gets a number of its own, and is frozen unopened.</summary>
public sealed class TagParcel(AccessionDb db, InstitutionClock calendar, TimeProvider clock)
{
    public sealed record Request(ParcelDetails Details);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "tag a parcel", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => TagAsync(request.Details, act, cancellation), cancellation);
    }

    private async Task<Outcome<string>> TagAsync(ParcelDetails details, Act act, CancellationToken cancellation)
    {
        var today = calendar.Day(act.At);
        List<Refusal> refusals = [.. details.WhyNot(today).Select(one => one.Refusal)];
        if (refusals.Count > 0)
        {
            return refusals;
        }

        var folded = Source.Fold(details.FromWhom);
        var source = await db.Sources.Where(s => s.FoldedName == folded).Select(s => (long?)s.Id)
            .SingleOrDefaultAsync(cancellation);
        var counter = await db.TagCounters.Held().SingleAsync(c => c.Kind == TagKind.Parcel, cancellation);
        var cameAt = calendar.Utc(details.CameOn!.Value.ToDateTime(TimeOnly.MinValue));
        var number = counter.Take(today.Year);
        if (number.IsRefused)
        {
            return number.Refusals.ToList();
        }

        var parcel = Parcel.Receive(number.Value, source, details, cameAt, act);
        if (details.PlaceId is { } chosen)
        {
            var place = await db.Places.SingleOrDefaultAsync(p => p.Id == chosen, cancellation);
            if (place is not { Zone: Zone.Quarantine })
            {
                return new Refusal(RefusalKind.Invalid, "Choose a place in quarantine: that is where a parcel stands.");
            }

            if (parcel.Stand(place, act) is { } stays)
            {
                return stays;
            }
        }

        db.Add(parcel);
        return parcel.Tag;
    }
}
