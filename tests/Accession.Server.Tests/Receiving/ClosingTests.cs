using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class ClosingOnSqlite(ServerOnSqlite server) : ClosingTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ClosingOnPostgreSql(ServerOnPostgreSql server)
    : ClosingTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>The transmittal against the sheets, and what a closed batch refuses. People and places are invented.</summary>
public abstract class ClosingTests(TestServer server)
{
    private const string Headings = "Collector,Coll. No.,Date coll.,Locality,Species,Sheets\n";

    [Fact]
    public async Task A_transmittal_of_57_and_56_rows_is_not_closed_without_a_written_note()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var rows = Enumerable.Range(1, 56).Select(n => $"Ada Quill,{n},2024-05-0{(n % 9) + 1},Fen {n},Carex nigra,1");
        var pile = await Pile.TakeInAsync(server, curator, Headings + InventedNames.OfAnother(string.Join('\n', rows), "57"));
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await NumberAsync(scanner, [.. pile.Gatherings]);

        var refused = await CloseAsync(curator, pile, ("SheetsInTransmittal", "57"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("states 57 sheets, and the rows taken in promise 56 sheets", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.Equal("57", refused.One("#SheetsInTransmittal").GetAttribute("value"));
        Assert.Single((await CloseAsync(curator, pile, ("SheetsInTransmittal", "57"), ("Note", "-"))).Refusals);

        // Two who close at once: one of them is told.
        var page = await curator.GetPageAsync($"{pile.BatchPath}/closing");
        async Task<Page> SendAsync() => await curator.SubmitAsync(page, "#close",
            [("SheetsInTransmittal", "57"), ("Note", "Number 57 was not in the parcel."), ("RequestKey", $"{Guid.NewGuid()}")]);
        var answers = await Task.WhenAll(SendAsync(), SendAsync());
        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Found);
        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Conflict);
        var closed = await curator.GetPageAsync($"{pile.BatchPath}/closing");
        Assert.Equal("The batch is closed", closed.Heading);
        Assert.Contains("Number 57 was not in the parcel.", closed.Text, StringComparison.Ordinal);
        Assert.Contains("Closed", (await curator.GetPageAsync(pile.BatchPath)).Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Missing_and_extra_sheets_are_named_and_stay_named_as_they_were()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("named");
        var pile = await Pile.TakeInAsync(server, curator, Headings + InventedNames.OfAnother(
            "Ada Quill,1,2024-05-01,Fen,Carex nigra,2\nAda Quill,2,2024-05-02,Fen,Carex hirta,1\n", "named"));
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await NumberAsync(scanner, pile.Gatherings[0]);
        Assert.Equal(HttpStatusCode.OK, (await scanner.ExtraAsync(pile.Gatherings[1])).Status);
        await NumberAsync(scanner, pile.Gatherings[1], pile.Gatherings[1]);
        var before = await curator.GetPageAsync(pile.BatchPath);

        var page = await curator.GetPageAsync($"{pile.BatchPath}/closing");
        var missing = page.One("#missing tbody tr").TextContent;
        Assert.Contains(name, missing, StringComparison.Ordinal);
        Assert.Contains("Carex nigra", missing, StringComparison.Ordinal);
        Assert.Equal("1", page.One("#missing tbody td.num").TextContent);
        Assert.Contains("Carex hirta", page.One("#extra tbody tr").TextContent, StringComparison.Ordinal);
        Assert.Contains("Write a note", Assert.Single((await curator.SubmitAsync(page, "#close")).Refusals), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Found,
            (await curator.SubmitAsync(page, "#close", [("Note", "One sheet of 1 lies at the other herbarium.")])).Status);

        // Closed: the door of the bench is shut, whichever way a sheet would come.
        foreach (var answer in new[]
        {
            await scanner.NextAsync(pile.Gatherings[0]),
            await scanner.ExtraAsync(pile.Gatherings[0]),
        })
        {
            Assert.Equal(HttpStatusCode.Conflict, answer.Status);
            Assert.Contains("was closed by Test Curator on", answer.Source, StringComparison.Ordinal);
            Assert.Contains("reopen it with a reason first", answer.Source, StringComparison.Ordinal);
        }

        // And so is that of lists, for whoever has an older page before them.
        var again = await curator.SubmitAsync(before, "form[action$='handler=Again']", [],
            [new("File", "again.csv", Encoding.UTF8.GetBytes(Headings + "Mora X,9,2024-05-09,Fen,Poa,1\n"))]);
        Assert.Equal(HttpStatusCode.Conflict, again.Status);
        Assert.Contains("was closed by", Assert.Single(again.Refusals), StringComparison.Ordinal);
        Assert.Empty((await curator.GetPageAsync(pile.BatchPath)).All("form[action$='handler=Again']"));

        var columns = await curator.GetPageAsync($"{pile.BatchPath}/columns");
        var matched = await curator.SubmitAsync(columns, "main form[method=post]", [("chosen[3]", "habitat")]);
        Assert.Contains("was closed by", Assert.Single(matched.Refusals), StringComparison.Ordinal);

        // Opened again with a reason, the sheet is numbered; what was kept at the closing stays.
        page = await curator.GetPageAsync($"{pile.BatchPath}/closing");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await curator.SubmitAsync(page, "#reopen", [("Reason", " ")])).Status);
        Assert.Equal(HttpStatusCode.Found, (await curator.SubmitAsync(page, "#reopen", [("Reason", "It came back.")])).Status);
        await NumberAsync(scanner, pile.Gatherings[0]);
        page = await curator.GetPageAsync($"{pile.BatchPath}/closing");
        Assert.Empty(page.All("#missing tbody tr"));
        Assert.Contains("It came back.", page.Text, StringComparison.Ordinal);
        Assert.Equal(2, await server.InRegisterAsync(db => db.Closings.Where(c => c.IsClosing)
            .SelectMany(c => c.Sheets).CountAsync(s => pile.Gatherings.Contains(s.GatheringId))));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Rows_that_wait_refuse_the_closing_with_a_way_to_them()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, Headings + InventedNames.OfAnother(
            "Ada Quill,1,2024-05-01,Fen,Carex nigra,1\nAda Quill,2,2024-13-45,Fen,Carex hirta,1\n", "waits"));
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await NumberAsync(scanner, [.. pile.Gatherings]);
        var refused = await CloseAsync(curator, pile, ("Note", "never mind the other row"));
        Assert.Equal(HttpStatusCode.Conflict, refused.Status);
        Assert.Contains("1 row is open", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.NotEmpty(refused.All("main a[href$='rows?show=open']"));
    }

    [Fact]
    public async Task A_list_that_comes_again_does_not_join_a_closed_batch_by_itself()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var rows = InventedNames.OfAnother(string.Concat(
            Enumerable.Range(1, 8).Select(n => $"Ada Quill,{n},2024-05-0{n},Fen {n},Carex nigra,1\n")), "again");
        var pile = await Pile.TakeInAsync(server, curator, Headings + rows);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await NumberAsync(scanner, [.. pile.Gatherings]);
        Assert.Empty((await CloseAsync(curator, pile)).Refusals);
        Assert.Contains("Closed", (await curator.GetPageAsync("/batches")).Text, StringComparison.Ordinal);

        var again = await Bench.ReceiveAsync(
            server, curator, $"Source {pile.Prefix}", "again.csv", Encoding.UTF8.GetBytes(Headings + rows + " \n"));
        Assert.NotEqual(pile.BatchPath, again.Address.AbsolutePath);
        var refused = await curator.SubmitAsync(again, "form[action$='handler=Same']");
        Assert.Equal(HttpStatusCode.Conflict, refused.Status);
        Assert.Contains("was closed by Test Curator on", Assert.Single(refused.Refusals), StringComparison.Ordinal);

        // A paper that was kept with it goes along when it joins the batch after all.
        var papers = await curator.GetPageAsync($"{again.Address.AbsolutePath}/papers");
        Assert.Empty((await curator.SubmitAsync(papers, "#keep", [("Kind", "Letter")],
            [new("file", "letter.txt", "An invented letter."u8.ToArray())])).Refusals);
        var closing = await curator.GetPageAsync($"{pile.BatchPath}/closing");
        Assert.Empty((await curator.SubmitAsync(closing, "#reopen", [("Reason", "The list came again.")])).Refusals);
        var joined = await curator.SubmitAsync(again, "form[action$='handler=Same']");
        Assert.Equal(pile.BatchPath, joined.Location);
        await server.WaitForWorkAsync();
        Assert.Contains("letter.txt", (await curator.GetPageAsync(pile.BatchPath)).One("#papers").TextContent, StringComparison.Ordinal);
        var kept = await curator.GetPageAsync($"{pile.BatchPath}/papers");
        Assert.Empty((await curator.SubmitAsync(
            kept, "form[action$='handler=SetAside']", [("reason", "not ours")])).Refusals);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_batch_is_closed_while_somebody_numbers_and_one_of_them_is_told()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        for (var round = 0; round < 4; round++)
        {
            var pile = await Pile.TakeInAsync(
                server, curator, Headings + InventedNames.OfAnother(
                    "Ada Quill,1,2024-05-01,Fen,Carex nigra,1\n", $"race {round}"));
            using var scanner = await new Scanner(await server.SignInAsync(Role.Technician), pile).OpenAsync();
            var page = await curator.GetPageAsync($"{pile.BatchPath}/closing");
            var answers = await Task.WhenAll(
                curator.SubmitAsync(page, "#close", [("Note", "It was not in the parcel.")]),
                scanner.NextAsync(pile.Gatherings[0]));

            var isClosed = await server.InRegisterAsync(db => db.Closings.AnyAsync(
                c => db.Accessions.Any(l => l.BatchId == c.BatchId && l.Number == pile.Accession)));
            var numbered = await server.InRegisterAsync(db => db.Gatherings.Where(g => g.Id == pile.Gatherings[0])
                .Select(g => g.SheetsNumbered).SingleAsync());
            // Never both: the closing names the sheet as missing.
            Assert.Equal(isClosed ? 0 : 1, numbered);
            Assert.Equal(isClosed ? HttpStatusCode.Found : HttpStatusCode.Conflict, answers[0].Status);
            Assert.Equal(isClosed, answers[1].Status == HttpStatusCode.Conflict);
        }

        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private static async Task<Page> CloseAsync(Visitor curator, Pile pile, params (string, string)[] fields) =>
        await curator.SubmitAsync(await curator.GetPageAsync($"{pile.BatchPath}/closing"), "#close", fields);

    private static async Task NumberAsync(Scanner scanner, params long[] gatherings)
    {
        foreach (var gathering in gatherings)
        {
            Assert.Equal(HttpStatusCode.OK, (await scanner.NextAsync(gathering)).Status);
        }
    }
}
