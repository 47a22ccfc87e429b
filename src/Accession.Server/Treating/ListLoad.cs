using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>Begins the list of a load for a freezer.</summary>
public sealed class ListLoad(AccessionDb db, InstitutionClock calendar, TimeProvider clock)
{
    public sealed record Request(long? FreezerId, long? RegimeId);

    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "begin the list of a load", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<int>(door, act, async () =>
        {
            var freezer = await db.Freezers.SingleOrDefaultAsync(f => f.Id == request.FreezerId, cancellation);
            var regime = await db.Regimes.SingleOrDefaultAsync(r => r.Id == request.RegimeId, cancellation);
            if (freezer is null || regime is null)
            {
                return new Refusal(RefusalKind.Invalid, "Choose a freezer and a regime.");
            }

            var counter = await db.TagCounters.Held().SingleAsync(c => c.Kind == TagKind.Load, cancellation);
            var number = counter.Take(calendar.Day(act.At).Year);
            if (number.IsRefused)
            {
                return number.Refusals.ToList();
            }

            var load = FreezerLoad.List(number.Value.Number, freezer, regime, act);
            db.Add(load);
            return load.Number;
        }, cancellation);
    }
}
