using System.Globalization;
using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Background;
using Accession.Server.Publishing;
using Accession.Server.Receiving;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Server.Tests.Receiving;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Server.Tests.Background;

[Trait("Store", "sqlite")]
public sealed class StopWorkOnSqlite(ServerOnSqlite server) : StopWorkTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class StopWorkOnPostgreSql(ServerOnPostgreSql server)
    : StopWorkTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Long work is stopped from its page: nothing is half done, and the page says what was kept.</summary>
public abstract class StopWorkTests(TestServer server)
{
    private const string Elsewhere = "another process";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);

    [Fact]
    public void Of_every_kind_of_work_it_is_said_what_stopping_means() => Assert.Equal(
        Kinds(server.App.Services).Order(), WorkStop.Known.Order());

    [Fact]
    public async Task A_list_stops_in_the_middle_and_goes_on_to_the_same_end()
    {
        using var curator = await server.SignInAsync(Role.Curator);

        // What was read is kept, and nothing can be done with it.
        var (path, count, stopped) = await StopInTheMiddleAsync(curator, ReadListWork.Kind, 12_000,
            count => ReceiveAsync(curator, $"Stopped while {count} are read", count));
        var batch = BatchOf(path);
        Assert.Contains("Test Curator stopped this", stopped.Text, StringComparison.Ordinal);
        Assert.Contains("It waits until somebody goes on", stopped.Text, StringComparison.Ordinal);
        var read = await server.InRegisterAsync(db => db.Rows.CountAsync(row => row.BatchId == batch));
        Assert.True(read < count, $"{read} rows");
        // Nothing was looked for among the sheets that are here, so nothing can go in.
        var takeIn = await curator.GetPageAsync($"{path}/take-in");
        Assert.Empty(takeIn.All("main form"));
        Assert.Contains("No settled row waits", takeIn.Text, StringComparison.Ordinal);

        Assert.Contains("Go on with what was stopped: read a list", (await curator.GetPageAsync("/")).Text, StringComparison.Ordinal);

        await GoOnAsync(curator, path);
        await server.WaitForWorkAsync();
        Assert.Equal(count, await server.InRegisterAsync(db => db.Rows.CountAsync(row => row.BatchId == batch)));
        var whole = await curator.GetPageAsync(path);
        Assert.Contains($"{count:N0} settled", whole.Text, StringComparison.Ordinal);
        Assert.Empty(whole.All("form[action$='handler=GoOn']"));
    }

    [Fact]
    public async Task Taking_in_stops_in_the_middle_and_goes_on_to_the_same_end()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "STOP");

        var (path, count, stopped) = await StopInTheMiddleAsync(curator, TakeInRowsWork.Kind, 2000, async count =>
        {
            var path = await ReceiveAsync(curator, $"Stopped while {count} are taken in", count);
            await server.WaitForWorkAsync();
            var takeIn = await curator.GetPageAsync($"{path}/take-in");
            var answer = await curator.SubmitAsync(
                takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", $"{count}")]);
            Assert.Empty(answer.Refusals);
            return path;
        });
        var batch = BatchOf(path);
        var lot = await server.InRegisterAsync(db => db.Accessions.SingleAsync(one => one.BatchId == batch));
        var taken = await server.InRegisterAsync(db => db.Gatherings.CountAsync(g => g.AccessionId == lot.Id));
        Assert.True(taken < count, $"{taken} gatherings");
        Assert.Contains("take rows in", stopped.One(".said.waiting").TextContent, StringComparison.Ordinal);

        // What is in the register stays there, once.
        await GoOnAsync(curator, path);
        await server.WaitForWorkAsync();
        Assert.Equal(count, await server.InRegisterAsync(db => db.Gatherings.CountAsync(g => g.AccessionId == lot.Id)));
        Assert.Equal(count, await server.InRegisterAsync(
            db => db.Accessions.Where(one => one.Id == lot.Id).Select(one => one.SheetsOnList).SingleAsync()));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Taking_over_stops_in_the_middle_and_goes_on_to_the_same_end()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "STOPPED");

        var (path, count, stopped) = await StopInTheMiddleAsync(curator, TakeOverRowsWork.Kind, 2000, async count =>
        {
            var batch = await TakenOver.ReceiveAsync(server, curator, $"Stopped while {count} are taken over",
                Enumerable.Range(1, count).Select(n => TakenOver.Row($"St {count}/{n / 2}", n)));
            var answer = await curator.SubmitAsync(
                await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-over"), "main form");
            Assert.Empty(answer.Refusals);
            return batch.Address.AbsolutePath;
        });
        var batch = BatchOf(path);
        var lot = await server.InRegisterAsync(db => db.Accessions.SingleAsync(one => one.BatchId == batch));
        var taken = await server.InRegisterAsync(db => db.Specimens.CountAsync(s => s.Gathering.AccessionId == lot.Id));
        Assert.True(taken < count, $"{taken} sheets");
        Assert.Contains("take sheets over", stopped.One(".said.waiting").TextContent, StringComparison.Ordinal);

        await GoOnAsync(curator, path);
        await server.WaitForWorkAsync();
        Assert.Equal(count, await server.InRegisterAsync(db => db.Specimens.CountAsync(s => s.Gathering.AccessionId == lot.Id)));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task An_archive_that_is_cancelled_leaves_nothing_and_can_be_built_again()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var work = await ElsewhereAsync(BuildArchiveWork.Kind, BuildArchiveWork.TheDataset);
        var page = await curator.GetPageAsync("/archive");
        Assert.Contains("20 of 100", page.One(".progress").TextContent, StringComparison.Ordinal);
        Assert.Contains("You may leave this page", page.One(".progress").TextContent, StringComparison.Ordinal);
        Assert.Contains("nothing of this archive is kept", page.One(".progress").TextContent, StringComparison.Ordinal);

        var answer = await curator.SubmitAsync(page, "form[action$='handler=Stop']");
        Assert.Equal("/archive", answer.Location);
        page = await curator.FollowAsync(answer);
        Assert.Contains("Test Curator stopped it", page.One(".progress").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.All("form[action$='handler=Stop']"));

        // The other process heeds it at its next step, and says so.
        await WithClaimsAsync(async claims =>
        {
            await Assert.ThrowsAsync<WorkStoppedException>(
                () => claims.ReportAsync(work, Elsewhere, 30, 100, CancellationToken.None));
            await claims.StopAsync(work, Elsewhere, WorkStop.Of(BuildArchiveWork.Kind).IsForGood, CancellationToken.None);
        });
        page = await curator.GetPageAsync("/archive");
        Assert.Contains("Test Curator cancelled this", page.One($"#work-{work}").TextContent, StringComparison.Ordinal);
        var back = await curator.GetPageAsync($"/progress/{work}");
        Assert.Empty(back.All("main form"));

        Assert.Empty((await curator.SubmitAsync(page, "main form")).Refusals);
        await server.WaitForWorkAsync();
        page = await curator.GetPageAsync("/archive");
        Assert.Empty(page.All($"#work-{work}"));
        Assert.NotEmpty(page.All("a[download]"));
    }

    [Fact]
    public async Task What_waits_for_its_turn_is_stopped_before_it_is_begun()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var work = await ElsewhereAsync(BuildArchiveWork.Kind, 4711);
        await WithClaimsAsync(claims => claims.PutOffAsync(work, Elsewhere, null, CancellationToken.None));

        await curator.SubmitAsync(await curator.GetPageAsync($"/progress/{work}"), "form[action$='handler=Stop']");
        await server.WaitForWorkAsync();

        var row = await RowAsync(work);
        Assert.Equal((null, true), (row.Result, row.StoppedAt is not null));
    }

    [Fact]
    public async Task Rows_that_are_read_again_are_not_stopped_half_way()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var work = await ElsewhereAsync(RereadRowsWork.Kind, 987_654);
        var page = await curator.GetPageAsync($"/progress/{work}");
        Assert.Contains("It cannot be cancelled", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.All("main form"));

        var refused = await server.RunAsync<StopWork, Outcome<string>>(
            stop => stop.StopAsync(work, Door.System, CancellationToken.None));

        Assert.Contains("half the other", Assert.Single(refused.Refusals).Reason, StringComparison.Ordinal);
        Assert.Null((await RowAsync(work)).StopActId);
        await WithClaimsAsync(claims => claims.FinishAsync(work, Elsewhere, null, CancellationToken.None));
    }

    [Fact]
    public async Task A_technician_sees_how_far_it_is_and_stops_nothing()
    {
        using var technician = await server.SignInAsync(Role.Technician);
        var work = await ElsewhereAsync(ReadListWork.Kind, 987_655);

        var page = await technician.GetPageAsync($"/progress/{work}");

        Assert.Contains("20 of 100", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.All("main form"));
        await WithClaimsAsync(claims => claims.FinishAsync(work, Elsewhere, null, CancellationToken.None));
    }

    [Fact]
    public async Task What_is_done_can_neither_be_stopped_nor_gone_on_with()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var work = await ElsewhereAsync(ReadListWork.Kind, 987_656);
        var page = await curator.GetPageAsync($"/progress/{work}");
        await WithClaimsAsync(claims => claims.FinishAsync(work, Elsewhere, null, CancellationToken.None));

        var late = await curator.SubmitAsync(page, "form[action$='handler=Stop']");

        Assert.Equal(HttpStatusCode.Conflict, late.Status);
        Assert.Equal("It was done before it could be stopped.", Assert.Single(late.Refusals));
        var again = await server.RunAsync<StopWork, Outcome<string>>(
            stop => stop.GoOnAsync(work, Door.System, CancellationToken.None));
        Assert.Contains("It is over", Assert.Single(again.Refusals).Reason, StringComparison.Ordinal);
    }

    private static IEnumerable<string> Kinds(IServiceProvider services)
    {
        using var scope = services.CreateScope();
        return [.. scope.ServiceProvider.GetKeyedServices<IWork>(KeyedService.AnyKey)
            .Select(work => (string)work.GetType().GetField("Kind")!.GetValue(null)!)];
    }

    // A collector of its own for each row: nothing of the list is like anything else of it.
    private static string Family(int n) => "F" + string.Concat($"{n}".Select(digit => $"a{"bdgklmnprt"[digit - '0']}"));

    private static long BatchOf(string path) => long.Parse(path.Split('/')[^1], CultureInfo.InvariantCulture);

    private static async Task<string> ReceiveAsync(Visitor curator, string source, int count)
    {
        // Begun beyond any shorter list's last row, so that no list repeats another.
        var rows = Enumerable.Range(count + 1, count).Select(
            n => $"Ada {Family(n)},{n},{1900 + (n % 120)}-05-01,Field {n}");
        var answer = await curator.SubmitAsync(
            await curator.GetPageAsync("/batches"), "main form", [("SourceName", source)],
            [new Upload("List", "long.csv", Encoding.UTF8.GetBytes("Collector,Number,Date,Locality\n" + string.Join('\n', rows)))]);
        Assert.Empty(answer.Refusals);
        return answer.Location!;
    }

    /// <summary>
    /// Begins work on a list and stops it from the page. A machine may be done before the hand is at the button; then
    /// it gets a list twice as long.
    /// </summary>
    private async Task<(string Path, int Count, Page Stopped)> StopInTheMiddleAsync(
        Visitor curator, string kind, int count, Func<int, Task<string>> beginAsync)
    {
        while (true)
        {
            var path = await beginAsync(count);
            await UntilAsync(work => work.Kind == kind);
            var page = await curator.GetPageAsync(path);
            if (page.All("form[action$='handler=Stop']").Count == 1
                && (await curator.SubmitAsync(page, "form[action$='handler=Stop']")).Location == path)
            {
                await UntilAsync(work => work.Kind == kind && (work.StoppedAt ?? work.FinishedAt) is not null);
                page = await curator.GetPageAsync(path);
                if (page.All("form[action$='handler=GoOn']").Count == 1)
                {
                    return (path, count, page);
                }
            }

            await server.WaitForWorkAsync();
            Assert.True(count < 100_000, $"{count} rows were done before anybody could stop them.");
            count *= 2;
        }
    }

    private static async Task GoOnAsync(Visitor curator, string path)
    {
        var answer = await curator.SubmitAsync(await curator.GetPageAsync(path), "form[action$='handler=GoOn']");
        Assert.Equal(path, answer.Location);
    }

    private async Task UntilAsync(Func<WorkRow, bool> isSo)
    {
        var until = TimeProvider.System.GetUtcNow() + Patience;
        while (true)
        {
            var work = await server.InRegisterAsync(
                db => db.Work.AsNoTracking().OrderByDescending(row => row.Id).FirstAsync());
            if (isSo(work))
            {
                return;
            }

            Assert.True(TimeProvider.System.GetUtcNow() < until, $"{work.Kind}: {work.Done} of {work.Total}");
            await Task.Delay(TimeSpan.FromMilliseconds(20));
        }
    }

    /// <summary>Work that another process of this register has, and has done a fifth of.</summary>
    private async Task<long> ElsewhereAsync(string kind, long subject)
    {
        var id = await server.InRegisterAsync(async db =>
        {
            var act = Act.Of(Door.System, "want work", TimeProvider.System.GetUtcNow().UtcDateTime);
            var row = WorkRow.Wanted(kind, subject, act);
            db.Add(row);
            await db.SaveChangesAsync();
            return row.Id;
        });
        await WithClaimsAsync(async claims =>
        {
            Assert.NotNull(await claims.ClaimAsync(id, Elsewhere, CancellationToken.None));
            await claims.ReportAsync(id, Elsewhere, 20, 100, CancellationToken.None);
        });
        return id;
    }

    private Task<WorkRow> RowAsync(long id) =>
        server.InRegisterAsync(db => db.Work.AsNoTracking().SingleAsync(row => row.Id == id));

    private async Task WithClaimsAsync(Func<WorkClaims, Task> use)
    {
        await using var scope = server.App.Services.CreateAsyncScope();
        await use(scope.ServiceProvider.GetRequiredService<WorkClaims>());
    }
}
