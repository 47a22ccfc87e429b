using System.Globalization;
using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class PermitsOnSqlite(ServerOnSqlite server) : PermitsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class PermitsOnPostgreSql(ServerOnPostgreSql server)
    : PermitsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Rows against the permits of their batch. Permits, people and places are invented.</summary>
public abstract class PermitsTests(TestServer server)
{
    private const string Headings = "Collector,Coll. No.,Date coll.,State,County,Locality,Species,Sheets\n";

    [Fact]
    public async Task A_sheet_collected_after_the_permit_ended_is_warned_about_and_goes_in_all_the_same()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "PMT");
        var path = await BatchAsync(curator, "Ended", "20,2026-05-20", "21,2026-06-30", "22,2026-07-02", "23,2026-05-01");
        var written = await WriteAsync(curator, path, ("Number", "NF-26-17"), ("Issuer", "Dry Lakes forest office"),
            ("ValidFrom", "2026-05-01"), ("ValidUntil", "2026-06-30"));
        Assert.Contains("NF-26-17", written.Text, StringComparison.Ordinal);
        Assert.Contains("decided by whoever issued it", written.Text, StringComparison.Ordinal);

        var rows = await curator.GetPageAsync($"{path}/rows?show=permits");
        var row = Assert.Single(rows.All("tbody tr"));
        Assert.Contains("22", row.QuerySelector("th .code")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(
            "Collecting permit NF-26-17: It was collected on 2 Jul 2026, after the permit ended on 30 Jun 2026.",
            row.TextContent, StringComparison.Ordinal);
        var csv = await curator.Http.GetStringAsync(new Uri(server.Address, $"{path}/problems.csv"));
        Assert.Contains("\n4,,,\"Collecting permit NF-26-17: It was collected on 2 Jul 2026, after", csv, StringComparison.Ordinal);
        Assert.EndsWith(",no\n", csv.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.Contains("1 row lies outside the permits", (await curator.GetPageAsync(path)).Text, StringComparison.Ordinal);

        // A warning holds nothing up: it stands on the page, and four sheets go in.
        var takeIn = await curator.GetPageAsync($"{path}/take-in");
        Assert.Contains("1 row of the batch lies outside the permits, or may", takeIn.Text, StringComparison.Ordinal);
        Assert.Contains("only compares dates, places and names", takeIn.Text, StringComparison.Ordinal);
        Assert.Empty((await curator.SubmitAsync(
            takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", "4")])).Refusals);
        await server.WaitForWorkAsync();
        var batch = await curator.GetPageAsync(path);
        var accession = await curator.GetPageAsync($"/accession/{batch.One("dd a.code").TextContent}");
        Assert.Contains("NF-26-17", accession.One("#papers").TextContent, StringComparison.Ordinal);
        using var technician = await server.SignInAsync(Role.Technician);
        Assert.DoesNotContain(
            "NF-26-17", (await technician.GetPageAsync(accession.Address.AbsolutePath)).Source, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Warnings_follow_when_a_permit_is_corrected_or_set_aside_and_when_rows_come_again()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var path = await BatchAsync(curator, "Follow", "30,2026-05-20", "31,2026-07-02", "32,2026");
        await WriteAsync(curator, path, ("Number", "A"), ("ValidFrom", "2026-05-01"), ("ValidUntil", "2026-06-30"));
        Assert.Equal(["31", "32"], await WarnedAsync(path));
        Assert.Contains("Only the year is known (2026); it may lie outside",
            (await curator.GetPageAsync($"{path}/rows?show=permits")).Text, StringComparison.Ordinal);

        // Corrected: a new entry stands in its place, the old one is kept; of two who correct it one is told.
        var permits = await curator.GetPageAsync($"{path}/permits");
        var correct = permits.All("td a").Single(a => a.TextContent == "Correct").GetAttribute("href")!.Split('#')[0];
        var form = await curator.GetPageAsync(correct);
        Assert.Equal("2026-06-30", form.One("#ValidUntil").GetAttribute("value"));
        async Task<Page> CorrectAsync() => await curator.SubmitAsync(
            form, "#write", [("ValidUntil", "2026-07-31"), ("Why", "misread"), ("RequestKey", $"{Guid.NewGuid()}")]);
        var answers = await Task.WhenAll(CorrectAsync(), CorrectAsync());
        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Found);
        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Conflict);
        await server.WaitForWorkAsync();
        Assert.Equal(["32"], await WarnedAsync(path));
        permits = await curator.GetPageAsync($"{path}/permits");
        Assert.Contains("Corrected", permits.Text, StringComparison.Ordinal);
        Assert.Contains("misread", permits.Text, StringComparison.Ordinal);

        // The list again, with a row more.
        var batch = await curator.GetPageAsync(path);
        await curator.SubmitAsync(batch, "form[action$='handler=Again']", [],
            [new("File", "again.csv", Bytes("Follow", "30,2026-05-20", "31,2026-07-02", "32,2026", "33,2027-01-04"))]);
        await server.WaitForWorkAsync();
        Assert.Equal(["32", "33"], await WarnedAsync(path));

        // Read again because a column means something else now: without a date nothing is certain.
        var columns = await curator.GetPageAsync($"{path}/columns");
        await curator.SubmitAsync(columns, "main form[method=post]", [("chosen[2]", "")]);
        await server.WaitForWorkAsync();
        Assert.Equal(["30", "31", "32", "33"], await WarnedAsync(path));
        await curator.SubmitAsync(
            await curator.GetPageAsync($"{path}/columns"), "main form[method=post]", [("chosen[2]", "eventDate")]);
        await server.WaitForWorkAsync();
        Assert.Equal(["32", "33"], await WarnedAsync(path));

        // A second permit covers what the first does not.
        await WriteAsync(curator, path, ("Number", "B"), ("ValidFrom", "2027-01-01"));
        Assert.Equal(["32"], await WarnedAsync(path));

        permits = await curator.GetPageAsync($"{path}/permits");
        foreach (var _ in permits.All("form[action$='handler=SetAside']"))
        {
            permits = await curator.GetPageAsync($"{path}/permits");
            Assert.Empty((await curator.SubmitAsync(
                permits, "form[action$='handler=SetAside']", [("reason", "of another parcel")])).Refusals);
        }

        await server.WaitForWorkAsync();
        Assert.Empty(await WarnedAsync(path));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task What_a_permit_cannot_say_is_refused_and_stands_in_the_form_again()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var path = await BatchAsync(curator, "Refused", "40,2026-05-20");
        var page = await curator.GetPageAsync($"{path}/permits");
        var refused = await curator.SubmitAsync(page, "#write", [("Kind", "Landowner"), ("Issuer", "The Kellings"),
            ("ValidFrom", "2026-07-01"), ("ValidUntil", "2026-06-30"), ("Counties", "Harney\nLake")]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("would end on 30 Jun 2026, before it begins on 1 Jul 2026", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.Equal("The Kellings", refused.One("#Issuer").GetAttribute("value"));
        Assert.Equal("Harney\nLake", refused.One("#Counties").TextContent.ReplaceLineEndings("\n"));
        Assert.Empty((await curator.SubmitAsync(refused, "#write", [("ValidUntil", "2026-07-30")])).Refusals);
        await server.WaitForWorkAsync();
        Assert.Equal(["40"], await WarnedAsync(path));
    }

    private static byte[] Bytes(string source, params string[] rows) => Encoding.UTF8.GetBytes(Headings + string.Join(
        '\n', rows.Select(row => $"{InventedNames.FamilyOf(source)} Quill,{row},Oregon,Harney,Fen,Carex nigra,1")));

    private async Task<string> BatchAsync(Visitor curator, string source, params string[] rows) =>
        (await Bench.ReceiveAsync(server, curator, $"Permits {source}", "list.csv", Bytes(source, rows)))
            .Address.AbsolutePath;

    private async Task<Page> WriteAsync(Visitor curator, string path, params (string, string)[] fields)
    {
        var answer = await curator.SubmitAsync(
            await curator.GetPageAsync($"{path}/permits"), "#write", [("Kind", "Collecting"), .. fields]);
        Assert.Empty(answer.Refusals);
        await server.WaitForWorkAsync();
        return await curator.FollowAsync(answer);
    }

    private Task<List<string>> WarnedAsync(string path)
    {
        var id = long.Parse(path.Split('/')[^1], CultureInfo.InvariantCulture);
        return server.InRegisterAsync(async db =>
        {
            var cells = await db.Rows
                .Where(row => row.BatchId == id && row.PermitWarning != null && row.WithdrawnInListId == null)
                .OrderBy(row => row.Line).Select(row => row.Cells).ToListAsync();
            return cells.Select(row => Core.Batches.RowCells.FromJson(row).Cells[1]).ToList();
        });
    }
}
