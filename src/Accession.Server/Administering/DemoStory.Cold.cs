using Accession.Core.FreezerLoads;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Accession.Server.Arriving;
using Accession.Server.Filing;
using Accession.Server.Hosting;
using Accession.Server.Treating;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// The parcels of the demo and the freezers they went through: one waits, one is in a running load, one was let in
/// under a house rule, and the load of one failed.
/// </summary>
public sealed partial class DemoStory
{
    private const string Chest = "Chest freezer";
    private const string FirstCabinet = "Cabinet room, cabinet 1";

    private async Task SetUpColdAsync(CancellationToken cancellation)
    {
        await DoAsync<WriteFreezer, string>(write => write.RunAsync(
            new(Chest, "Cellar of the field station, behind the boiler", DefrostsItself: false),
            Curator("demo: chest freezer"), cancellation));
        await DoAsync<WriteFreezer, string>(write => write.RunAsync(
            new("Upright freezer", "Workshop", DefrostsItself: true), Curator("demo: upright freezer"), cancellation));
        var holdsFrom = await DayAsync(-90);
        await DoAsync<MakeHouseRule, string>(make => make.RunAsync(
            new(
                "Without a logger a load stays in for a week at −30 °C or two weeks at −20 °C, with the lid closed.",
                "Decided by the curator of this invented herbarium, longer than the regimes to be safe", holdsFrom,
                24, "-30 168\n-20 336"),
            Curator("demo: house rule"), cancellation));
        foreach (var (place, zone) in new[]
        {
            ("Quarantine shelf by the door", Zone.Quarantine), (FirstCabinet, Zone.CollectionRoom),
            ("Classroom", Zone.Outside),
        })
        {
            await DoAsync<WritePlace, string>(write => write.RunAsync(
                new(place, zone), Curator($"demo: {place}"), cancellation));
        }
    }

    // Frozen unopened long enough for the house rule, before anybody numbered its sheets.
    private async Task FreezeTheGiftAsync(long batch, CancellationToken cancellation)
    {
        var tag = await TagAsync(
            "Sylvester Quern, gift of a private herbarium", 3, 0, "Smells of naphthalene.", -40, batch, cancellation);
        var load = await LoadAsync(Chest, -30, tag, -38, cancellation);
        var outAt = await AtNineAsync(-30);
        await DoAsync<TakeLoadOut, int>(take => take.RunAsync(
            new(load, outAt), Technician($"demo: take out {load}"), cancellation));
        var rule = await LookAsync(db => db.HouseRules.Select(rule => rule.Id).SingleAsync(cancellation));
        await DoAsync<SettleLoad, LoadStanding>(settle => settle.RunAsync(
            new(load, LoadStanding.UnderHouseRule, rule, null), Technician($"demo: settle {load}"), cancellation));
    }

    private async Task FileSomeOfTheGiftAsync(CancellationToken cancellation)
    {
        var room = await LookAsync(db => db.Places.Where(place => place.Name == FirstCabinet)
            .Select(place => place.Id).SingleAsync(cancellation));
        await DoAsync<MoveParts, MoveParts.Moved>(move => move.RunAsync(
            new([Code(FirstOfRoll), Code(FirstOfRoll + 1), Code(FirstOfRoll + 2)], room, null),
            Technician("demo: into the cabinet"), cancellation));
    }

    private async Task FailOnTheVolunteersAsync(long batch, CancellationToken cancellation)
    {
        var tag = await TagAsync("Dry Lakes volunteers", 0, 4, "Two were damp; dried.", -12, batch, cancellation);
        var load = await LoadAsync("Upright freezer", -20, tag, -10, cancellation);
        var outAt = await AtNineAsync(-3);
        await DoAsync<TakeLoadOut, int>(take => take.RunAsync(
            new(load, outAt), Technician($"demo: take out {load}"), cancellation));
        await DoAsync<SettleLoad, LoadStanding>(settle => settle.RunAsync(
            new(load, LoadStanding.Failed, null, "The plug was out on the second morning, and the bundles were soft."),
            Technician($"demo: settle {load}"), cancellation));
    }

    private async Task FreezeTheExchangeAsync(long batch, CancellationToken cancellation)
    {
        var tag = await TagAsync("Tule Basin Herbarium, exchange", 1, 0, "", -2, batch, cancellation);
        await LoadAsync(Chest, -30, tag, -1, cancellation);
    }

    private async Task<string> TagAsync(
        string from, int boxes, int bundles, string condition, int days, long? batch, CancellationToken cancellation)
    {
        var came = await DayAsync(days);
        var details = new ParcelDetails(
            from, came, "Parcel post", boxes, bundles, condition, "Quarantine shelf by the door");
        var tag = await DoAsync<TagParcel, string>(door => door.RunAsync(
            new(details), Technician($"demo: tag {from}"), cancellation));
        if (batch is { } tied)
        {
            await DoAsync<TieParcel, string>(tie => tie.RunAsync(
                new(tag, tied), Curator($"demo: tie {tag}"), cancellation));
        }

        return tag;
    }

    private async Task<int> LoadAsync(
        string freezer, decimal celsius, string tag, int closedOn, CancellationToken cancellation)
    {
        var (freezerId, regimeId) = await LookAsync(async db => (
            await db.Freezers.Where(f => f.Name == freezer).Select(f => f.Id).SingleAsync(cancellation),
            (await db.Regimes.AsNoTracking().ToListAsync(cancellation)).OrderBy(r => r.Id)
                .First(r => r.ThresholdCelsius == celsius).Id));
        var load = await DoAsync<ListLoad, int>(list => list.RunAsync(
            new(freezerId, regimeId), Technician($"demo: load of {tag}"), cancellation));
        await DoAsync<AddToLoad, string>(add => add.RunAsync(
            new(load, tag), Technician($"demo: add {tag}"), cancellation));
        var closedAt = await AtNineAsync(closedOn);
        await DoAsync<CloseLid, int>(close => close.RunAsync(
            new(load, closedAt), Technician($"demo: close {load}"), cancellation));
        return load;
    }

    private async Task<DateOnly> DayAsync(int days)
    {
        await using var scope = scopes.CreateAsyncScope();
        var now = scope.ServiceProvider.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime;
        return scope.ServiceProvider.GetRequiredService<InstitutionClock>().Day(now).AddDays(days);
    }

    private async Task<DateTime> AtNineAsync(int days) => (await DayAsync(days)).ToDateTime(new TimeOnly(9, 0));
}
