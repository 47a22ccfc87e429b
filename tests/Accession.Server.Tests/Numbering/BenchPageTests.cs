using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Accession.Server.Tests.Numbering;

[Trait("Store", "sqlite")]
public sealed class BenchPageOnSqlite(TalkativeOnSqlite server)
    : BenchPageTests(server), IClassFixture<TalkativeOnSqlite>;

[Trait("Store", "postgres")]
public sealed class BenchPageOnPostgreSql(TalkativeOnPostgreSql server)
    : BenchPageTests(server), IClassFixture<TalkativeOnPostgreSql>;

/// <summary>The page of the bench: what it still shows after it was loaded again, and what it asks the register.</summary>
public abstract class BenchPageTests(TalkativeServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets
        Orla Finch,301,2024-06-14,United States,Oregon,Harney,Dry wash,Poa secunda J.Presl,14
        Orla Finch,302,2024-06-14,United States,Oregon,Harney,Dry wash,Carex hoodii Boott,2
        """;

    [Fact]
    public async Task The_last_ten_acts_of_a_person_are_there_when_the_page_is_loaded_again()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, elsewhere) = (await TakeInAsync(curator, "Finch"), await TakeInAsync(curator, "Bunting"));
        var bench = $"/accession/{pile.Accession}/numbering";
        using var technician = await server.SignInAsync(Role.Technician);
        using var scanner = await new Scanner(await server.SignInAsync(Role.Technician), pile).OpenAsync();
        using var other = await new Scanner(curator, pile).OpenAsync();
        using var away = await new Scanner(await server.SignInAsync(Role.Technician), elsewhere).OpenAsync();
        Assert.Empty((await technician.GetPageAsync(bench)).All("li.scan"));

        await away.ScanAsync(elsewhere.Code(11), elsewhere.Gatherings[0]);
        await other.ScanAsync(pile.Code(30), pile.Gatherings[0]);
        await scanner.ScanAsync(pile.Code(11), pile.Gatherings[0]);
        await scanner.NextAsync(pile.Gatherings[0]);
        await scanner.ScanAsync(pile.Code(1), pile.Gatherings[0]);
        await scanner.NextAsync(pile.Gatherings[0]);
        var page = await technician.GetPageAsync($"{bench}?gathering={pile.Gatherings[0]}");
        page = await technician.FollowAsync(await technician.SubmitAsync(page, "form[action$='handler=Extra']"));
        Assert.Equal(HttpStatusCode.OK, page.Status);

        // A form's own answer stands there once, not beside the same act from the register.
        string[] done =
        [
            "one more Counted Orla Finch 301", $"{pile.Code(2)} Scan it back", $"{pile.Code(1)} Proven",
            $"{pile.Code(1)} Issued", $"{pile.Code(11)} Numbered Orla Finch 301, Poa secunda J.Presl",
        ];
        AssertScans(page, done);
        AssertScans(await technician.GetPageAsync(bench), done);

        // What was refused was no act, and stands above the acts until the page is loaded again.
        var refused = await technician.SubmitAsync(page, "form[data-scan-line]", [("code", "NO-SUCH-CODE")]);
        AssertScans(refused, ["NO-SUCH-CODE Refused", .. done]);

        for (var n = 12; n < 20; n++)
        {
            Assert.Equal(HttpStatusCode.OK, (await scanner.ScanAsync(pile.Code(n), pile.Gatherings[0])).Status);
        }

        page = await technician.GetPageAsync(bench);
        AssertScans(
            page,
            [.. Enumerable.Range(12, 8).Reverse().Select(n => $"{pile.Code(n)} Numbered"), .. done[..2]]);
        Assert.Equal($"/specimen/{pile.Code(19)}", page.All("li.scan a")[0].GetAttribute("href"));
    }

    [Fact]
    public async Task A_scan_counts_the_pile_once()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await TakeInAsync(curator, "Whinchat");
        using var scanner = await new Scanner(await server.SignInAsync(Role.Technician), pile).OpenAsync();
        using var said = new Listener();
        server.App.Services.GetRequiredService<ILoggerFactory>().AddProvider(said);

        var answer = await scanner.ScanAsync(pile.Code(11), pile.Gatherings[0]);

        Assert.Contains("15 of 16 sheets of this pile wait", answer.Text, StringComparison.Ordinal);
        var counting = said.Lines.Where(line => line.StartsWith("Executed DbCommand", StringComparison.Ordinal)
            && line.Contains("sum(", StringComparison.OrdinalIgnoreCase)
            && line.Contains("sheets_expected", StringComparison.Ordinal)).ToList();
        Assert.True(counting.Count == 1, string.Join('\n', counting));
    }

    // By another collector in another year, or the sheets were found to be duplicates of those of another test.
    private async Task<Pile> TakeInAsync(Visitor curator, string family)
    {
        var pile = await Pile.TakeInAsync(server, curator, List.Replace("Finch", family, StringComparison.Ordinal)
            .Replace("2024", $"{2024 - family.Length}", StringComparison.Ordinal));
        await Bench.RegisterRollAsync(curator, pile.Prefix, 11, 40);
        return pile;
    }

    private static void AssertScans(Page page, string[] beginnings)
    {
        var scans = page.All("ol[data-scans] li.scan").Select(scan => string.Join(
            ' ', scan.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))).ToList();
        Assert.True(
            scans.Count == beginnings.Length
                && scans.Zip(beginnings).All(pair => pair.First.StartsWith(pair.Second, StringComparison.Ordinal)),
            $"Expected:\n{string.Join('\n', beginnings)}\nShown:\n{string.Join('\n', scans)}");
    }
}
