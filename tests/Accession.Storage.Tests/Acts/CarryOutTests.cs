using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage.Work;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Tests.Acts;

[Trait("Store", "sqlite")]
public sealed class CarryOutOnSqlite(StoreOnSqlite store) : CarryOutTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class CarryOutOnPostgreSql(StoreOnPostgreSql store)
    : CarryOutTests(store), IClassFixture<StoreOnPostgreSql>;

/// <summary>One act is one transaction, carried out once.</summary>
public abstract class CarryOutTests(TestStore store)
{
    private static readonly DateTime At = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);
    private static readonly Actor Curator = new("c-1", "Wilhelmina Oakhurst", new HashSet<Role> { Role.Curator });

    private readonly string _name = $"Source {Guid.NewGuid():N}";

    [Fact]
    public async Task What_was_done_and_the_act_are_stored_together()
    {
        var outcome = await NameSourceAsync(new Door(Curator), _name);

        Assert.False(outcome.IsRefused);
        await using var db = store.Open();
        Assert.Equal(1, await db.Sources.CountAsync(source => source.Name == _name));
        var act = await db.Acts.OrderBy(act => act.Id).LastAsync(act => act.Reason == _name);
        Assert.Equal(("c-1", "Wilhelmina Oakhurst", At), (act.ActorId, act.ActorName, act.At));
    }

    [Fact]
    public async Task A_refusal_leaves_nothing_behind_not_even_what_was_saved_on_the_way()
    {
        await using var db = store.Open();
        var outcome = await db.CarryOutAsync<long>(
            new Door(Curator), Act.Of(new Door(Curator), "name a source", At, _name),
            async () =>
            {
                db.Add(Source.Named(_name));
                await db.SaveChangesAsync();
                return new Refusal(RefusalKind.NotAllowed, "Not today.");
            },
            CancellationToken.None);

        Assert.Equal("Not today.", Assert.Single(outcome.Refusals).Reason);
        Assert.Empty(db.ChangeTracker.Entries());
        await AssertNothingStoredAsync();
    }

    [Fact]
    public async Task An_exception_leaves_nothing_behind()
    {
        await using (var db = store.Open())
        {
            await Assert.ThrowsAsync<InvalidOperationException>(() => db.CarryOutAsync<long>(
                new Door(Curator), Act.Of(new Door(Curator), "name a source", At, _name),
                async () =>
                {
                    db.Add(Source.Named(_name));
                    await db.SaveChangesAsync();
                    throw new InvalidOperationException("A defect.");
                },
                CancellationToken.None));
        }

        await AssertNothingStoredAsync();
    }

    [Fact]
    public async Task The_same_request_again_is_answered_alike_and_does_nothing()
    {
        var door = new Door(Curator, $"key-{_name}");
        var first = await NameSourceAsync(door, _name);

        var ran = false;
        await using var db = store.Open();
        var second = await db.CarryOutAsync<long>(
            door, Act.Of(door, "name a source", At, _name),
            () =>
            {
                ran = true;
                return Task.FromResult<Outcome<long>>(-1);
            },
            CancellationToken.None);

        Assert.False(ran);
        Assert.Equal(first.Value, second.Value);
    }

    [Fact]
    public async Task The_same_key_of_somebody_else_is_another_request()
    {
        var other = new Actor("t-1", "Tobias Fennel", new HashSet<Role> { Role.Technician });
        await NameSourceAsync(new Door(Curator, $"key-{_name}"), _name);

        var outcome = await NameSourceAsync(new Door(other, $"key-{_name}"), _name + " of another");

        Assert.False(outcome.IsRefused);
        await using var db = store.Open();
        Assert.Equal(2, await db.Sources.CountAsync(source => source.Name.StartsWith(_name)));
    }

    [Fact]
    public async Task A_refused_request_may_be_repeated_under_its_key()
    {
        var door = new Door(Curator, $"key-{_name}");
        await using (var db = store.Open())
        {
            await db.CarryOutAsync<long>(
                door, Act.Of(door, "name a source", At),
                () => Task.FromResult<Outcome<long>>(new Refusal(RefusalKind.Invalid, "No name.")),
                CancellationToken.None);
        }

        Assert.False((await NameSourceAsync(door, _name)).IsRefused);
    }

    [Fact]
    public async Task Many_at_once_with_one_key_do_it_once_and_hear_the_same()
    {
        var door = new Door(Curator, $"key-{_name}");

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => NameSourceAsync(door, _name))));

        Assert.All(outcomes, outcome => Assert.False(outcome.IsRefused));
        Assert.Single(outcomes.Select(outcome => outcome.Value).Distinct());
        await using var db = store.Open();
        Assert.Equal(1, await db.Sources.CountAsync(source => source.Name == _name));
    }

    [Fact]
    public async Task Whoever_comes_second_to_a_name_hears_of_it_as_a_conflict()
    {
        await NameSourceAsync(new Door(Curator), _name);

        var outcome = await NameSourceAsync(new Door(Curator), _name);

        Assert.Equal(RefusalKind.Conflict, Assert.Single(outcome.Refusals).Kind);
    }

    [Fact]
    public async Task Two_who_change_one_thing_at_once_cannot_both_save()
    {
        long id;
        await using (var db = store.Open())
        {
            var act = Act.Of(Door.System, "receive", At);
            var batch = Batch.From(Source.Named(_name), act);
            await db.CarryOutAsync<bool>(Door.System, act, () => Added(db, batch), CancellationToken.None);
            id = batch.Id;
        }

        await using var late = store.Open();
        var stale = await late.Batches.SingleAsync(batch => batch.Id == id);
        await using (var early = store.Open())
        {
            var mine = await early.Batches.SingleAsync(batch => batch.Id == id);
            mine.SettleMatch("""{"a":"b"}""");
            await early.SaveChangesAsync();
        }

        var outcome = await late.CarryOutAsync<bool>(
            Door.System, Act.Of(Door.System, "settle", At),
            () =>
            {
                stale.SettleMatch("""{"c":"d"}""");
                return Task.FromResult<Outcome<bool>>(true);
            },
            CancellationToken.None);

        Assert.Equal(RefusalKind.Conflict, Assert.Single(outcome.Refusals).Kind);
        await using var after = store.Open();
        Assert.Equal("""{"a":"b"}""", (await after.Batches.SingleAsync(batch => batch.Id == id)).Match);
    }

    [Fact]
    public async Task Work_is_rung_for_after_it_was_committed()
    {
        List<long> rung = [];
        void Hear(long id) => rung.Add(id);
        var act = Act.Of(Door.System, "want work", At);
        var work = WorkRow.Wanted("test", 1, act);
        store.Bell.Rung += Hear;
        await using var db = store.Open();
        await db.CarryOutAsync<bool>(Door.System, act, () => Added(db, work), CancellationToken.None);
        store.Bell.Rung -= Hear;

        Assert.Contains(work.Id, rung);
    }

    [Fact]
    public async Task Times_come_out_as_UTC_to_the_microsecond_and_others_are_not_taken()
    {
        var at = new DateTime(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc).AddTicks(1234560);
        await using (var db = store.Open())
        {
            var act = Act.Of(Door.System, "tell the time", at, _name);
            await db.CarryOutAsync<bool>(
                Door.System, act, () => Task.FromResult<Outcome<bool>>(true), CancellationToken.None);
        }

        await using var reading = store.Open();
        var stored = (await reading.Acts.SingleAsync(act => act.Reason == _name)).At;
        Assert.Equal((at, DateTimeKind.Utc), (stored, stored.Kind));
        await Assert.ThrowsAnyAsync<Exception>(() => reading.Acts
            .AnyAsync(act => act.At > DateTime.SpecifyKind(at, DateTimeKind.Local)));
    }

    private async Task AssertNothingStoredAsync()
    {
        await using var db = store.Open();
        Assert.False(await db.Sources.AnyAsync(source => source.Name == _name));
        Assert.False(await db.Acts.AnyAsync(act => act.Reason == _name));
    }

    private async Task<Outcome<long>> NameSourceAsync(Door door, string name)
    {
        await using var db = store.Open();
        return await db.CarryOutAsync<long>(
            door, Act.Of(door, "name a source", At, name),
            async () =>
            {
                var source = Source.Named(name);
                db.Add(source);
                await db.SaveChangesAsync();
                return source.Id;
            },
            CancellationToken.None);
    }

    private static Task<Outcome<bool>> Added(AccessionDb db, object thing)
    {
        db.Add(thing);
        return Task.FromResult<Outcome<bool>>(true);
    }
}
