using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Storage;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// Puts the sheet or parcel that was scanned on the list that is being made for a freezer. A lid that is closed is
/// never opened by a scan: that begins the clock again, and is done on the page of the load.
/// </summary>
public sealed class PutOnLoad(AccessionDb db, PartInHand parts, TimeProvider clock)
{
    /// <summary>The act, as it stands in the trail.</summary>
    public const string What = "put something on the list of a load by scanning";

    public sealed record Request(string Freezer, string? Code);

    public Task<Outcome<BenchDone>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, What, clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<BenchDone>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Overlaps([Role.Curator, Role.Technician]))
                {
                    return new Refusal(RefusalKind.NotAllowed, "The bench is for technicians and curators.");
                }

                var number = await OpenListAsync(db, request.Freezer, cancellation);
                return number.IsRefused
                    ? number.Refusals.ToList()
                    : await AddAsync(number.Value, request.Code, act, cancellation);
            },
            cancellation);
    }

    /// <summary>The number of the load whose list is being made for a freezer, or why there is none.</summary>
    public static async Task<Outcome<int>> OpenListAsync(
        AccessionDb db, string freezer, CancellationToken cancellation)
    {
        var freezers = await db.Freezers.AsNoTracking().Select(f => new { f.Id, f.Name }).ToListAsync(cancellation);
        var meant = freezers.Find(one => Is(one.Name, freezer))
            ?? freezers.Find(one => Is(one.Name, $"freezer {freezer}"));
        if (meant is null)
        {
            return new Refusal(RefusalKind.NotFound,
                $"There is no freezer called {(freezer.Length <= 60 ? freezer : freezer[..60] + "…")}. Scan one from "
                + "the card of commands.");
        }

        var number = await db.Loads.Where(l => l.FreezerId == meant.Id && l.Standing == LoadStanding.Listed)
            .OrderByDescending(l => l.Id).Select(l => (int?)l.Number).FirstOrDefaultAsync(cancellation);
        return number is null
            ? new Refusal(RefusalKind.Conflict,
                $"No list is being made for {meant.Name}. Begin one under Freezers, then scan again.")
            : number.Value;
    }

    private static bool Is(string name, string asked) => name.Equals(asked, StringComparison.OrdinalIgnoreCase);

    private async Task<Outcome<BenchDone>> AddAsync(
        int number, string? code, Act act, CancellationToken cancellation)
    {
        var load = (await HeldLoad.OfAsync(db, number, cancellation))!;
        var tag = Parcel.TagIn(code);
        if (await db.Parcels.SingleOrDefaultAsync(p => p.Tag == tag, cancellation) is { } parcel)
        {
            return Put(load.Add(parcel, beginAgain: false, act), new(
                parcel.Tag, "", 0, parcel.FromWhom, "", $"Load {number}", $"is on the list of load {number}", false,
                null));
        }

        var held = await parts.FindAsync(code, cancellation);
        return held.IsRefused
            ? held.Refusals.ToList()
            : Put(
                load.Add(held.Value.Part, null, beginAgain: false, act),
                held.Value.Tell($"Load {number}", $"is on the list of load {number}"));
    }

    private Outcome<BenchDone> Put(Outcome<LoadItem> item, BenchDone done)
    {
        if (item.IsRefused)
        {
            return item.Refusals.ToList();
        }

        db.Add(item.Value);
        return done;
    }
}
