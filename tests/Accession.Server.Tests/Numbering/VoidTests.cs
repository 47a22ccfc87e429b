using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Numbering;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Numbering;

[Trait("Store", "sqlite")]
public sealed class VoidOnSqlite(ServerOnSqlite server) : VoidTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class VoidOnPostgreSql(ServerOnPostgreSql server) : VoidTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Numbers of rolls become void with a reason, and every number is accounted for on one page.</summary>
public abstract class VoidTests(TestServer server)
{
    private static string List => $"""
        Collector,Coll. No.,Date coll.,State,County,Species,Sheets
        Orla {InventedNames.FamilyOf($"{Guid.NewGuid()}")},7,2024-06-14,Oregon,Harney,Poa secunda J.Presl,40
        """;

    [Fact]
    public async Task A_void_number_is_refused_at_the_bench_until_the_void_is_taken_back()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List);
        var gathering = Assert.Single(pile.Gatherings);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 11, 20);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.ScanAsync(pile.Code(12), gathering);
        await scanner.NextAsync(gathering);

        Assert.Contains($"{pile.Code(12)} is on a sheet", await RefusedAsync(11, 14), StringComparison.Ordinal);
        Assert.Contains("print it again", await RefusedAsync(1, null), StringComparison.Ordinal);
        Assert.Contains("in its turn", await RefusedAsync(5, null), StringComparison.Ordinal);
        Assert.Contains("stand on one roll", await RefusedAsync(19, 21), StringComparison.Ordinal);
        Assert.Empty((await MakeAsync(13, 15, "barcodes torn.")).Refusals);
        Assert.Contains("void already: barcodes torn", await RefusedAsync(15, 16), StringComparison.Ordinal);

        var scanned = await scanner.ScanAsync(pile.Code(14), gathering);
        Assert.Equal(HttpStatusCode.Conflict, scanned.Status);
        Assert.Matches("is void since .* 20[0-9]{2}: barcodes torn", scanned.One("li.scan").TextContent);
        Assert.Equal(
            [
                $"{pile.Code(1)} 1 on a sheet none",
                $"{pile.Code(2)} to {pile.Code(10)} 9 ready for the next sheets none",
                $"{pile.Code(11)} 1 unused Roll {pile.Prefix} 11",
                $"{pile.Code(12)} 1 on a sheet Roll {pile.Prefix} 11",
                $"{pile.Code(13)} to {pile.Code(15)} 3 void barcodes torn; Test Curator, DAY Roll {pile.Prefix} 11",
                $"{pile.Code(16)} to {pile.Code(20)} 5 unused Roll {pile.Prefix} 11",
            ],
            (await RangesAsync(curator, pile)).Take(6));

        var page = await curator.GetPageAsync("/numbers");
        var form = $"tr:has(th:contains('{pile.Code(13)}')) form[action$='handler=Back']";
        Assert.Contains("good again", Assert.Single((await curator.SubmitAsync(page, form, [("why", "")])).Refusals), StringComparison.Ordinal);
        page = await curator.GetPageAsync("/numbers");
        Assert.Empty((await curator.SubmitAsync(page, form, [("why", "found again")])).Refusals);
        Assert.Contains("found again; Test Curator", (await curator.GetPageAsync("/numbers")).Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await scanner.ScanAsync(pile.Code(14), gathering)).Status);
        Assert.Empty(await Pile.VerifyAsync(server));

        async Task<string> RefusedAsync(int first, int? last) =>
            Assert.Single((await MakeAsync(first, last, "torn")).Refusals);

        async Task<Page> MakeAsync(int first, int? last, string why) => await curator.SubmitAsync(
            await curator.GetPageAsync("/numbers"), "form[action$='handler=Void']",
            [("first", pile.Code(first)), ("last", last is null ? "" : pile.Code(last.Value)), ("reason", why)]);
    }

    [Fact]
    public async Task Who_makes_a_number_void_and_who_uses_it_at_once_never_both_win()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 1, 30);
        using var scanner = await new Scanner(await server.SignInAsync(Role.Technician), pile).OpenAsync();

        for (var number = 1; number <= 30; number++)
        {
            var code = pile.Code(number);
            var used = Task.Run(() => scanner.ScanAsync(code, pile.Gatherings[0]));
            var both = Enumerable.Range(0, 2).Select(_ => Task.Run(() => server.RunAsync<VoidNumbers, Outcome<VoidNumbers.Done>>(
                make => make.RunAsync(new(code, null, "torn"), Door.System, CancellationToken.None)))).ToList();
            var voids = await Task.WhenAll(both);
            var scanned = await used;

            var won = voids.Count(made => !made.IsRefused) + (scanned.Status == HttpStatusCode.OK ? 1 : 0);
            Assert.True(won == 1, $"{code}: {won} won. {Scanner.Said(scanned)}");
            Assert.All(voids.Where(made => made.IsRefused), made => Assert.Contains(
                scanned.Status == HttpStatusCode.OK ? "is on a sheet" : "is void already",
                Assert.Single(made.Refusals).Reason, StringComparison.Ordinal));
        }

        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_number_that_is_nowhere_is_said_loudly_and_pages_leave_none_out()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List.Replace(",40", ",60", StringComparison.Ordinal));
        await Bench.RegisterRollAsync(curator, pile.Prefix, 1, 500);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        for (var number = 2; number <= 130; number += 3)
        {
            Assert.Equal(HttpStatusCode.OK, (await scanner.ScanAsync(pile.Code(number), pile.Gatherings[0])).Status);
        }

        var first = await curator.GetPageAsync("/numbers");
        var onward = first.One($"nav.pager a[href*='series={pile.SeriesId}']").GetAttribute("href")!;
        var shown = await RangesAsync(curator, pile);
        Assert.Equal(80, shown.Count);
        Assert.Equal($"{pile.Code(119)} 1 on a sheet Roll {pile.Prefix} 1", shown[^1]);
        Assert.StartsWith($"{pile.Code(120)} to {pile.Code(121)} 2 unused", (await RangesAsync(curator, pile, onward))[0], StringComparison.Ordinal);
        Assert.Equal(87, (await RangesAsync(curator, pile, $"/numbers?series={pile.SeriesId}")).Count);
        Assert.DoesNotContain("That must not be", first.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await curator.GetPageAsync("/numbers?series=987654")).Status);

        await server.InRegisterAsync(db => db.Series.Where(s => s.Id == pile.SeriesId)
            .ExecuteUpdateAsync(set => set.SetProperty(s => s.Next, 504)));
        var wrong = await curator.GetPageAsync($"/numbers?series={pile.SeriesId}");
        Assert.Contains("3 numbers of this series were issued and are nowhere", wrong.Text, StringComparison.Ordinal);
        Assert.Contains(await RangesAsync(curator, pile, $"/numbers?series={pile.SeriesId}"), range => range.StartsWith(
            $"{pile.Code(501)} to {pile.Code(503)} 3 nowhere", StringComparison.Ordinal));
        await server.InRegisterAsync(db => db.Series.Where(s => s.Id == pile.SeriesId)
            .ExecuteUpdateAsync(set => set.SetProperty(s => s.Next, 1)));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private static async Task<IReadOnlyList<string>> RangesAsync(Visitor visitor, Pile pile, string address = "/numbers")
    {
        var page = await visitor.GetPageAsync(address);
        var rows = page.All($"section[aria-labelledby='series-{pile.SeriesId}'] table:last-of-type tbody tr");
        return
        [
            .. rows.Select(row => System.Text.RegularExpressions.Regex.Replace(
                string.Join(' ', row.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)),
                "[0-9]{1,2} [A-Z][a-z]{2} 20[0-9]{2}", "DAY")),
        ];
    }
}
