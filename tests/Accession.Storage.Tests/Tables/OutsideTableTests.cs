using System.Globalization;
using Accession.Storage.Tables;
using MiniExcelLibs;

namespace Accession.Tests.Tables;

/// <summary>Files that were not made for these tests, counted and compared with other readers.</summary>
public sealed class OutsideTableTests : TableTests
{
    [Theory]
    [InlineData("batches/donation-1.csv", 14, 1_000, 0)]   // figures from the batches' own description
    [InlineData("batches/donation-2.xlsx", 14, 600, 0)]
    [InlineData("batches/holdings.csv", 21, 5_000, 0)]
    [InlineData("occurrences-malus.tsv", 24, 2_284, 0)]   // figures from the samples' description and by counting tabs
    [InlineData("occurrences-vaccinium.tsv", 24, 8_450, 2)]
    public void Every_row_comes_out_whole(string file, int columns, int rows, int invisible)
    {
        var table = Opened(ReferenceData.Require(["samples", .. file.Split('/')]));
        var tally = new TableTally();
        var read = table.Rows(tally).ToList();

        Assert.Equal(columns, table.Headers.Count);
        Assert.Equal(rows, read.Count);
        Assert.Equal((rows, 0), (tally.Read, tally.Refused));
        Assert.All(read, row => Assert.Equal(columns, row.Cells.Count));
        var problems = read.SelectMany(row => row.Problems).ToList();
        Assert.Equal(invisible, problems.Count);   // two letters of an older encoding survive in one of the files
        Assert.All(problems, p => Assert.Contains("invisible character", p.Reason, StringComparison.Ordinal));
        Assert.Equal(Enumerable.Range(2, rows), read.Select(row => row.Line));
    }

    [Theory]
    [InlineData("occurrences-malus.tsv")]
    [InlineData("occurrences-vaccinium.tsv")]
    public void Tab_separated_cells_equal_a_plain_split_but_for_quotes_round_a_whole_cell(string file)
    {
        var path = ReferenceData.Require("samples", file);
        var split = File.ReadLines(path).Skip(1).Select(line => line.Split('\t'));

        foreach (var (row, cells) in Opened(path).Rows().Zip(split))
        {
            foreach (var (ours, theirs) in row.Cells.Zip(cells))
            {
                var plain = string.Concat(theirs.Select(c => char.IsControl(c) ? ' ' : c)).Trim();
                Assert.True(
                    ours == plain || plain.Length > 1 && plain[0] == '"' && plain[^1] == '"'
                        && ours == plain[1..^1].Replace("\"\"", "\"", StringComparison.Ordinal).Trim(),
                    $"Line {row.Line}: [{ours}] is not [{plain}].");
            }
        }
    }

    [Fact]
    public void A_workbook_reads_like_another_reader_reads_it()
    {
        var path = ReferenceData.Require("samples", "batches", "donation-2.xlsx");
        var theirs = MiniExcel.Query(path, useHeaderRow: false).Skip(1)
            .Select(row => ((IDictionary<string, object?>)row).Values
                .Select(value => Convert.ToString(value, CultureInfo.InvariantCulture)?.Trim() ?? "").ToList())
            .ToList();
        var ours = Opened(path).Rows().ToList();

        Assert.Equal(theirs.Count, ours.Count);
        foreach (var (row, cells) in ours.Zip(theirs))
        {
            Assert.Equal(cells, row.Cells);
        }
    }

    [Fact]
    public void A_workbook_that_another_library_wrote_reads_back()
    {
        MiniExcel.SaveAs(PathOf("typed.xlsx"), new[]
        {
            new { Collector = "Orm & Brask", Number = 812.0, Date = new DateTime(2024, 3, 17), Pressed = true },
            new { Collector = "Ull <i>", Number = 0.5, Date = new DateTime(1961, 12, 1), Pressed = false },
        });
        var rows = Opened(PathOf("typed.xlsx")).Rows().ToList();

        Assert.Equal(["Orm & Brask", "812", "2024-03-17"], rows[0].Cells.Take(3));
        Assert.Equal(["Ull <i>", "0.5", "1961-12-01"], rows[1].Cells.Take(3));
        Assert.All(rows, row => Assert.Equal([2], row.DateColumns));
    }

    [Fact]
    public void Two_hundred_thousand_rows_are_read_without_holding_them()
    {
        using (var writer = new StreamWriter(PathOf("long.csv")))
        {
            writer.WriteLine("Collector,No.,Date,Country,State,County,Locality,Habitat,Lat,Lon,Alt,Name,Det,Notes");
            for (var i = 0; i < 200_000; i++)
            {
                writer.WriteLine(
                    $"\"Orm, B.\",{i},1961-05-03,Land,State,County,\"{i} km N of the mill, by the ford\",meadow,"
                    + "45.5,-110.25,1200,Carex alta,Orm,\"tufted, common\"");
            }
        }

        var table = Opened(PathOf("long.csv"));
        var before = GC.GetTotalMemory(forceFullCollection: true);
        long most = 0, count = 0;
        foreach (var row in table.Rows())
        {
            if (++count % 20_000 == 0)
            {
                most = Math.Max(most, GC.GetTotalMemory(forceFullCollection: true) - before);
                Assert.Equal("tufted, common", row.Cells[13]);
            }
        }

        Assert.Equal(200_000, count);
        // Held at once, not allocated: as strings the list would be over 100 MB. What other tests of the process hold
        // meanwhile counts too, so there is room for it.
        Assert.InRange(most, long.MinValue, 40 << 20);
    }
}
