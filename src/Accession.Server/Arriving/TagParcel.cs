using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
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
        var parcel = Parcel.Receive(counter.Take(today.Year), source, details, cameAt, act);
        db.Add(parcel);
        return parcel.Tag;
    }
}
