using System.Globalization;
using System.Net;
using System.Text;
using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Tests;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class FindingsOnSqlite(ServerOnSqlite server) : FindingsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class FindingsOnPostgreSql(ServerOnPostgreSql server)
    : FindingsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>What comes in is found to be here already, and a curator settles it. People and places are invented.</summary>
public abstract class FindingsTests(TestServer server)
{
    private const string Heading = "Collector,Number,Date,State,County,Locality,Lat,Long,Species,Sheets\n";

    [Fact]
    public async Task Sheets_stay_as_duplicates_leave_or_are_told_apart_and_every_sheet_is_counted()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("settled");
        var held = await Pile.TakeInAsync(server, curator, Heading + $"""
            J. R. {name},812,2024-06-14,Oregon,Harney,Sage flat north of the ford,43.58642,-119.05417,Poa secunda J.Presl,1
            J. R. {name},813,2024-06-14,Oregon,Harney,Dry wash below the rim,43.61,-119.2,Bromus tectorum L.,1
            J. R. {name},814,2024-06-15,Oregon,Lake,Alkali playa,42.9,-120.1,Elymus elymoides (Raf.) Swezey,1
            """);
        var batch = await Bench.ReceiveAsync(server, curator, $"Exchange {name}", "dupl.csv", Encoding.UTF8.GetBytes(
            Heading + $"""
            "{name}, Jane R.",812,14.VI.2024,Oregon,Harney,"Sage flat, N of the ford",43.5865,-119.0541,Poa secunda J.Presl,2
            "{name}, Jane R.",813,14.VI.2024,Oregon,Harney,Dry wash below the rim,43.61,-119.2,Bromus tectorum L.,3
            "{name}, Jane R.",814,2.V.2019,Nevada,Elko,Spruce ridge above the mine,41.2,-115.3,Elymus elymoides (Raf.) Swezey,1
            "{name}, Jane R.",815,16.VI.2024,Oregon,Lake,Lava edge,42.8,-120.3,Stipa hymenoides Roem. & Schult.,1
            """));
        var path = batch.Address.AbsolutePath;
        Assert.Contains("3 open", batch.Text, StringComparison.Ordinal);

        // Kept, taken back, kept again.
        Assert.Equal("Same gathering", await KindAsync(curator, path, 2));
        await DecideAsync(curator, path, 2, "Keep");
        var undone = await curator.SubmitAsync(
            await curator.GetPageAsync($"{path}/findings"), "form[action$='handler=Reopen']");
        Assert.Empty(undone.Refusals);
        await DecideAsync(curator, path, 2, "Keep");

        // Sheets leave only with a reason where somebody would ask for one.
        var refused = await DecideAsync(curator, path, 3, "Return", refused: true);
        Assert.Contains("Write why", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        await DecideAsync(curator, path, 3, "Exchange");

        Assert.Equal("Number clash", await KindAsync(curator, path, 4));
        await DecideAsync(curator, path, 4, "Ask");
        var asked = await curator.GetPageAsync($"{path}/findings?show=asked");
        var draft = await curator.GetPageAsync(asked.One("a[data-key=a]").GetAttribute("href")!);
        Assert.Contains("your list: 2 May 2019", draft.One("#text").TextContent, StringComparison.Ordinal);

        // One open question holds up nobody else; the answer comes later.
        await TakeInAsync(curator, path, 6);
        await DecideAsync(curator, path, 4, "Different", show: "?show=asked");
        await TakeInAsync(curator, path, 7);

        var gatherings = await server.InRegisterAsync(db => db.Gatherings.AsNoTracking()
            .Where(g => g.Notes.CollectorsVerbatim.Contains(name)).OrderBy(g => g.Id).ToListAsync());
        Assert.Equal(["812", "813", "814", "812", "815", "814"], gatherings.Select(g => g.Notes.RecordNumber));
        Assert.Equal(gatherings[0].Id, gatherings[3].DuplicateOfId);
        Assert.All(gatherings.Where((_, i) => i != 3), g => Assert.Null(g.DuplicateOfId));
        var away = Assert.Single(await server.InRegisterAsync(db => db.SetAside.AsNoTracking()
            .Where(s => s.GatheringId == gatherings[1].Id).ToListAsync()));
        Assert.Equal((3, RowDecision.Exchange), (away.Sheets, away.Decision));
        Assert.Empty(await Pile.VerifyAsync(server));
        Assert.NotEmpty(held.Gatherings);
    }

