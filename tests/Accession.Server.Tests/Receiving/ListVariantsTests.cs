using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class ListVariantsOnSqlite(ServerOnSqlite server)
    : ListVariantsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ListVariantsOnPostgreSql(ServerOnPostgreSql server)
    : ListVariantsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>One list in many files, and faults that are told where they stand. People and places are invented.</summary>
public abstract class ListVariantsTests(TestServer server)
{
    private const string List =
        "Collector;Number;Date;Locality;Species\n"
        + "Jörg Äbelin;7;2023-06-01;\"Häng, östlich;\nam Weg\t2\";Poa annua L.\n"
        + "Jörg Äbelin;8;2023-06-02;Ried „Müli“;Carex hirta L.\n"
        + "Jörg Äbelin;9;2023-06-03;Weg – Süd;Poa nemoralis L.\n";

    [Fact]
    public async Task The_same_rows_come_out_of_every_separator_and_every_encoding()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await ReceiveAsync(curator, "Variants", Written(';', new UTF8Encoding(false)));
        Assert.Contains("Semicolon", Fact(first, "Kind of file"), StringComparison.OrdinalIgnoreCase);
        var windows = CodePagesEncodingProvider.Instance.GetEncoding(1252)!;
        (char Separator, Encoding Encoding, string Named)[] variants =
        [
            (',', new UTF8Encoding(true), "comma"), ('\t', Encoding.Unicode, "tab"),
            (';', Encoding.BigEndianUnicode, "UTF-16"), (',', windows, "Windows-1252"), ('\t', windows, "Windows-1252"),
        ];
        foreach (var (separator, encoding, named) in variants)
        {
            // Every one is known as the list that came first, row for row, to the letter.
            var again = await ReceiveAsync(curator, "Variants", Written(separator, encoding));
            Assert.Equal(first.Address.AbsolutePath, again.Address.AbsolutePath);
            Assert.Contains(named, Fact(again, "Kind of file"), StringComparison.OrdinalIgnoreCase);
            Assert.Equal(
                ("3", "3", "0", "0"),
                (Fact(again, "Rows"), Fact(again, "Unchanged"), Fact(again, "Added"), Fact(again, "Withdrawn")));
        }
    }

    // Common practice, no published source: what a curator is told of coordinates that cannot be.
    [Theory]
    [InlineData("-119.05417", "43.58642", "Lat", "look swapped; check which cell is which")]
    [InlineData("95.5", "143.5", "Lat", "no such latitude: it ends at 90 degrees")]
    [InlineData("43.58642", "-219.05417", "Long", "no such longitude: it ends at 180 degrees")]
    [InlineData("43.58642", "", "Long", "a latitude but no longitude")]
    [InlineData("", "-119.05417", "Lat", "a longitude but no latitude")]
    [InlineData("43°35'11.1\"N", "119°63'15.1\"W", "Long", "60")]
    public async Task Coordinates_that_cannot_be_are_told_at_their_line_and_column(
        string latitude, string longitude, string column, string reason)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var quoted = latitude.Replace("\"", "\"\"", StringComparison.Ordinal);
        var other = longitude.Replace("\"", "\"\"", StringComparison.Ordinal);
        var batch = await ReceiveAsync(
            curator, $"At {latitude} {longitude}", Encoding.UTF8.GetBytes(
                "Collector,Number,Lat,Long\nAda Quill,1,43.5,-119.5\n"
                + $"Ada Quill,2,\"{quoted}\",\"{other}\"\nAda Quill,3,43.6,-119.6\n"));
        var path = batch.Address.AbsolutePath;
        var csv = await curator.Http.GetStringAsync(new Uri(batch.Address, $"{path}/problems.csv"));
        var problem = Assert.Single(csv.Split('\n'), line => line.TrimEnd().EndsWith(",yes", StringComparison.Ordinal));
        Assert.StartsWith($"3,{column},", problem, StringComparison.Ordinal);
        Assert.Contains(reason, problem, StringComparison.Ordinal);
        var open = Assert.Single((await curator.GetPageAsync($"{path}/rows?show=open")).All("main tbody tr"));
        Assert.Contains(reason, open.TextContent, StringComparison.Ordinal);
        Assert.Contains("2 settled", batch.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rows_of_another_length_and_a_quote_that_never_closes_take_nothing_else_with_them()
    {
        const string Odd = "Collector,Number,Date,Locality,Species\n"
            + "Ada Quill,1,2024-05-01,Lane\n"
            + "Ada Quill,2,2024-05-02,Gate,Poa annua L.,a torn sheet\n"
            + "Ada Quill,3,2024-05-03,\"Pond,Poa annua L.\n"
            + "Ada Quill,4,2024-05-04,Fen,Poa annua L.\n"
            + "Ada Quill,5,2024-05-05,\"Wood, wet\",Poa annua L.\n";
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await ReceiveAsync(curator, "Odd lengths", Encoding.UTF8.GetBytes(Odd));
        Assert.Equal(("4", "1"), (Fact(batch, "Rows"), Fact(batch, "Lines not read")));
        var path = batch.Address.AbsolutePath;
        var all = await curator.GetPageAsync($"{path}/rows?show=all");
        var lost = Assert.Single(all.All("section table tbody tr"));
        Assert.Equal("4", lost.QuerySelector("td")!.TextContent);
        Assert.Contains("Pond", lost.TextContent, StringComparison.Ordinal);
        Assert.Contains("quot", lost.TextContent, StringComparison.OrdinalIgnoreCase);
        var rows = all.All("main form tbody tr");
        Assert.Equal(["2", "3", "5", "6"], rows.Select(row => row.QuerySelector("td.num")!.TextContent));
        Assert.Contains("a torn sheet", rows[1].TextContent, StringComparison.Ordinal);
        Assert.Contains("Wood, wet", rows[3].TextContent, StringComparison.Ordinal);
    }

    private static byte[] Written(char separator, Encoding encoding)
    {
        // The one cell that holds separators stays as it is.
        var parts = List.Split('"');
        var text = string.Join('"', parts.Select((part, k) => k == 1 ? part : part.Replace(';', separator)));
        return [.. encoding.GetPreamble(), .. encoding.GetBytes(text)];
    }

    private Task<Page> ReceiveAsync(Visitor curator, string source, byte[] list) =>
        Bench.ReceiveAsync(server, curator, source, "list.csv", list);

    private static string Fact(Page page, string name) =>
        page.All("dl.facts dt").Single(dt => dt.TextContent == name).NextElementSibling!.TextContent;
}
