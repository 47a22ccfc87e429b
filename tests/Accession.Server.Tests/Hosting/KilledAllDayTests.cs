using System.Globalization;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Mail;
using Accession.Server.Tests.Numbering;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Hosting;

[Trait("Store", "sqlite")]
public sealed class KilledAllDayOnSqlite(StoreOnSqlite store) : KilledAllDayTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class KilledAllDayOnPostgreSql(StoreOnPostgreSql store)
    : KilledAllDayTests(store), IClassFixture<StoreOnPostgreSql>;

/// <summary>
/// The power fails again and again while lists are received, taken in, numbered and their collectors asked. How often is
/// set by <c>ACCESSION_KILLS</c>; the moments are others each time, and the seed is printed.
/// </summary>
public abstract class KilledAllDayTests(TestStore store)
{
    private const int Usual = 8;
    private const int Gatherings = 12;
    private const int Clashes = 2;
    private const int Sheets = 2;
    private const string Prefix = "NIGHT-";

    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(4);

    private readonly Dictionary<string, (long Gathering, string Code)> _heard = [];
    private readonly List<(string Source, byte[] List)> _received = [];

    [Fact]
    public async Task Whatever_was_done_is_there_once_when_the_power_fails_all_day()
    {
        store.Require();
        var kills = int.Parse(Environment.GetEnvironmentVariable("ACCESSION_KILLS") ?? $"{Usual}", CultureInfo.InvariantCulture);
        var seed = Random.Shared.Next(1_000_000);
        var log = TestContext.Current.TestOutputHelper!;
        log.WriteLine($"{kills} kills, seed {seed}");
        await using var peer = new SmtpPeer();
        await using var power = new FailingPower(store, MailingServer.SettingsFor(peer), seed);
        using var curator = await CuratorAsync(power);
        await Bench.BeginSeriesAsync(curator, Prefix);

        var failing = power.FailAsync(kills, Longest, TestContext.Current.CancellationToken);
        var rounds = 0;
        do
        {
            await RoundAsync(power, curator, ++rounds);
        }
        while (!failing.IsCompleted);

        await failing;
        log.WriteLine($"{rounds} lists; killed while: "
            + string.Join(", ", power.Kills.GroupBy(doing => doing).Select(g => $"{g.Key} {g.Count()}")));
        await WorkDoneAsync();
        await EverythingAgainAsync(curator);
        await AssertOnceAsync(rounds);

        var copies = peer.Letters.GroupBy(letter => letter.Message.MessageId).ToList();
        Assert.Equal(rounds * Clashes, copies.Count);
        Assert.InRange(peer.Letters.Count - copies.Count, 0, kills);
        Assert.All(copies, same => Assert.Single(same.Select(letter => letter.To).Distinct()));
        log.WriteLine($"{_heard.Count} numbers; {peer.Letters.Count - copies.Count} of {copies.Count} letters came once more");
        var (exit, said) = await ServerProcess.RunAsync(["verify", .. RestoredServer.Lead(store)]);
        Assert.True(exit == 0, said);
    }

