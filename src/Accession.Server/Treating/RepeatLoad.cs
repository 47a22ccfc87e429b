using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>Begins a load anew with all that was on the list of one that failed or is not proved.</summary>
public sealed class RepeatLoad(
    AccessionDb db, PartsOfLoads parts, InstitutionClock calendar, TimeProvider clock)
{
    public sealed record Request(int Number);

    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "repeat a load", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => RepeatAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<int>> RepeatAsync(Request request, Act act, CancellationToken cancellation)
    {
        var load = await HeldLoad.OfAsync(db, request.Number, cancellation);
        if (load is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no load {request.Number}.");
        }

        if (await db.Loads.Where(l => l.RepeatsId == load.Id).Select(l => (int?)l.Number)
                .SingleOrDefaultAsync(cancellation) is { } before)
        {
            return new Refusal(RefusalKind.Conflict, $"Load {load.Number} is repeated by load {before} already.");
        }

        var counter = await db.TagCounters.Held().SingleAsync(c => c.Kind == TagKind.Load, cancellation);
        var number = counter.Take(calendar.Day(act.At).Year);
        if (number.IsRefused)
        {
            return number.Refusals.ToList();
        }

        var again = load.Repeat(number.Value.Number, act);
        if (again.IsRefused)
        {
            return again.Refusals.ToList();
        }

        db.Add(again.Value);
        await db.SaveChangesAsync(cancellation);
        return await ListAgainAsync(load, again.Value, act, cancellation) is { } refusal ? refusal : again.Value.Number;
    }

    private async Task<Refusal?> ListAgainAsync(
        FreezerLoad load, FreezerLoad again, Act act, CancellationToken cancellation)
    {
        var lines = await db.LoadItems.AsNoTracking().Where(i => i.LoadId == load.Id && i.PartId == null)
            .OrderBy(i => i.Id).ToListAsync(cancellation);
        var inside = await db.Parcels
            .Where(p => db.LoadItems.Any(i => i.LoadId == load.Id && i.ParcelId == p.Id && i.PartId == null))
            .ToDictionaryAsync(p => p.Id, cancellation);
        foreach (var line in lines)
        {
            var item = line.ParcelId is { } parcel
                ? again.Add(inside[parcel], beginAgain: false, act)
                : again.Add(line.Bundle, line.BatchId, beginAgain: false, act);
            if (item.IsRefused)
            {
                return item.Refusals[0];
            }

            db.Add(item.Value);
        }

        return await parts.RepeatAsync(load, again, act, cancellation);
    }
}
