using Accession.Core.Outcomes;
using Accession.Storage.Work;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;

namespace Accession.Storage.Tests.Work;

[Trait("Store", "sqlite")]
public sealed class WorkClaimsOnSqlite(StoreOnSqlite store) : WorkClaimsTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class WorkClaimsOnPostgreSql(StoreOnPostgreSql store)
    : WorkClaimsTests(store), IClassFixture<StoreOnPostgreSql>;

public abstract class WorkClaimsTests(TestStore store)
{
    private readonly FakeTimeProvider _clock = new(new DateTimeOffset(2026, 3, 5, 9, 0, 0, TimeSpan.Zero));

    [Fact]
    public async Task Of_many_who_claim_at_once_one_has_it()
    {
        var id = await WantAsync();

        var claims = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => ClaimAsync(id, $"owner {n}"))));

        Assert.Single(claims, claim => claim is not null);
        Assert.Equal(1, (await RowAsync(id)).Attempts);
    }

    [Fact]
    public async Task Work_of_a_living_owner_is_left_alone()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the first");
        _clock.Advance(WorkClaims.Lease - TimeSpan.FromSeconds(1));

        Assert.Null(await ClaimAsync(id, "the next"));
        Assert.DoesNotContain(id, await UnclaimedAsync());
    }

    [Fact]
    public async Task Work_of_a_dead_owner_is_taken_over_where_it_stood()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the dead");
        await WithClaimsAsync(claims => claims.ReportAsync(id, "the dead", 40, 100, CancellationToken.None));
        _clock.Advance(WorkClaims.Lease + TimeSpan.FromSeconds(1));

        Assert.Contains(id, await UnclaimedAsync());
        var taken = await ClaimAsync(id, "the next");

        Assert.Equal(("the next", 2, 40L, 100L), (taken!.Owner, taken.Attempts, taken.Done, taken.Total));
    }

    [Fact]
    public async Task Work_that_was_put_off_waits_for_its_time_unless_it_is_woken()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the first");
        var later = _clock.GetUtcNow().UtcDateTime + TimeSpan.FromMinutes(5);
        await WithClaimsAsync(claims => claims.PutOffAsync(id, "the first", later, CancellationToken.None));

        Assert.Null(await ClaimAsync(id, "the hasty"));
        Assert.DoesNotContain(id, await UnclaimedAsync());
        _clock.Advance(TimeSpan.FromMinutes(5));
        Assert.Contains(id, await UnclaimedAsync());
        Assert.Equal(1, (await ClaimAsync(id, "the next"))!.Attempts);

        await WithClaimsAsync(claims => claims.PutOffAsync(
            id, "the next", later + TimeSpan.FromDays(1), CancellationToken.None));
        var kind = (await RowAsync(id)).Kind;
        await WithClaimsAsync(claims => claims.WakeAsync(kind, CancellationToken.None));
        Assert.NotNull(await ClaimAsync(id, "the last"));
    }

    [Fact]
    public async Task Saying_how_far_it_is_keeps_the_lease()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the slow");
        for (var minute = 0; minute < 5; minute++)
        {
            _clock.Advance(WorkClaims.Lease - TimeSpan.FromSeconds(1));
            await WithClaimsAsync(claims => claims.ReportAsync(id, "the slow", minute, 5, CancellationToken.None));
        }

        Assert.Null(await ClaimAsync(id, "the hasty"));
    }

    [Fact]
    public async Task Whoever_lost_the_work_can_neither_report_nor_end_it()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the late");
        _clock.Advance(WorkClaims.Lease + TimeSpan.FromSeconds(1));
        await ClaimAsync(id, "the next");

        await Assert.ThrowsAsync<WorkLostException>(() => WithClaimsAsync(
            claims => claims.ReportAsync(id, "the late", 1, 1, CancellationToken.None)));
        await Assert.ThrowsAsync<WorkLostException>(() => WithClaimsAsync(
            claims => claims.FinishAsync(id, "the late", "mine", CancellationToken.None)));
        await WithClaimsAsync(claims => claims.FailAsync(id, "the late", "No.", CancellationToken.None));
        await WithClaimsAsync(claims => claims.ReleaseAsync(id, "the late", CancellationToken.None));

        var row = await RowAsync(id);
        Assert.Equal(("the next", null, null), (row.Owner, row.Result, row.Failure));
        Assert.Null(row.FinishedAt);
    }

    [Fact]
    public async Task Work_that_was_let_go_waits_for_anybody()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the first");
        await WithClaimsAsync(claims => claims.ReleaseAsync(id, "the first", CancellationToken.None));

        Assert.Contains(id, await UnclaimedAsync());
        Assert.NotNull(await ClaimAsync(id, "the next"));
    }

    [Fact]
    public async Task The_time_is_reckoned_from_where_the_count_begins()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the first");
        var claimed = _clock.GetUtcNow().UtcDateTime;
        Assert.Equal(claimed, (await RowAsync(id)).BegunAt);

        _clock.Advance(TimeSpan.FromSeconds(20));
        await WithClaimsAsync(claims => claims.ReportAsync(id, "the first", 0, 0, CancellationToken.None));
        Assert.Equal(claimed.AddSeconds(20), (await RowAsync(id)).BegunAt);

        _clock.Advance(TimeSpan.FromSeconds(20));
        await WithClaimsAsync(claims => claims.ReportAsync(id, "the first", 5, 50, CancellationToken.None));
        Assert.Equal(claimed.AddSeconds(20), (await RowAsync(id)).BegunAt);
    }

    [Fact]
    public async Task Work_that_rests_waits_for_nobody_but_who_goes_on()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the first");
        await WithRowAsync(id, (row, act) => Assert.Null(row.Stop(act)));
        await Assert.ThrowsAsync<WorkStoppedException>(() => WithClaimsAsync(
            claims => claims.ReportAsync(id, "the first", 3, 9, CancellationToken.None)));
        await WithClaimsAsync(claims => claims.StopAsync(id, "the first", forGood: false, CancellationToken.None));
        _clock.Advance(TimeSpan.FromDays(1));

        Assert.DoesNotContain(id, await UnclaimedAsync());
        Assert.Null(await ClaimAsync(id, "the next"));
        var row = await RowAsync(id);
        Assert.Equal((3L, 9L, null, null), (row.Done, row.Total, row.Owner, row.FinishedAt));

        await WithRowAsync(id, (stopped, _) => Assert.Null(stopped.GoOn()));
        Assert.Contains(id, await UnclaimedAsync());
        Assert.Equal(1, (await ClaimAsync(id, "the next"))!.Attempts);
    }

    [Fact]
    public async Task Whoever_lost_the_work_hears_that_and_not_that_it_was_stopped()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the late");
        _clock.Advance(WorkClaims.Lease + TimeSpan.FromSeconds(1));
        await ClaimAsync(id, "the next");
        await WithRowAsync(id, (row, act) => Assert.Null(row.Stop(act)));

        await Assert.ThrowsAsync<WorkLostException>(() => WithClaimsAsync(
            claims => claims.ReportAsync(id, "the late", 1, 1, CancellationToken.None)));
    }

    [Fact]
    public async Task Finished_work_is_not_begun_again()
    {
        var id = await WantAsync();
        await ClaimAsync(id, "the first");
        await WithClaimsAsync(claims => claims.FinishAsync(id, "the first", "archive.zip", CancellationToken.None));
        _clock.Advance(TimeSpan.FromDays(1));

        Assert.Null(await ClaimAsync(id, "the next"));
        Assert.DoesNotContain(id, await UnclaimedAsync());
        Assert.Equal("archive.zip", (await RowAsync(id)).Result);
    }

    private async Task<long> WantAsync()
    {
        await using var db = store.Open();
        var act = Act.Of(Door.System, "want work", _clock.GetUtcNow().UtcDateTime);
        var work = WorkRow.Wanted("test", 7, act);
        db.Add(work);
        await db.SaveChangesAsync();
        return work.Id;
    }

    private async Task<WorkRow> RowAsync(long id)
    {
        await using var db = store.Open();
        return await db.Work.AsNoTracking().SingleAsync(row => row.Id == id);
    }

    private async Task WithRowAsync(long id, Action<WorkRow, Act> change)
    {
        await using var db = store.Open();
        var act = Act.Of(Door.System, "stop work", _clock.GetUtcNow().UtcDateTime);
        db.Add(act);
        change(await db.Work.SingleAsync(row => row.Id == id), act);
        await db.SaveChangesAsync();
    }

    private async Task<WorkRow?> ClaimAsync(long id, string owner)
    {
        await using var db = store.Open();
        return await new WorkClaims(db, _clock).ClaimAsync(id, owner, CancellationToken.None);
    }

    private async Task<List<long>> UnclaimedAsync()
    {
        await using var db = store.Open();
        return await new WorkClaims(db, _clock).UnclaimedAsync(CancellationToken.None);
    }

    private async Task WithClaimsAsync(Func<WorkClaims, Task> use)
    {
        await using var db = store.Open();
        await use(new WorkClaims(db, _clock));
    }
}