    [Fact]
    public async Task A_corrected_row_whose_sheets_left_is_not_counted_a_second_time()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("left already");
        string Row(int number, string place, string plant, string sheets = "1") =>
            $"{name} R.,{number},2023-07-0{number % 10},Oregon,Harney,{place},43.5,-119.1,{plant},{sheets}\n";
        await Pile.TakeInAsync(server, curator, Heading
            + Row(421, "Sage flat", "Poa secunda J.Presl") + Row(422, "Dry wash", "Bromus tectorum L."));
        var source = $"Exchange again {name}";
        // Rows that nobody corrects, by which the list is known again.
        var others = string.Concat(Enumerable.Range(424, 5).Select(number => Row(number, $"Rim {number}", "Carex nebrascensis Dewey")));
        var batch = await Bench.ReceiveAsync(server, curator, source, "first.csv", Encoding.UTF8.GetBytes(Heading
            + Row(421, "Sage flat", "Poa secunda J.Presl", "3") + Row(422, "Dry wash", "Bromus tectorum L.", "2") + others));
        var path = batch.Address.AbsolutePath;
        var batchId = long.Parse(batch.Address.Segments[^1], CultureInfo.InvariantCulture);
        await DecideAsync(curator, path, 2, "Exchange");
        await DecideAsync(curator, path, 3, "Exchange");
        await TakeInAsync(curator, path, 10);
        Assert.Equal(5, await LeftAsync());

        // One row says more of its place; in the other the number was a slip, so it could be another gathering.
        await Bench.ReceiveAsync(server, curator, source, "second.csv", Encoding.UTF8.GetBytes(Heading
            + Row(421, "Sage flat, by the fence", "Poa secunda J.Presl", "3")
            + Row(822, "Dry wash", "Bromus tectorum L.", "2") + others));
        var rows = await curator.GetPageAsync($"{path}/rows?show=open");
        var open = Assert.Single(rows.All("main input[name=rowIds]")).GetAttribute("value")!;
        var corrects = await curator.SubmitAsync(
            rows, "main form[method=post]", [("rowIds", open)], press: "button[name=corrects]");
        Assert.Empty(corrects.Refusals);

        Assert.Contains("No settled row waits", (await curator.GetPageAsync($"{path}/take-in")).Text, StringComparison.Ordinal);
        Assert.Contains("Nothing open", (await curator.GetPageAsync(path)).Text, StringComparison.Ordinal);
        Assert.Contains("In the register", (await curator.GetPageAsync("/batches")).All("tbody tr")
            .Single(row => row.TextContent.Contains(source, StringComparison.Ordinal)).TextContent, StringComparison.Ordinal);
        Assert.Equal(5, await LeftAsync());
        Assert.Equal(7, await server.InRegisterAsync(db => db.Rows.CountAsync(
            row => row.BatchId == batchId && row.SupersededById == null && row.GatheringId != null)));
        Assert.Empty(await Pile.VerifyAsync(server));

