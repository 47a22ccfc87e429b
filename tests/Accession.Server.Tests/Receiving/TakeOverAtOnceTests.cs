using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class TakeOverAtOnceOnSqlite(ServerOnSqlite server)
    : TakeOverAtOnceTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class TakeOverAtOnceOnPostgreSql(ServerOnPostgreSql server)
    : TakeOverAtOnceTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Sheets are taken over while others do the same, or number sheets by hand.</summary>
public abstract class TakeOverAtOnceTests(TestServer server)
{
    private const int Sheets = 400;

    [Fact]
    public async Task Of_two_curators_who_take_one_batch_over_one_is_told()
    {
        using var one = await server.SignInAsync(Role.Curator);
        using var other = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(one, TakenOver.Prefix());
        for (var round = 0; round < 3; round++)
        {
            var source = $"Both {Guid.NewGuid():N}";
            var batch = await TakenOver.ReceiveAsync(
                server, one, source, Enumerable.Range(1, 20).Select(n => TakenOver.Row($"{source[^6..]}/{n}", n)));
            var path = $"{batch.Address.AbsolutePath}/take-over";
            var pages = (await one.GetPageAsync(path), await other.GetPageAsync(path));
            var answers = await Task.WhenAll(
                one.SubmitAsync(pages.Item1, "main form"), other.SubmitAsync(pages.Item2, "main form"));
            await server.WaitForWorkAsync();

            Assert.Single(answers, answer => answer.Status == HttpStatusCode.Found);
            var told = Assert.Single(answers, answer => answer.Refusals.Count > 0);
            Assert.Equal(HttpStatusCode.Conflict, told.Status);
            Assert.Equal(20, (await TakenOver.SheetsAsync(server, source)).Count);
            Assert.Equal(1, await server.InRegisterAsync(db => db.Accessions.CountAsync(
                lot => db.Batches.Any(b => b.Id == lot.BatchId && b.Source.Name == source))));
        }

        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Two_lists_that_bear_the_same_numbers_both_come_in()
    {
        using var one = await server.SignInAsync(Role.Curator);
        using var other = await server.SignInAsync(Role.Curator);
        var prefix = TakenOver.Prefix();
        await Bench.BeginSeriesAsync(one, prefix);
        string[] sources = [$"First {prefix}", $"Second {prefix}"];
        List<Page> batches = [];
        foreach (var source in sources)
        {
            // Half of the numbers follow the series, half follow none.
            batches.Add(await TakenOver.ReceiveAsync(server, one, source, Enumerable.Range(1, Sheets).Select(n =>
                TakenOver.Row(n % 2 == 0 ? $"{prefix}{n:0000000}" : $"{prefix[..4]}.{n}", n))));
        }

        var pages = (
            await one.GetPageAsync($"{batches[0].Address.AbsolutePath}/take-over"),
            await other.GetPageAsync($"{batches[1].Address.AbsolutePath}/take-over"));
        var answers = await Task.WhenAll(
            one.SubmitAsync(pages.Item1, "main form"), other.SubmitAsync(pages.Item2, "main form"));
        Assert.All(answers, answer => Assert.Empty(answer.Refusals));
        await server.WaitForWorkAsync();

        var all = (await TakenOver.SheetsAsync(server, sources[0])).Concat(await TakenOver.SheetsAsync(server, sources[1]));
        Assert.Equal(2 * Sheets, all.Distinct().Count());
        Assert.Equal(Sheets, all.Count(number => number.EndsWith("/1", StringComparison.Ordinal)));
        Assert.Empty(await Pile.VerifyAsync(server));
        var numbers = await one.GetPageAsync("/numbers");
        Assert.Contains($"{Sheets / 2} numbers on sheets, {Sheets / 2} unused on rolls", numbers.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nobody_is_given_a_number_that_is_being_taken_over()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(
            server, curator, "Collector,Number,Date,Species,Sheets\nOrla Finch,1,2024-05-01,Poa annua L.,60");
        // The numbers that lie ready, and those the counter would give out next.
        var batch = await TakenOver.ReceiveAsync(server, curator, $"Race {pile.Prefix}",
            Enumerable.Range(1, Sheets).Select(n => TakenOver.Row(pile.Code(n + 5), n)));
        var page = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-over");
        using var scanner = await new Scanner(await server.SignInAsync(Role.Technician), pile).OpenAsync();
        var racing = Enumerable.Range(0, 25).Select(async i =>
        {
            await Task.Delay(TimeSpan.FromMilliseconds(20 * i));
            return await NextAsync();
        }).ToList();
        Assert.Empty((await curator.SubmitAsync(page, "main form")).Refusals);
        // A number that is asked for before the act of taking over was answered may be borne twice; after it none is,
        // while the sheets are still being written.
        List<string> late = [];
        for (var sheet = 0; sheet < 15; sheet++)
        {
            late.Add(await NextAsync());
        }

        await Task.WhenAll(racing);
        await server.WaitForWorkAsync();

        Assert.All(late, number => Assert.True(
            string.CompareOrdinal(number, pile.Code(Sheets + 5)) > 0, $"{number} was given out again."));
        Assert.Equal(Sheets, (await TakenOver.SheetsAsync(server, $"Race {pile.Prefix}")).Count);
        Assert.Equal(40, await server.InRegisterAsync(db => db.Specimens.CountAsync(s => s.GatheringId == pile.Gatherings[0])));
        Assert.Empty(await Pile.VerifyAsync(server));

        async Task<string> NextAsync()
        {
            var answer = await scanner.NextAsync(pile.Gatherings[0]);
            Assert.Equal(HttpStatusCode.OK, answer.Status);
            return answer.One("li.scan .code").TextContent;
        }
    }

    [Fact]
    public async Task A_technician_takes_nothing_over()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, TakenOver.Prefix());
        var source = $"Not theirs {Guid.NewGuid():N}";
        var batch = await TakenOver.ReceiveAsync(server, curator, source, [TakenOver.Row(source[^8..] + "x", 1)]);
        using var technician = await server.SignInAsync(Role.Technician);
        var page = await technician.GetPageAsync($"{batch.Address.AbsolutePath}/take-over");
        Assert.True(
            page.Status == HttpStatusCode.Forbidden || page.Location?.StartsWith("/not-yours", StringComparison.Ordinal) == true
                || new Uri(server.Address, page.Location ?? "").AbsolutePath == "/not-yours",
            $"{page.Status} {page.Location}");
        Assert.Empty(await TakenOver.SheetsAsync(server, source));
    }
}