    // A list with clashes of numbers; the rest is new. Each act is sent until it is answered.
    private async Task RoundAsync(FailingPower power, Visitor curator, int round)
    {
        power.Doing = "receiving";
        var source = InventedNames.FamilyOf($"night {round}");
        _received.Add((source, Encoding.UTF8.GetBytes(List(source, round))));
        var received = await ReceiveAsync(curator, source, _received[^1].List);
        Assert.Empty(received.Refusals);
        var batch = received.Location!.ToString();
        await WorkDoneAsync();

        power.Doing = "taking in";
        var takeIn = await FailingPower.InsistAsync(() => curator.GetPageAsync($"{batch}/take-in"));
        var taken = await FailingPower.InsistAsync(() => curator.SubmitAsync(
            takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", $"{(Gatherings + Clashes) * Sheets}")]));
        Assert.Empty(taken.Refusals);
        await WorkDoneAsync();

        power.Doing = "numbering";
        await NumberAsync(curator, round);

        power.Doing = "asking";
        for (var clash = 0; clash < Clashes; clash++)
        {
            var page = await FailingPower.InsistAsync(() => curator.GetPageAsync($"{batch}/findings"));
            var draft = await FailingPower.InsistAsync(
                () => curator.GetPageAsync(page.One("a[data-key=a]").GetAttribute("href")!));
            var asked = await FailingPower.InsistAsync(() => curator.SubmitAsync(
                draft, "form[action*='handler=Ask']", [("address", $"{source.ToLowerInvariant()}@collectors.example")]));
            Assert.Empty(asked.Refusals);
            Assert.NotNull(asked.Location);
        }

        power.Doing = "sending";
        await WorkDoneAsync();
    }

    private static Task<Page> ReceiveAsync(Visitor curator, string source, byte[] list) => FailingPower.InsistAsync(
        async () => await curator.SubmitAsync(
            await curator.GetPageAsync("/batches"), "main form", [("SourceName", source)],
            [new Upload("List", $"{source}.csv", list)]));

    private async Task NumberAsync(Visitor curator, int round)
    {
        var (accession, gatherings, series) = await LatestPileAsync();
        Assert.Equal(Gatherings + Clashes, gatherings.Count);
        using var scanner = await ScannerAsync(curator, accession, gatherings, series);
        foreach (var (gathering, sheet) in gatherings.SelectMany(g => Enumerable.Range(1, Sheets).Select(s => (g, s))))
        {
            var key = $"night-{round}-{gathering}-{sheet}";
            var code = Code(await FailingPower.InsistAsync(() => scanner.NextAsync(gathering, key)));
            _heard.Add(key, (gathering, code));
            Assert.Equal(code, Code(await FailingPower.InsistAsync(() => scanner.ScanAsync(code, gathering, key + "-back"))));
        }
    }

    // Resending changes nothing: neither the lists nor the scans, whoever heard their answers.
    private async Task EverythingAgainAsync(Visitor curator)
    {
        foreach (var (source, list) in _received)
        {
            var again = await curator.FollowAsync(await ReceiveAsync(curator, source, list));
            Assert.Contains("received before: nothing was changed", again.Text, StringComparison.Ordinal);
        }

        var (accession, gatherings, series) = await LatestPileAsync();
        using var scanner = await ScannerAsync(curator, accession, gatherings, series);
        foreach (var (key, (gathering, code)) in _heard.Where(heard => gatherings.Contains(heard.Value.Gathering)))
        {
            Assert.Equal(code, Code(await scanner.NextAsync(gathering, key)));
        }
    }

    private async Task AssertOnceAsync(int rounds)
    {
        await using var db = store.Open();
        var numbered = rounds * (Gatherings + Clashes) * Sheets;
        Assert.Equal(numbered, _heard.Count);
        Assert.Equal(rounds, await db.Batches.CountAsync());
        Assert.Equal(rounds * (Gatherings + (2 * Clashes)), await db.Rows.CountAsync());   // one of each clash waits for its collector
        Assert.Equal(rounds, await db.Accessions.CountAsync());
        Assert.Equal(rounds * (Gatherings + Clashes), await db.Gatherings.CountAsync());
        var sheets = await db.Specimens.OrderBy(s => s.Number)
            .Select(s => new { s.Number, s.CatalogNumber, s.GatheringId }).ToListAsync();
        Assert.Equal(Enumerable.Range(1, numbered).Select(n => (long)n), sheets.Select(s => s.Number));
        Assert.Equal(
            _heard.Values.Select(heard => (heard.Code, heard.Gathering)).Order(),
            sheets.Select(s => (s.CatalogNumber, s.GatheringId)).Order());
        Assert.Equal(rounds * Clashes, await db.Letters.CountAsync(letter => letter.SentAt != null && letter.RefusedAt == null));
        Assert.Equal(0, await db.Work.CountAsync(work => work.FinishedAt == null || work.Failure != null));
    }

    private async Task<(string Accession, List<long> Gatherings, long Series)> LatestPileAsync()
    {
        await using var db = store.Open();
        var lot = await db.Accessions.OrderByDescending(l => l.Id).Select(l => new { l.Id, l.Number }).FirstAsync();
        var gatherings = await db.Gatherings.Where(g => g.AccessionId == lot.Id).OrderBy(g => g.Id).Select(g => g.Id)
            .ToListAsync();
        var series = await db.Series.Where(s => s.PatternText == Prefix + "0000000").Select(s => s.Id).SingleAsync();
        return (lot.Number, gatherings, series);
    }

    private static Task<Scanner> ScannerAsync(Visitor curator, string accession, List<long> gatherings, long series) =>
        FailingPower.InsistAsync(() => new Scanner(
            new Visitor(curator.Http.BaseAddress!, curator.SessionCookie),
            new Pile(accession, Prefix, "", series, gatherings)).OpenAsync());

    private async Task WorkDoneAsync()
    {
        var until = TimeProvider.System.GetUtcNow() + TimeSpan.FromMinutes(2);
        while (true)
        {
            await using var db = store.Open();
            if (!await db.Work.AnyAsync(work => work.FinishedAt == null))
            {
                return;
            }

            Assert.True(TimeProvider.System.GetUtcNow() < until, "There is still work.");
            await Task.Delay(TimeSpan.FromMilliseconds(30));
        }
    }

    private static async Task<Visitor> CuratorAsync(FailingPower power)
    {
        var server = await power.StartAsync();
        using var administrator = new Visitor(power.Address);
        await administrator.ComeInAsync(await server.LinkAsync("Administrator"));
        var made = await administrator.SubmitAsync(
            await administrator.GetPageAsync("/accounts"), "form.form",
            [("DisplayName", "Night Curator"), ("UserName", "night"), ("Roles", nameof(Role.Curator))]);
        var curator = new Visitor(power.Address);
        await curator.ComeInAsync(new Uri(made.One(".said code").TextContent).PathAndQuery);
        return curator;
    }

    private static string Code(Page answer)
    {
        Assert.True(answer.Status == System.Net.HttpStatusCode.OK, answer.Text);
        return answer.One("li.scan .code").TextContent;
    }

    private static string List(string family, int round)
    {
        var (first, later) = (1950 + (round % 20), 1980 + (round % 20));
        var list = new StringBuilder(Questions.Heading);
        for (var n = 1; n <= Clashes; n++)
        {
            list.Append(CultureInfo.InvariantCulture, $"""
                J. R. {family},{800 + n},{first}-06-{10 + n},Oregon,Harney,Sage flat,43.{n}8,-119.05,Poa secunda J.Presl,{Sheets}
                J. R. {family},{800 + n},{later}-05-{10 + n},Nevada,Elko,Spruce ridge,41.{n}2,-115.3,Poa secunda J.Presl,{Sheets}

                """);
        }

        for (var n = 1; n <= Gatherings; n++)
        {
            var (place, plant) = (InventedNames.FamilyOf($"{round} place {n}"), InventedNames.FamilyOf($"{round} plant {n}"));
            list.Append(CultureInfo.InvariantCulture, $"""
                J. R. {family},{n},{first}-07-{n:00},Oregon,Lake,{place} flat,42.{n:00},-120.{n:00},Poa {plant.ToLowerInvariant()},{Sheets}

                """);
        }

        return list.ToString();
    }
}
