using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Tests;

namespace Accession.Server.Tests.Numbering;

[Trait("Store", "sqlite")]
public sealed class RollsOnSqlite(ServerOnSqlite server) : RollTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class RollsOnPostgreSql(ServerOnPostgreSql server) : RollTests(server), IClassFixture<ServerOnPostgreSql>;

public abstract class RollTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Species,Sheets
        Orla Finch,7,2024-06-14,Oregon,Harney,Poa secunda J.Presl,4
        """;

    [Fact]
    public async Task A_roll_begins_right_behind_the_last_number_that_is_on_a_sheet()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        var gathering = Assert.Single(pile.Gatherings);
        Assert.Equal([pile.Code(1), pile.Code(2)], [await NextAsync(), await NextAsync()]);
        Assert.Contains(pile.Code(3), await SeriesAsync(), StringComparison.Ordinal);

        var tooEarly = await RegisterAsync(2, 9);
        Assert.Contains(
            $"has issued numbers up to {pile.Code(2)}", Assert.Single(tooEarly.Refusals), StringComparison.Ordinal);
        Assert.Empty((await RegisterAsync(3, 9)).Refusals);

        Assert.Contains(pile.Code(10), await SeriesAsync(), StringComparison.Ordinal);
        Assert.Equal(pile.Code(10), await NextAsync());
        var scanned = await scanner.ScanAsync(pile.Code(3), gathering);
        Assert.Equal(pile.Code(3), scanned.One("li.scan .code").TextContent);
        Assert.Empty(await Pile.VerifyAsync(server));

        async Task<string> NextAsync() => (await scanner.NextAsync(gathering)).One("li.scan .code").TextContent;

        async Task<string> SeriesAsync() =>
            (await curator.GetPageAsync("/series")).All("tr")
                .Single(row => row.TextContent.Contains($"{pile.Prefix}0000000", StringComparison.Ordinal)).TextContent;

        async Task<Page> RegisterAsync(int first, int last) => await curator.SubmitAsync(
            await curator.GetPageAsync("/series"), "form[action$='handler=Roll']",
            [("rollName", $"roll {pile.Prefix} {first}"), ("first", pile.Code(first)), ("last", pile.Code(last))]);
    }
}
