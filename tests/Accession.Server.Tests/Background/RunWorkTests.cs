using Accession.Core.Outcomes;
using Accession.Server.Background;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Work;
using Accession.Tests.Stores;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace Accession.Server.Tests.Background;

[Trait("Store", "sqlite")]
public sealed class RunWorkOnSqlite(StoreOnSqlite store) : RunWorkTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class RunWorkOnPostgreSql(StoreOnPostgreSql store) : RunWorkTests(store), IClassFixture<StoreOnPostgreSql>;

public abstract class RunWorkTests(TestStore store)
{
    private readonly FakeTimeProvider _clock = new(new DateTimeOffset(2026, 3, 5, 9, 0, 0, TimeSpan.Zero));

    [Fact]
    public async Task Work_is_done_once_and_its_result_kept()
    {
        var work = new Scripted((_, _) => Task.FromResult<string?>("archive.zip"));
        var id = await WantAsync();
        await RunAsync(work, id);
        await RunAsync(work, id);

        Assert.Equal(1, work.Begun);
        var row = await RowAsync(id);
        Assert.Equal("archive.zip", row.Result);
        Assert.NotNull(row.FinishedAt);
        Assert.Null(row.Failure);
    }

    [Fact]
    public async Task Work_that_stops_is_let_go_and_given_up_in_the_fifth_attempt()
    {
        var work = new Scripted((_, _) => throw new InvalidOperationException("A secret of the machine."));
        var id = await WantAsync();
        for (var attempt = 1; attempt < WorkClaims.MostAttempts; attempt++)
        {
            await RunAsync(work, id);
            var waiting = await RowAsync(id);
            Assert.Null(waiting.Owner);
            Assert.Null(waiting.FinishedAt);
        }

        await RunAsync(work, id);
        await RunAsync(work, id);

        Assert.Equal(5, work.Begun);
        var row = await RowAsync(id);
        Assert.NotNull(row.FinishedAt);
        Assert.StartsWith("It stopped 5 times and was given up.", row.Failure, StringComparison.Ordinal);
        Assert.DoesNotContain("secret", row.Failure, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Work_of_a_process_that_died_each_time_is_given_up_too()
    {
        var work = new Scripted((_, _) => Task.FromResult<string?>(null));
        var id = await WantAsync();
        for (var attempt = 1; attempt <= WorkClaims.MostAttempts; attempt++)
        {
            await using var db = store.Open();
            Assert.NotNull(await new WorkClaims(db, _clock).ClaimAsync(id, $"dead {attempt}", CancellationToken.None));
            _clock.Advance(WorkClaims.Lease + TimeSpan.FromSeconds(1));
        }

        await RunAsync(work, id);

        Assert.Equal(0, work.Begun);
        Assert.NotNull((await RowAsync(id)).Failure);
    }

    [Fact]
    public async Task Work_is_let_go_when_the_server_stops()
    {
        using var stop = new CancellationTokenSource();
        var work = new Scripted(async (_, cancellation) =>
        {
            await stop.CancelAsync();
            cancellation.ThrowIfCancellationRequested();
            return null;
        });
        var id = await WantAsync();

        await RunAsync(work, id, cancellation: stop.Token);

        var row = await RowAsync(id);
        Assert.Null(row.Owner);
        Assert.Null(row.FinishedAt);
    }

    [Fact]
    public async Task Work_that_was_taken_over_meanwhile_is_left_to_the_new_owner()
    {
        var id = await WantAsync();
        var work = new Scripted(async (progress, cancellation) =>
        {
            _clock.Advance(WorkClaims.Lease + TimeSpan.FromSeconds(1));
            await using var db = store.Open();
            Assert.NotNull(await new WorkClaims(db, _clock).ClaimAsync(id, "the next", cancellation));
            await progress.ReportAsync(1, 2, cancellation);
            return "never";
        });

        await RunAsync(work, id);

        var row = await RowAsync(id);
        Assert.Equal("the next", row.Owner);
        Assert.Null(row.FinishedAt);
        Assert.Null(row.Result);
    }

    [Theory]
    [InlineData("build the archive", true)]
    [InlineData("read a list", false)]
    public async Task Work_that_is_stopped_is_over_or_rests_by_its_kind(string kind, bool isOver)
    {
        var id = await WantAsync(kind);
        var work = new Scripted(async (progress, cancellation) =>
        {
            await progress.ReportAsync(1, 3, cancellation);
            await using var db = store.Open();
            Assert.False((await new StopWork(db, _clock).StopAsync(id, Door.System, cancellation)).IsRefused);
            await progress.ReportAsync(2, 3, cancellation);
            return "never";
        });

        await RunAsync(work, id, kind: kind);
        await RunAsync(work, id, kind: kind);

        Assert.Equal(1, work.Begun);
        var row = await RowAsync(id);
        Assert.Equal((isOver, 2L, null, null), (row.FinishedAt is not null, row.Done, row.Result, row.Failure));
        Assert.NotNull(row.StoppedAt);

        await using var db = store.Open();
        var goneOn = await new StopWork(db, _clock).GoOnAsync(id, Door.System, CancellationToken.None);
        Assert.Equal(isOver, goneOn.IsRefused);
        await RunAsync(new Scripted((_, _) => Task.FromResult<string?>("at last")), id, kind: kind);
        Assert.Equal(isOver ? null : "at last", (await RowAsync(id)).Result);
    }

    [Fact]
    public async Task Work_that_came_to_its_end_before_it_heeded_is_done()
    {
        const string kind = "build the archive";
        var id = await WantAsync(kind);
        var work = new Scripted(async (_, cancellation) =>
        {
            await using var db = store.Open();
            await new StopWork(db, _clock).StopAsync(id, Door.System, cancellation);
            return "archive.zip";
        });

        await RunAsync(work, id, kind: kind);

        var row = await RowAsync(id);
        Assert.Equal(("archive.zip", null), (row.Result, row.StoppedAt));
    }

    private async Task<long> WantAsync(string kind = Scripted.Kind)
    {
        await using var db = store.Open();
        var act = Act.Of(Door.System, "want work", _clock.GetUtcNow().UtcDateTime);
        WorkRow? wanted = null;
        await db.CarryOutAsync<bool>(
            Door.System, act,
            () =>
            {
                wanted = WorkRow.Wanted(kind, 7, act);
                db.Add(wanted);
                return Task.FromResult<Outcome<bool>>(true);
            },
            CancellationToken.None);
        return wanted!.Id;
    }

    private async Task<WorkRow> RowAsync(long id)
    {
        await using var db = store.Open();
        return await db.Work.AsNoTracking().SingleAsync(row => row.Id == id);
    }

    private async Task RunAsync(
        Scripted work, long id, string kind = Scripted.Kind, CancellationToken cancellation = default)
    {
        await using var services = new ServiceCollection()
            .AddLogging()
            .Configure<IdentityOptions>(IdentitySchema.Use)
            .AddSingleton<TimeProvider>(_clock)
            .AddSingleton(store.Database)
            .AddSingleton(store.Bell)
            .AddDbContext<AccessionDb>((_, options) => store.Use(options))
            .AddScoped<WorkClaims>()
            .AddSingleton<RunWork>()
            .AddKeyedSingleton<IWork>(kind, work)
            .BuildServiceProvider();
        await services.GetRequiredService<RunWork>().RunAsync(id, cancellation);
    }

    private sealed class Scripted(Func<WorkProgress, CancellationToken, Task<string?>> script) : IWork
    {
        public const string Kind = "scripted";

        public int Begun { get; private set; }

        public Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
        {
            Begun++;
            return script(progress, cancellation);
        }
    }
}
