using System.Globalization;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Tests.Tables;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class WorkbookListOnSqlite(ServerOnSqlite server)
    : WorkbookListTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class WorkbookListOnPostgreSql(ServerOnPostgreSql server)
    : WorkbookListTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// What a spreadsheet makes of a list, through the upload page. The serial numbers of days count from 30 Dec 1899
/// (ECMA-376, part 1, 18.17.4.1); people and places are invented.
/// </summary>
public abstract class WorkbookListTests(TestServer server) : IDisposable
{
    private const int LastRow = 1_000_002;

    private readonly string _path = Path.Combine(Path.GetTempPath(), $"list-{Guid.NewGuid():N}.xlsx");

    public void Dispose()
    {
        File.Delete(_path);
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task A_workbook_is_read_as_it_is_seen_and_a_number_that_became_a_date_is_asked_about()
    {
        HandMadeWorkbook.Stream(_path, Rows());
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await Bench.ReceiveAsync(
            server, curator, "Spreadsheet", "list.xlsx", await File.ReadAllBytesAsync(_path));
        var path = batch.Address.AbsolutePath;
        var facts = batch.One("aside dl.facts").TextContent;
        Assert.Contains("XLSX", facts, StringComparison.Ordinal);
        Assert.Equal("4", Fact(batch, "Rows"));
        Assert.Equal("0", Fact(batch, "Lines not read"));

        var settled = await curator.GetPageAsync($"{path}/rows?show=settled");
        var rows = settled.All("main tbody tr");
        Assert.Equal(["2", "4", $"{LastRow}"], rows.Select(row => row.QuerySelector("td")!.TextContent));
        Assert.Contains("Ada Quill 812", Blanks(rows[0].TextContent), StringComparison.Ordinal);   // 8.12E2
        Assert.Contains("17 Mar 2024", rows[0].TextContent, StringComparison.Ordinal);             // a typed date
        Assert.Equal("3", rows[0].QuerySelector("[data-label=sheets]")!.TextContent);              // 1 + 2, worked out
        Assert.Contains("18 May 2024", rows[2].TextContent, StringComparison.Ordinal);

        // 12/6 was typed as a number and became a date: nobody but the sender knows what it was.
        var open = Assert.Single((await curator.GetPageAsync($"{path}/rows?show=open")).All("main tbody tr"));
        Assert.Equal("3", open.QuerySelector("td.num")!.TextContent);
        Assert.Contains("The spreadsheet took this number for a date", open.TextContent, StringComparison.Ordinal);
        var csv = await curator.Http.GetStringAsync(new Uri(batch.Address, $"{path}/problems.csv"));
        Assert.Contains("\n3,Coll. No.,", csv, StringComparison.Ordinal);
    }

    private static IEnumerable<string> Rows()
    {
        yield return HandMadeWorkbook.Row(1, "Collector", "Coll. No.", "Date", "Sheets", "Locality", "Species");
        yield return Row(2, "<v>8.12E2</v>", 0, Serial(2024, 3, 17), "<f>1+2</f><v>3</v>");
        yield return Row(3, $"<v>{Serial(2026, 12, 6)}</v>", 3, Serial(2024, 3, 18), "<v>1</v>");
        yield return Row(4, "<v>814</v>", 0, Serial(2024, 3, 19), "<v>1</v>");
        for (var row = 5; row < LastRow; row++)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"<row r=\"{row}\"/>");
        }

        yield return Row(LastRow, "<v>815</v>", 0, Serial(2024, 5, 18), "<v>1</v>");
    }

    private static string Row(int row, string number, int numberStyle, int date, string sheets) =>
        $"<row r=\"{row}\">{Text('A', row, "Ada Quill")}<c r=\"B{row}\" s=\"{numberStyle}\">{number}</c>"
        + $"<c r=\"C{row}\" s=\"1\"><v>{date}</v></c><c r=\"D{row}\">{sheets}</c>"
        + $"{Text('E', row, "Mill lane")}{Text('F', row, "Poa annua L.")}</row>";

    private static string Text(char column, int row, string text) =>
        $"<c r=\"{column}{row}\" t=\"inlineStr\"><is><t>{text}</t></is></c>";

    private static int Serial(int year, int month, int day) =>
        new DateOnly(year, month, day).DayNumber - new DateOnly(1899, 12, 30).DayNumber;

    private static string Blanks(string text) =>
        string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static string Fact(Page page, string name) =>
        page.All("dl.facts dt").Single(dt => dt.TextContent == name).NextElementSibling!.TextContent;
}