        Task<int> LeftAsync() => server.InRegisterAsync(db => db.SetAside
            .Where(left => db.Rows.Any(row => row.Id == left.BatchRowId && row.BatchId == batchId)).SumAsync(left => left.Sheets));
    }

    [Fact]
    public async Task What_was_told_apart_is_never_asked_again()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("apart");
        string[] rows =
        [
            $"T. {name},77,1987-05-02,Oregon,Lake,North shore of the playa,42.9,-120.1,Poa secunda J.Presl,1",
            $"T. {name},77,1987-05-02,Oregon,Lake,North shore of the playa,42.9,-120.1,Bromus tectorum L.,1",
        ];
        var batch = await Bench.ReceiveAsync(
            server, curator, $"Apart {name}", "a.csv", Encoding.UTF8.GetBytes(Heading + string.Join('\n', rows)));
        var path = batch.Address.AbsolutePath;
        await DecideAsync(curator, path, 3, "Different");
        Assert.Equal(FindingKind.New, await FoundAsync());

        // Re-sorted, the other way round and with the columns settled anew.
        await Bench.ReceiveAsync(
            server, curator, $"Apart {name}", "b.csv", Encoding.UTF8.GetBytes(Heading + string.Join('\n', rows.Reverse())));
        Assert.Equal(FindingKind.New, await FoundAsync());
        await curator.SubmitAsync(await curator.GetPageAsync($"{path}/columns"), "main form[method=post]");
        await server.WaitForWorkAsync();
        Assert.Equal(FindingKind.New, await FoundAsync());

        async Task<FindingKind?> FoundAsync() => await server.InRegisterAsync(db => db.Rows
            .Where(row => row.Cells.Contains(name)).MaxAsync(row => row.Finding));
    }

    [Fact]
    public async Task A_decision_on_a_finding_that_changed_meanwhile_decides_nothing()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var other = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("meanwhile");
        var row = $"K. {name},5,1999-08-01,Oregon,Lake,Cold spring,42.7,-120.4,Poa secunda J.Presl,1\n";
        var batch = await Bench.ReceiveAsync(
            server, curator, $"Twice {name}", "a.csv", Encoding.UTF8.GetBytes(Heading + row + row));
        var path = batch.Address.AbsolutePath;
        var seen = await curator.GetPageAsync($"{path}/findings");
        Assert.Equal("Repeat", seen.One("#finding .mark").TextContent);

        await DecideAsync(other, path, 3, "Different");
        var late = await curator.SubmitAsync(seen, "main form.form", press: "button[value=Keep]");

        Assert.Equal(HttpStatusCode.Conflict, late.Status);
        Assert.Contains("changed in the meantime", Assert.Single(late.Refusals), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_curators_decide_about_one_row_at_once_and_the_slower_is_told()
    {
        using var one = await server.SignInAsync(Role.Curator);
        using var other = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("at once");
        var rows = Enumerable.Range(1, 6).Select(
            n => $"K. {name},{n / 2},1999-08-0{(n / 2) + 1},Oregon,Lake,Cold spring {n / 2},42.7,-120.4,Poa secunda J.Presl,1\n");
        var batch = await Bench.ReceiveAsync(
            server, one, $"At once {name}", "a.csv", Encoding.UTF8.GetBytes(Heading + string.Concat(rows)));
        var path = batch.Address.AbsolutePath;
        var open = await server.InRegisterAsync(db => db.Rows
            .Where(row => row.Cells.Contains(name) && row.Finding != FindingKind.New)
            .OrderBy(row => row.Line).Select(row => new { row.Id, row.Line }).ToListAsync());
        Assert.NotEmpty(open);
        foreach (var row in open)
        {
            var (seen, seenByOther) = (
                await AtAsync(one, path, row.Line, ""), await AtAsync(other, path, row.Line, ""));
            var answers = await Task.WhenAll(
                one.SubmitAsync(seen, "main form.form", press: "button[value=Keep]"),
                other.SubmitAsync(seenByOther, "main form.form", press: "button[value=Different]"));

            var late = Assert.Single(answers, answer => answer.Refusals.Count > 0);
            Assert.Equal(HttpStatusCode.Conflict, late.Status);
            var (kept, apart) = await server.InRegisterAsync(async db => (
                await db.Rows.AnyAsync(r => r.Id == row.Id && r.Decision == RowDecision.Keep),
                await db.ToldApart.AnyAsync(pair => pair.RowId == row.Id)));
            Assert.True(kept != apart, $"kept {kept}, told apart {apart}");
        }
    }

    [Fact]
    public async Task Rows_that_are_all_the_same_are_told_as_repeats_of_the_first()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("same");
        var row = $"K. {name},5,1999-08-01,Oregon,Lake,Cold spring,42.7,-120.4,Poa secunda J.Presl,1\n";
        var batch = await Bench.ReceiveAsync(server, curator, $"Same {name}", "a.csv",
            Encoding.UTF8.GetBytes(Heading + string.Concat(Enumerable.Repeat(row, 500))));

        Assert.Contains("499 open", batch.Text, StringComparison.Ordinal);
        var kinds = await server.InRegisterAsync(db => db.Rows.Where(r => r.Cells.Contains(name))
            .GroupBy(r => r.Finding).Select(g => new { g.Key, Count = g.Count() }).ToListAsync());
        Assert.Equal(
            [(FindingKind.New, 1), (FindingKind.Repeat, 499)],
            kinds.Select(kind => (kind.Key!.Value, kind.Count)).Order());
    }

    [Fact]
    public async Task Thousands_without_a_number_are_compared_as_far_as_that_goes_and_nothing_is_dropped_in_silence()
    {
        const int Count = 3000;
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("sine numero");
        // One collector, one day, one plant, one place: nothing tells them from each other but what their notes say.
        var rows = Enumerable.Range(1, Count).Select(
            n => $"K. {name},s.n.,1999-08-01,Oregon,Lake,Cold spring sheet {n},42.7,-120.4,Poa secunda J.Presl,1");
        var batch = await Bench.ReceiveAsync(server, curator, $"Without a number {name}", "sn.csv",
            Encoding.UTF8.GetBytes(Heading + string.Join('\n', rows)));

        Assert.Contains($"{Count - 1:N0} open", batch.Text, StringComparison.Ordinal);
        var found = await server.InRegisterAsync(db => db.Rows.Where(r => r.Cells.Contains(name))
            .OrderBy(r => r.Line).Select(r => new { r.Finding, r.AlikeNotCompared }).ToListAsync());
        Assert.Equal(FindingKind.New, found[0].Finding);
        Assert.All(found.Skip(1), row => Assert.NotEqual(FindingKind.New, row.Finding));
        Assert.Equal(0, found[200].AlikeNotCompared);
        Assert.Equal(Enumerable.Range(201, Count - 201), found.Skip(201).Select(row => row.AlikeNotCompared));
        var last = await AtAsync(curator, batch.Address.AbsolutePath, Count + 1, "");
        Assert.Contains($"{Count - 1:N0} before it are alike", last.Text, StringComparison.Ordinal);
    }

    private static async Task<string> KindAsync(Visitor curator, string path, int line) =>
        (await AtAsync(curator, path, line, "")).One("#finding .mark").TextContent;

    private static Task<Page> AtAsync(Visitor curator, string path, int line, string show) =>
        curator.GetPageAsync($"{path}/findings{(show.Length > 0 ? $"{show}&" : "?")}after={line - 1}");

    private static async Task<Page> DecideAsync(
        Visitor curator, string path, int line, string decision, string show = "", bool refused = false)
    {
        var page = await AtAsync(curator, path, line, show);
        Assert.Contains($"Line {line}", page.One("#finding").TextContent, StringComparison.Ordinal);
        if (decision == "Ask")
        {
            page = await curator.GetPageAsync(page.One("a[data-key=a]").GetAttribute("href")!);
        }

        var answer = await curator.SubmitAsync(page, "main form.form", press: $"button[value={decision}]");
        Assert.True(refused == answer.Refusals.Count > 0, string.Join(" ", answer.Refusals));
        return answer;
    }

    private async Task TakeInAsync(Visitor curator, string path, int sheets)
    {
        var page = await curator.GetPageAsync($"{path}/take-in");
        var answer = await curator.SubmitAsync(
            page, "main form", page.All("[name=Terms]").Count > 0
                ? [("Terms", "Exchange"), ("SheetsInPile", $"{sheets}")]
                : [("SheetsInPile", $"{sheets}")]);
        Assert.Empty(answer.Refusals);
        await server.WaitForWorkAsync();
    }
}
