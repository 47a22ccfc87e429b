using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class SettlingOnSqlite(ServerOnSqlite server) : SettlingTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class SettlingOnPostgreSql(ServerOnPostgreSql server)
    : SettlingTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>What a curator decides about a list before it goes in. People and places are invented.</summary>
public abstract class SettlingTests(TestServer server)
{
    [Fact]
    public async Task A_list_without_a_collector_says_so_before_it_goes_in()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await ReceiveAsync(
            curator, "Nameless", "No.,Date,Species,Locality\n7,2024-05-01,Poa annua L.,Lane\n");
        Assert.Contains("A column is missing", batch.One(".task.stop").TextContent, StringComparison.Ordinal);
        var path = batch.Address.AbsolutePath;
        foreach (var page in new[] { "/columns", "/take-in" })
        {
            var said = (await curator.GetPageAsync(path + page)).One(".said.stop").TextContent;
            Assert.Contains("No column says who collected", said, StringComparison.Ordinal);
            Assert.Contains("let the sender add it", said, StringComparison.Ordinal);
        }

        // A column that was not understood turns out to hold the names.
        var other = await ReceiveAsync(
            curator, "Named late", "Qx,No.,Date,Species\nAda Quill,7,2024-05-01,Poa annua L.\n");
        var columns = await curator.GetPageAsync($"{other.Address.AbsolutePath}/columns");
        await curator.SubmitAsync(columns, "main form[method=post]", [("chosen[0]", "recordedBy")]);
        await server.WaitForWorkAsync();
        Assert.Empty((await curator.GetPageAsync($"{other.Address.AbsolutePath}/columns")).All(".said.stop"));
        Assert.Empty((await curator.GetPageAsync(other.Address.AbsolutePath)).All(".task.stop"));
    }

    [Fact]
    public async Task As_last_time_is_said_only_when_there_was_a_last_time()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await ReceiveAsync(curator, "Twice here", "Collector,eventDate,Qx\nAda Quill,2024-05-01,Lane\n");
        var path = $"{first.Address.AbsolutePath}/columns";
        Assert.Equal(
            ["usual synonym", "Darwin Core name", "not matched: kept to the letter"],
            Whys(await curator.GetPageAsync(path)));
        await curator.SubmitAsync(
            await curator.GetPageAsync(path), "main form[method=post]", [("chosen[2]", "locality")]);
        await server.WaitForWorkAsync();
        Assert.Equal(["usual synonym", "Darwin Core name", "chosen by hand"], Whys(await curator.GetPageAsync(path)));
        var second = await ReceiveAsync(curator, "Twice here", "Qx,Collector,Habitat\nPond,Bo Fenn,shade\n");
        Assert.Equal(
            ["as last time", "as last time", "Darwin Core name"],
            Whys(await curator.GetPageAsync($"{second.Address.AbsolutePath}/columns")));
    }

    [Fact]
    public async Task All_rows_at_once_are_not_given_up_while_one_answer_can_read_their_dates()
    {
        const string List = "Collector,Number,Date,Locality\nAda Quill,1,12/05/24,Lane\nAda Quill,2,31.02.2024,Gate\n";
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await ReceiveAsync(curator, "Hasty", List);
        var path = batch.Address.AbsolutePath;
        var open = await curator.GetPageAsync($"{path}/rows?show=open");
        Assert.Empty(open.All("button[name=every]"));
        Assert.Equal($"{path}#order", open.One(".said.stop a").GetAttribute("href"));

        // A page that was open since before says the same.
        var refused = await PostEveryAsync(curator, open);
        Assert.Equal(HttpStatusCode.Conflict, refused.Status);
        Assert.Contains("day or the month", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.Equal(2, await OpenAsync("Hasty"));

        await curator.SubmitAsync(
            await curator.GetPageAsync(path), "form[action$='handler=Order']", [("order", "DayFirst")]);
        await server.WaitForWorkAsync();
        open = await curator.GetPageAsync($"{path}/rows?show=open");
        Assert.Empty(open.All(".said.stop"));
        var taken = await curator.SubmitAsync(open, "main form[method=post]", press: "button[name=every]");
        Assert.Empty(taken.Refusals);
        Assert.Equal(0, await OpenAsync("Hasty"));
    }

    [Fact]
    public async Task The_count_of_the_pile_is_named_as_a_number_and_explained_in_words()
    {
        const string List = "Collector,Number,Date,Species,Sheets\nAda Quill,1,2024-05-01,Poa annua L.,3\n"
            + "Ada Quill,2,31.02.2024,Poa annua L.,2\n";
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "SE");
        var batch = await ReceiveAsync(curator, "Counted", List);
        var path = batch.Address.AbsolutePath;
        var takeIn = await curator.GetPageAsync($"{path}/take-in");
        foreach (var note in new[] { "", "-", "ok" })
        {
            var asked = await curator.SubmitAsync(
                takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", "1"), ("CountNote", note)]);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, asked.Status);
            Assert.Contains("2 sheets missing", Assert.Single(asked.Refusals), StringComparison.Ordinal);
            Assert.Equal("#CountNote", asked.One(".problems a").GetAttribute("href"));
        }

        await TakeInAsync(curator, path, ("Terms", "Gift"), ("SheetsInPile", "1"), ("CountNote", "Eaten by mice."));
        var page = await curator.GetPageAsync(path);
        Assert.Contains("2 sheets missing Eaten by mice.", page.Text, StringComparison.Ordinal);
        var accession = page.One("dd a.code").TextContent;
        Assert.Contains(
            "2 sheets missing", (await curator.GetPageAsync($"/accession/{accession}")).Text, StringComparison.Ordinal);

        // The row settled later joins the same accession, and the whole pile is counted again.
        await curator.SubmitAsync(await curator.GetPageAsync($"{path}/rows?show=open"), "main form[method=post]",
            press: "button[name=every]");
        var joining = await curator.GetPageAsync($"{path}/take-in");
        Assert.Contains($"join accession {accession}", joining.Text, StringComparison.Ordinal);
        Assert.Contains("promises 5. Counted before: 1.", joining.Text, StringComparison.Ordinal);
        var more = await curator.SubmitAsync(joining, "main form", [("SheetsInPile", "6")]);
        Assert.Contains("1 sheet extra", Assert.Single(more.Refusals), StringComparison.Ordinal);
        await TakeInAsync(curator, path, ("SheetsInPile", "5"));
        page = await curator.GetPageAsync(path);
        Assert.Equal(accession, page.One("dd a.code").TextContent);
        Assert.Contains("2 in the register", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("missing", page.Text, StringComparison.Ordinal);

        // What was noted at the first count stays with its act.
        Assert.Equal(["Eaten by mice.", null], await server.InRegisterAsync(db => db.Acts
            .Where(act => db.Gatherings.Any(g => g.ActId == act.Id
                && db.Accessions.Any(lot => lot.Id == g.AccessionId && lot.Number == accession)))
            .OrderBy(act => act.Id).Select(act => act.Reason).ToListAsync()));
    }

    private async Task TakeInAsync(Visitor curator, string path, params (string, string)[] fields)
    {
        var page = await curator.GetPageAsync($"{path}/take-in");
        Assert.Empty((await curator.SubmitAsync(page, "main form", fields)).Refusals);
        await server.WaitForWorkAsync();
    }

    private static async Task<Page> PostEveryAsync(Visitor curator, Page open)
    {
        var fields = open.All("main form[method=post] input[type=hidden]")
            .Select(input => KeyValuePair.Create(input.GetAttribute("name")!, input.GetAttribute("value")!));
        using var content = new FormUrlEncodedContent([.. fields, new("every", "true")]);
        using var answer = await curator.Http.PostAsync(open.Address, content);
        return await Page.ReadAsync(answer);
    }

    private Task<int> OpenAsync(string source) => server.InRegisterAsync(db => db.Rows.CountAsync(
        row => row.OpenProblems > 0 && row.TakenAsWrittenActId == null
            && db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name == source)));

    private static IEnumerable<string> Whys(Page page) =>
        page.All("table.match thead th span.soft").Select(span => span.TextContent.Trim());

    private Task<Page> ReceiveAsync(Visitor curator, string source, string list) =>
        Bench.ReceiveAsync(server, curator, source, "list.csv", Encoding.UTF8.GetBytes(list));
}
