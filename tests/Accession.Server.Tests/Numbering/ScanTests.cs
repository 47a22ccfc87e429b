using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Numbering;

[Trait("Store", "sqlite")]
public sealed class ScanOnSqlite(ServerOnSqlite server) : ScanTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ScanOnPostgreSql(ServerOnPostgreSql server) : ScanTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>What a scan at the bench does and says, for every kind of scan.</summary>
public abstract class ScanTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Locality,Species,Sheets
        Orla Finch,101,2024-06-14,Oregon,Harney,Sage flat,Artemisia tridentata Nutt.,2
        Orla Finch,102,2024-06-14,Oregon,Harney,Cold Ford,Poa secunda J.Presl,1
        Tam Brandt,102,2024-06-15,Oregon,Lake,Dry wash,Bromus tectorum L.,1
        """;

    [Fact]
    public async Task Every_scan_is_answered_and_only_a_right_one_counts()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 11, 20);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        var (first, second, third) = (pile.Gatherings[0], pile.Gatherings[1], pile.Gatherings[2]);

        await SaysAsync(scanner.ScanAsync(pile.Code(11), null), HttpStatusCode.UnprocessableEntity, "no gathering is in hand");
        await SaysAsync(scanner.ScanAsync("", first), HttpStatusCode.NotFound, "Nothing was scanned");
        await SaysAsync(scanner.ScanAsync("9 781234 567897", first), HttpStatusCode.NotFound, "no number of ours");
        await SaysAsync(scanner.ScanAsync(pile.Code(21), first), HttpStatusCode.NotFound, "stands on no roll");
        await SaysAsync(scanner.ScanAsync(pile.Code(0), first), HttpStatusCode.NotFound, "stands on no roll");
        await SaysAsync(
            scanner.ScanAsync(pile.Code(11) + pile.Code(12), first), HttpStatusCode.UnprocessableEntity, "ran together");
        Assert.Equal(0, await NumberedAsync(pile));

        // A key seen before gets the earlier answer, whatever has become of the sheet since.
        var numbered = await SaysAsync(
            scanner.ScanAsync(pile.Code(11).ToLowerInvariant(), first, pile.Prefix), HttpStatusCode.OK, "sheet 1 of 2");
        Assert.Contains("done", numbered.One("li.scan").ClassName, StringComparison.Ordinal);
        Assert.Equal($"/specimen/{pile.Code(11)}", numbered.One("li.scan a").GetAttribute("href"));
        Assert.Equal($"{first}", numbered.One("meta[name=scan-fields][data-name=gathering]").GetAttribute("content"));
        await SaysAsync(scanner.ScanAsync(pile.Code(11), first), HttpStatusCode.Conflict, "on a sheet of this gathering");
        await SaysAsync(scanner.ScanAsync(pile.Code(11), second), HttpStatusCode.Conflict, "on a sheet of Orla Finch 101");
        var again = await scanner.ScanAsync(pile.Code(11), first, pile.Prefix);
        Assert.Equal((Scanner.Said(numbered), numbered.Status), (Scanner.Said(again), again.Status));

        // An issued number proves itself when it is read from the sheet; only then the next gathering is in hand.
        var issued = await SaysAsync(scanner.NextAsync(first), HttpStatusCode.OK, "sheet 2 of 2");
        Assert.Contains("waiting", issued.One("li.scan").ClassName, StringComparison.Ordinal);
        Assert.Equal($"{first}", issued.One("meta[name=scan-fields]").GetAttribute("content"));
        var proven = await SaysAsync(scanner.ScanAsync($"{pile.Prefix} 1", first), HttpStatusCode.OK, "Proven");
        Assert.Equal($"{second}", proven.One("meta[name=scan-fields]").GetAttribute("content"));
        await SaysAsync(scanner.ScanAsync(pile.Code(12), first), HttpStatusCode.Conflict, "add it to the count first");
        Assert.Equal(2, await NumberedAsync(pile));

        // A typed collector number takes up a gathering; two that answer to it are both offered.
        var taken = await SaysAsync(scanner.ScanAsync("Brandt 102", first), HttpStatusCode.OK, "Taken up");
        Assert.Equal($"{third}", taken.One("meta[name=scan-fields]").GetAttribute("content"));
        var several = await SaysAsync(scanner.ScanAsync("102", first), HttpStatusCode.OK, "2 found");
        Assert.Equal(2, several.All("a[href*='?gathering=']").Count);

        // One more sheet than listed is counted first.
        using var technician = await server.SignInAsync(Role.Technician);
        var bench = await technician.GetPageAsync($"/accession/{pile.Accession}/numbering?gathering={second}");
        await technician.SubmitAsync(bench, "form[action$='handler=Extra']");
        await SaysAsync(scanner.ScanAsync(pile.Code(12), second), HttpStatusCode.OK, "sheet 1 of 2");
        await SaysAsync(scanner.NextAsync(second), HttpStatusCode.OK, "sheet 2 of 2");

        // Numbers of accessions do not go on sheets, and what is not there is not numbered.
        var accessions = await server.InRegisterAsync(db => db.Series.Where(s => s.PatternText == "YYYY.0000")
            .Select(s => s.Id).SingleAsync());
        await SaysAsync(scanner.NextAsync(third, series: accessions), HttpStatusCode.UnprocessableEntity, "go on sheets");
        await SaysAsync(scanner.NextAsync(third, series: 987_654), HttpStatusCode.UnprocessableEntity, "go on sheets");
        await SaysAsync(scanner.NextAsync(987_654_321), HttpStatusCode.NotFound, "not in the register");
        Assert.Equal(4, await NumberedAsync(pile));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_series_that_reads_like_another_is_refused()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "TWIN-A");
        var page = await curator.GetPageAsync("/series");
        foreach (var (pattern, status, reason) in new[]
        {
            ("twin a00000000", HttpStatusCode.UnprocessableEntity, "Round the noughts"),
            ("twina00000000", HttpStatusCode.Conflict, "could be read as one of Sheets TWIN-A"),
            ("TWIN-A30000000", HttpStatusCode.Conflict, "could be read as one of Sheets TWIN-A"),
            ("TWIN-YYYY-0000", HttpStatusCode.UnprocessableEntity, "never begin again"),
        })
        {
            var answer = await curator.SubmitAsync(page, "form[action$='handler=Series']",
                [("seriesName", $"Another {pattern}"), ("use", "Specimens"), ("pattern", pattern)]);
            Assert.Equal(status, answer.Status);
            Assert.Contains(reason, Assert.Single(answer.Refusals), StringComparison.Ordinal);
        }
    }

    private Task<int> NumberedAsync(Pile pile) =>
        server.InRegisterAsync(db => db.Specimens.CountAsync(s => s.SeriesId == pile.SeriesId));

    private static async Task<Page> SaysAsync(Task<Page> asked, HttpStatusCode status, string words)
    {
        var answer = await asked;
        Assert.True(answer.Status == status, $"{answer.Status} instead of {status}: {answer.Source}");
        Assert.Contains(words, answer.One("li.scan").TextContent, StringComparison.Ordinal);
        return answer;
    }
}
