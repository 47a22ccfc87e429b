using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Accession.Storage.Specimens;
using Accession.Storage.Verifying;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Tests.Specimens;

[Trait("Store", "sqlite")]
public sealed class PartsOfLoadsOnSqlite(StoreOnSqlite store) : PartsOfLoadsTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class PartsOfLoadsOnPostgreSql(StoreOnPostgreSql store)
    : PartsOfLoadsTests(store), IClassFixture<StoreOnPostgreSql>;

/// <summary>
/// The statements that clear the sheets of a load leave each of them as the verb does: pairs of sheets with one past,
/// of which one is in a load that is settled by the statements and the other in one that is settled by the verb.
/// </summary>
public abstract class PartsOfLoadsTests(TestStore store)
{
    private static readonly DateTime At = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);

    private static readonly Actor Curator = new("c-1", "Wilhelmina Oakhurst", new HashSet<Role> { Role.Curator });

    // What becomes of each pair before it is put on the list.
    private static readonly string[] Pasts =
    [
        "plan", "no plan", "plan, out of the parcel", "plan, outside and back",
        "plan, outside later", "plan, waived later", "no plan, outside and back",
    ];

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Clearing_in_bulk_is_clearing_each(bool underRule)
    {
        await using var db = store.Open();
        var room = await SetUpAsync(db);
        var (inBulk, oneByOne) = (await ListAsync(db, room), await ListAsync(db, room));
        await SettleAsync(db, room, inBulk, underRule, (load, clearance, act) =>
            new PartsOfLoads(db).SettleAsync(load, clearance, act, CancellationToken.None));
        await SettleAsync(db, room, oneByOne, underRule, async (load, clearance, act) =>
        {
            var lines = await db.LoadItems.Where(i => i.LoadId == load.Id).ToDictionaryAsync(i => i.PartId!.Value);
            foreach (var part in await PartsAsync(db, oneByOne))
            {
                load.Settle(part, lines[part.Id], clearance, part.PlanId is null ? null : room.Plan, act);
            }
        });

        db.ChangeTracker.Clear();
        var (one, other) = (await SaidAsync(db, inBulk), await SaidAsync(db, oneByOne));
        Assert.Equal(Pasts.Length, one.Count);
        Assert.Equal(other, one);
        db.ChangeTracker.Clear();
        List<Disagreement> wrong = [];
        await foreach (var found in new VerifyRegister(
            db, new(db, TimeProvider.System), new(db, TimeProvider.System))
            .RunAsync(_ => { }, TestContext.Current.CancellationToken))
        {
            // The invented sheets are of a row that nobody settled.
            if (found.Check != "Gatherings and the rows they came from")
            {
                wrong.Add(found);
            }
        }

        Assert.Equal([], wrong);
    }

    private sealed record Room(
        StepPlan Plan, Parcel Parcel, Freezer Freezer, Regime Regime, HouseRule Rule, Place Office, Place Shelf,
        long Series, IReadOnlyList<long> Gatherings);

    private static async Task<Room> SetUpAsync(AccessionDb db)
    {
        if (!await db.Gatherings.AnyAsync())
        {
            await InventedSheets.SeedAsync(db, At, [InventedSheets.Everywhere("x")]);
        }

        var act = ActAt(0);
        var name = $"{Guid.NewGuid():N}";
        var freezer = Freezer.Named(name, "Cellar", false, act).Value;
        var regime = Regime.Write(new(name, -30, 72, 1, 0, 24, "Invented"), 1, act).Value;
        var rule = HouseRule.Make("Three days", "Invented", new(2026, 1, 1), 24, [new(-30, 72)], Curator, act).Value;
        var (office, shelf) = (Place.Named($"O{name}", Zone.Outside, act).Value, Place.Named($"S{name}", Zone.Quarantine, act).Value);
        var counter = await db.TagCounters.SingleAsync(c => c.Kind == TagKind.Parcel);
        var parcel = Parcel.Receive(
            counter.Take(2026).Value, null, new("Orla Finch", new(2026, 3, 4), "", 1, 0, "", "Shelf"), At.AddDays(-1), act);
        db.AddRange(freezer, regime, rule, office, shelf, parcel);
        await db.SaveChangesAsync();
        return new(
            await db.StepPlans.SingleAsync(), parcel, freezer, regime, rule, office, shelf,
            await db.Specimens.Select(s => s.SeriesId).FirstAsync(),
            await db.Gatherings.Select(g => g.Id).ToListAsync());
    }

    private static async Task<FreezerLoad> ListAsync(AccessionDb db, Room room)
    {
        var counter = await db.TagCounters.SingleAsync(c => c.Kind == TagKind.Load);
        var load = FreezerLoad.List(counter.Take(2026).Value.Number, room.Freezer, room.Regime, ActAt(1));
        db.Add(load);
        await db.SaveChangesAsync();
        foreach (var past in Pasts)
        {
            var part = await NumberAsync(db, room, past);
            if (past.Contains("outside and back", StringComparison.Ordinal))
            {
                Assert.Null(part.Move(room.Office, PlanOf(room, part), ActAt(2)));
                Assert.Null(part.Move(room.Shelf, PlanOf(room, part), ActAt(3)));
            }

            if (past.Contains("waived later", StringComparison.Ordinal))
            {
                Assert.Null(part.Waive(Curator, PlanOf(room, part), ActAt(120, "A trial.")));
            }

            db.Add(load.Add(part, part.ParcelId is null ? null : room.Parcel, beginAgain: false, ActAt(4)).Value);
            await db.SaveChangesAsync();
        }

        return load;
    }

    private static StepPlan? PlanOf(Room room, Part part) => part.PlanId is null ? null : room.Plan;

    private static async Task<Part> NumberAsync(AccessionDb db, Room room, string past)
    {
        var gathering = await db.Gatherings.SingleAsync(g => g.Id == room.Gatherings[0]);
        gathering.ExpectAnotherSheet();
        var number = 1 + await db.Specimens.MaxAsync(s => s.Number);
        // After the cold began, where what the cold ended before it came must not count.
        var hour = past.Contains("outside later", StringComparison.Ordinal) ? 110 : 0;
        var specimen = Specimen.NumberSheet(
            new(room.Series, number, $"TB-H{number:0000000}"), gathering, "Herbarium", proven: true,
            past.StartsWith("plan", StringComparison.Ordinal) ? room.Plan : null,
            past.Contains("parcel", StringComparison.Ordinal) ? room.Parcel : null, ActAt(hour)).Value;
        db.Add(specimen);
        await db.Series.Where(s => s.Id == room.Series)
            .ExecuteUpdateAsync(s => s.SetProperty(series => series.Next, number + 1));
        await db.SaveChangesAsync();
        return specimen.Parts[0];
    }

    private static async Task SettleAsync(
        AccessionDb db, Room room, FreezerLoad load, bool underRule, Func<FreezerLoad, Clearance?, Act, Task> settle)
    {
        await using var transaction = await db.Database.BeginTransactionAsync();
        Assert.Null(load.CloseLid(At.AddHours(5), Pasts.Length, ActAt(5)));
        Assert.Null(load.TakeOut(At.AddHours(90), ActAt(90)));
        var act = ActAt(91, underRule ? null : "Nothing lives in paper.");
        db.Add(act);
        var clearance = underRule ? load.ReleaseUnder(room.Rule, new(2026, 3, 5), act) : load.Waive(Curator, act);
        await settle(load, clearance.Value, act);
        await db.SaveChangesAsync();
        await transaction.CommitAsync();
    }

    private static Task<List<Part>> PartsAsync(AccessionDb db, FreezerLoad load) => db.Parts
        .Where(p => db.LoadItems.Any(i => i.LoadId == load.Id && i.PartId == p.Id)).OrderBy(p => p.Id).ToListAsync();

    // Everything a part has, but for what tells the two of a pair apart.
    private static async Task<List<string>> SaidAsync(AccessionDb db, FreezerLoad load) =>
    [
        .. (await PartsAsync(db, load)).Select(part => string.Join(' ',
            part.LoadId, part.NextStep, part.ClearedAt, part.ClearedBy, part.MayOpenFrom, part.IsCleared, part.Zone,
            string.Join(' ', part.Steps.OrderBy(step => step.Id).Select(step => $"{step.Step}:{step.Mark}")),
            string.Join(' ', part.Clearances.OrderBy(c => c.Id).Select(
                c => $"{c.At}:{c.By}:{c.MayOpenFrom}:{c.LoadId == load.Id}:{c.HouseRuleId is null}:{c.ParcelId}")))),
    ];

    private static Act ActAt(int hours, string? reason = null) =>
        Act.Of(new Door(Curator), "treat", At.AddHours(hours), reason);
}
