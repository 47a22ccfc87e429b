using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class NumberingHabitOnSqlite(ServerOnSqlite server)
    : NumberingHabitTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class NumberingHabitOnPostgreSql(ServerOnPostgreSql server)
    : NumberingHabitTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>How a collector numbers is proposed from the holdings, shown with its evidence, and said by a curator.</summary>
public abstract class NumberingHabitTests(TestServer server)
{
    private const string State = "form[action$='handler=Habit']";

    [Fact]
    public async Task A_habit_is_proposed_with_its_evidence_and_holds_when_a_curator_says_so()
    {
        var address = await RecordedAsync("yearly", (1931, [1, 40, 90]), (1932, [3, 60, 120]), (1933, [2, 30]));
        using var curator = await server.SignInAsync(Role.Curator);
        var page = await curator.GetPageAsync(address);
        Assert.Contains("Not stated", page.One("#numbers").TextContent, StringComparison.Ordinal);
        Assert.Contains("begin anew each year: 2 of 2 changes of year", page.One("#numbers-held").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.All("input[name=habit][checked]"));

        Assert.Empty((await curator.SubmitAsync(
            page, State, [("habit", "RestartsYearly"), ("how", "from the numbers held here")])).Refusals);

        page = await curator.GetPageAsync(address);
        Assert.Contains("Begins anew each year", page.One("#numbers p strong").TextContent, StringComparison.Ordinal);
        Assert.Contains("from the numbers held here", page.One("#numbers").TextContent, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task The_numbers_are_drawn_and_stand_beside_the_drawing_in_figures()
    {
        var address = await RecordedAsync("drawn", (1941, [1, 5, 9]), (1942, [14, 20]), (1943, [310, 311, 330]));
        using var curator = await server.SignInAsync(Role.Curator);
        var page = await curator.GetPageAsync(address);

        Assert.Equal(8, page.One("svg path.dots").GetAttribute("d")!.Count(c => c == 'M'));
        Assert.Equal("img", page.One("figure svg").GetAttribute("role"));
        Assert.Contains("one run for life: 7 of 7", page.One("#plot-words").TextContent, StringComparison.Ordinal);
        Assert.Equal(
            ["1941 3 1 9", "1942 2 14 20", "1943 3 310 330"],
            page.All("#numbers tbody tr").Select(row => string.Join(' ', row.Children.Select(cell => cell.TextContent))));
    }

    [Fact]
    public async Task Of_a_few_numbers_nothing_is_proposed_and_nobody_says_what_is_no_habit()
    {
        var address = await RecordedAsync("few", (1951, [1, 2]));
        using var curator = await server.SignInAsync(Role.Curator);
        var page = await curator.GetPageAsync(address);
        Assert.Contains("fewer than 8 nothing is proposed", page.One("#numbers-held").TextContent, StringComparison.Ordinal);

        foreach (var (habit, how) in new[] { ("Whatever", "x"), ("2", "x"), ("", "x"), ("OneRun", " ") })
        {
            var refused = await CollectorsAtHand.PostAsync(server, curator, page, "Habit", ("habit", habit), ("how", how));
            Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        }

        Assert.Empty((await curator.SubmitAsync(page, State, [("habit", "ByProject"), ("how", "told by phone")])).Refusals);
        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync(address), State, [("habit", "none"), ("how", "it was another one")])).Refusals);
        Assert.Contains("Not known", (await curator.GetPageAsync(address)).One("#numbers p strong").TextContent, StringComparison.Ordinal);
    }

    // Somebody with these numbers, put on record; answers the address.
    private async Task<string> RecordedAsync(string text, params (int Year, int[] Numbers)[] years)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var family = InventedNames.FamilyOf($"{text} habit");
        var list = new StringBuilder("Collector,Coll. No.,Date coll.,State,County,Locality,Species,Sheets\n");
        foreach (var (year, numbers) in years)
        {
            foreach (var (number, at) in numbers.Select((number, at) => (number, at)))
            {
                list.Append(null, $"Ada {family},{number},{year}-04-{10 + at},Oregon,Harney,Stop {year} {number},Poa annua L.,1\n");
            }
        }

        await Pile.TakeInAsync(server, curator, list.ToString());
        return await CollectorsAtHand.OnRecordAsync(curator, $"Ada {family}", $"Ada {family}");
    }
}
