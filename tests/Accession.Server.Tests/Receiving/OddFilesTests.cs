using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class OddFilesOnSqlite(ServerOnSqlite server) : OddFilesTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class OddFilesOnPostgreSql(ServerOnPostgreSql server)
    : OddFilesTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>What people really send: other letters, other separators, and things that are no list.</summary>
public abstract class OddFilesTests(TestServer server)
{
    private const string List =
        "Collector;Number;Date;Locality;Lat;Long;Sheets\nJörg Äbelin;7;2023-06-01;\"Häng,\nöstlich\";47,5;8,5;2\n";

    [Theory]
    [InlineData("utf-8", ";")]
    [InlineData("utf-8-mark", "\t")]
    [InlineData("utf-16", ";")]
    [InlineData("windows-1252", ";")]
    public async Task Letters_separators_and_line_breaks_in_quotes_are_read(string encoding, string separator)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        Encoding written = encoding switch
        {
            "utf-8" => new UTF8Encoding(false),
            "utf-8-mark" => new UTF8Encoding(true),
            "utf-16" => Encoding.Unicode,
            _ => CodePagesEncodingProvider.Instance.GetEncoding(1252)!,
        };
        byte[] bytes = [.. written.GetPreamble(), .. written.GetBytes(List.Replace(";", separator))];
        var batch = await Bench.ReceiveAsync(server, curator, $"Letters {encoding}", "list.csv", bytes);
        var rows = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/rows?show=settled");
        Assert.Contains("Jörg Äbelin", rows.Text, StringComparison.Ordinal);
        Assert.Contains("Häng, östlich", rows.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("%PDF-1.7 some bytes", "it looks like a PDF")]
    [InlineData("\u0089PNG\r\n\u001a\n    ", "a picture (PNG)")]
    [InlineData("Collector,Number,Date\n", "no row beneath")]
    [InlineData("Collector,Number,Number\nA,1,2\n", "more than once")]
    [InlineData("only one word\n", "not a table")]
    public async Task What_is_no_list_is_refused_with_a_sentence(string content, string reason)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await Bench.ReceiveAsync(
            server, curator, $"No list {content.GetHashCode()}", "list.csv", Encoding.Latin1.GetBytes(content));
        Assert.Contains(reason, batch.Text, StringComparison.Ordinal);
        var csv = await curator.Http.GetStringAsync(new Uri(batch.Address, $"{batch.Address.AbsolutePath}/problems.csv"));
        Assert.Contains(reason, csv.Replace("\"\"", "\"", StringComparison.Ordinal), StringComparison.Ordinal);
        foreach (var page in new[] { "/rows", "/columns", "/take-in" })
        {
            var shown = await curator.GetPageAsync(batch.Address.AbsolutePath + page);
            Assert.True(shown.Status is HttpStatusCode.OK or HttpStatusCode.NotFound, $"{page}: {shown.Status}");
        }
    }

    [Fact]
    public async Task An_empty_file_and_five_thousand_columns_are_refused()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var receiving = await curator.GetPageAsync("/batches");
        var empty = await curator.SubmitAsync(
            receiving, "main form", [("SourceName", "Empty")], [new Upload("List", "empty.csv", [])]);
        Assert.Contains("empty", Assert.Single(empty.Refusals), StringComparison.Ordinal);
        var line = string.Join(',', Enumerable.Range(1, 5000).Select(n => $"c{n}"));
        var batch = await Bench.ReceiveAsync(
            server, curator, "Wide", "wide.csv", Encoding.UTF8.GetBytes($"{line}\n{line}1\n"));
        Assert.Contains("5,000 columns", batch.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Each_fault_is_told_where_it_is_and_holds_up_only_its_row()
    {
        const string Faulty = """
            Collector,Number,Date,Locality,Lat,Long,Sheets
            Ada Quill,1,31.02.2024,Mill lane,47.5,8.5,1
            Ada Quill,2,2024-05-02,North gate,147.5,8.5,1
            Ada Quill,3,2024-05-03,Old quarry,47.5,8.5,0
            Ada Quill,4,2024-05-04,Wet ditch,47.5,8.5,many
            Ada Quill,5,2024-05-05,Fen edge,47.5,8.5,1,extra
            Ada Quill,6,2024-05-06,Pond
            Ada Quill,7,2024-05-07,Good row,47.5,8.5,3
            Collector,Number,Date,Locality,Lat,Long,Sheets
            Ada Quill,8,2024-05-08,"Never closed,47.5,8.5,1
            """;
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await Bench.ReceiveAsync(server, curator, "Faulty", "faulty.csv", Encoding.UTF8.GetBytes(Faulty));
        var path = batch.Address.AbsolutePath;
        var csv = await curator.Http.GetStringAsync(new Uri(batch.Address, $"{path}/problems.csv"));
        TestContext.Current.TestOutputHelper?.WriteLine(csv);
        foreach (var line in Enumerable.Range(2, 9).Where(n => n != 8))
        {
            Assert.Contains($"\n{line},", csv, StringComparison.Ordinal);
        }

        Assert.Contains("31.02.2024", csv, StringComparison.Ordinal);
        Assert.Contains("many", csv, StringComparison.Ordinal);
        Assert.Contains("heading line again", csv, StringComparison.Ordinal);
        var settled = await curator.GetPageAsync($"{path}/rows?show=settled");
        Assert.Contains("Good row", settled.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("North gate", settled.Text, StringComparison.Ordinal);

        // Taken as written, with the reason on record, and nothing in the place of what could not be read.
        var open = await curator.GetPageAsync($"{path}/rows?show=open");
        var answer = await curator.SubmitAsync(open, "main form[method=post]",
            [("reason", "The label says no more.")], press: "button[name=every]");
        Assert.Empty(answer.Refusals);
        Assert.Contains("None open", (await curator.FollowAsync(answer)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Day_and_month_are_asked_once_and_a_date_column_found_later_asks_too()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        const string Dates = "Collector,Number,Qx,Locality\nAda Quill,1,12/05/24,Lane\nAda Quill,2,25/05/24,Gate\n";
        var batch = await Bench.ReceiveAsync(server, curator, "Dates", "d.csv", Encoding.UTF8.GetBytes(Dates));
        Assert.Contains("Not needed", batch.Text, StringComparison.Ordinal);
        var path = batch.Address.AbsolutePath;
        var matched = await curator.SubmitAsync(
            await curator.GetPageAsync($"{path}/columns"), "main form[method=post]", [("chosen[2]", "eventDate")]);
        await server.WaitForWorkAsync();
        var page = await curator.FollowAsync(matched);
        Assert.Contains("1 dates wait", page.Text, StringComparison.Ordinal);
        Assert.Contains("the day comes first", page.Text, StringComparison.Ordinal);
        var settled = await curator.SubmitAsync(page, "form[action$='handler=Order']", [("order", "DayFirst")]);
        await server.WaitForWorkAsync();
        page = await curator.FollowAsync(settled);
        Assert.Contains("2 settled", page.Text, StringComparison.Ordinal);
        var rows = await curator.GetPageAsync($"{path}/rows?show=settled");
        Assert.Contains("12 May 2024", rows.Text, StringComparison.Ordinal);
        Assert.Contains("12/05/24", rows.Text, StringComparison.Ordinal);

        // Remembered for the next list of the source; a meaning moved to an earlier column does not come back.
        var moved = await curator.SubmitAsync(await curator.GetPageAsync($"{path}/columns"), "main form[method=post]",
            [("chosen[1]", "locality"), ("chosen[3]", "")]);
        Assert.Empty(moved.Refusals);
        await server.WaitForWorkAsync();
        const string Next = "Locality,Number,Qx,Collector\nPond,9,2024-01-01,Ada Quill\n";
        var next = await Bench.ReceiveAsync(server, curator, "Dates", "n.csv", Encoding.UTF8.GetBytes(Next));
        var columns = await curator.GetPageAsync($"{next.Address.AbsolutePath}/columns");
        Assert.Equal(["", "locality", "eventDate", "recordedBy"], columns.All("main select").Select(
            select => select.QuerySelector("option[selected]")?.GetAttribute("value") ?? ""));
        var twice = await curator.SubmitAsync(columns, "main form[method=post]", [("chosen[0]", "eventDate")]);
        Assert.Contains("only one can have it", Assert.Single(twice.Refusals), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Role.Technician)]
    [InlineData(Role.Administrator)]
    public async Task Only_curators_see_rows_and_problems(Role role)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await Bench.ReceiveAsync(
            server, curator, $"Seen by {role}", "l.csv", Encoding.UTF8.GetBytes($"Collector,Number\nAda {role},1\n"));
        using var other = await server.SignInAsync(role);
        foreach (var page in new[] { "", "/rows", "/columns", "/take-in", "/problems.csv" })
        {
            var answer = await other.GetPageAsync(batch.Address.AbsolutePath + page);
            Assert.StartsWith("/not-yours", new Uri(batch.Address, answer.Location!).AbsolutePath, StringComparison.Ordinal);
        }
    }
}
