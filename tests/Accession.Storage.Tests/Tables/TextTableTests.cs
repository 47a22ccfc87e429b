using System.Text;
using Accession.Storage.Tables;

namespace Accession.Tests.Tables;

public sealed class TextTableTests : TableTests
{
    private static readonly Encoding Western = CodePagesEncodingProvider.Instance.GetEncoding(1252)!;

    [Theory]
    [InlineData("Collector,Number,Date\nBrask,12,1961\n", "CSV, comma")]
    [InlineData("Collector;Number;Date\nBrask;12;1961\n", "CSV, semicolon")]
    [InlineData("Collector\tNumber\tDate\nBrask\t12\t1961\n", "TSV, tab, quotation marks as letters")]
    [InlineData("Collector|Number|Date\nBrask|12|1961\n", "CSV, vertical bar")]
    [InlineData("Collector;Lat;Long\nBrask;12,5;19,61\nBrask;12,5;19,61\n", "CSV, semicolon")]   // decimal commas
    [InlineData("sep=;\r\nCollector;Number;Date\r\nBrask;1,2;3\r\n", "CSV, semicolon")]
    [InlineData("Collector,Number,Date\n\"Brask; Orm; Ull\",12,\"a; b\"\n", "CSV, comma")]   // separators in quotes
    public void The_separator_is_found(string text, string format)
    {
        var table = Opened(Text(text));

        Assert.Equal(format, table.Format);
        Assert.Equal(3, table.Headers.Count);
    }

    [Fact]
    public void Encodings_are_told_apart_and_named()
    {
        const string List = "Sammler;Nummer;Ort\nJörg Weiß;12;Küste – Süd\n";
        (byte[] Bytes, string Name)[] files =
        [
            (Encoding.UTF8.GetBytes(List), "UTF-8"),
            ([.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(List)], "UTF-8 (marked)"),
            ([.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes(List)], "UTF-16, little-endian (marked)"),
            ([.. Encoding.BigEndianUnicode.Preamble, .. Encoding.BigEndianUnicode.GetBytes(List)],
                "UTF-16, big-endian (marked)"),
            (Encoding.Unicode.GetBytes(List), "UTF-16, little-endian (not marked)"),
            (Encoding.BigEndianUnicode.GetBytes(List), "UTF-16, big-endian (not marked)"),
            (Western.GetBytes(List), "Windows-1252 (line 2 is not UTF-8)"),
        ];

        foreach (var (bytes, name) in files)
        {
            var table = Opened(Bytes(bytes));
            Assert.Equal(name, table.Encoding);
            Assert.Equal(["Sammler", "Nummer", "Ort"], table.Headers);
            Assert.Equal(["2: Jörg Weiß | 12 | Küste – Süd"], Lines(table));
        }
    }

    [Fact]
    public void A_letter_of_three_bytes_on_the_border_of_two_blocks_is_still_UTF8()
    {
        for (var shift = 0; shift < 4; shift++)
        {
            var table = Opened(Text("a,b\n" + new string('x', 30_000 - shift) + "," + new string('–', 30_000) + "\n"));
            Assert.Equal("UTF-8", table.Encoding);
            Assert.Equal(30_000, table.Rows().Single().Cells[1].Length);
        }
    }

    [Fact]
    public void Line_numbers_stay_true_across_quoted_line_breaks_and_blank_lines()
    {
        var table = Opened(Text("a,b,c\r\n1,\"x\r\ny\r\nz\",2\r\n\r\n3,4,5\r\n,,\r\n6,7,8"));

        Assert.Equal(["2: 1 | x\r\ny\r\nz | 2", "6: 3 | 4 | 5", "8: 6 | 7 | 8"], Lines(table));
        Assert.Equal([4, 6, 8], table.Rows().Select(row => row.LastLine));
        Assert.All(table.Rows(), row => Assert.Empty(row.Problems));
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Every_kind_of_line_break_counts_as_one_line(string end)
    {
        string[] lines = ["a,b,c", "1,\"x", "y\",2", "", "3,\"open,4", "5,6,7"];

        Assert.Equal(
            [$"2: 1 | x{end}y | 2", "5: refused", "6: 5 | 6 | 7"], Lines(Opened(Text(string.Join(end, lines)))));
    }

    [Fact]
    public void Quotes_inside_a_cell_are_kept()
    {
        var table = Opened(Text("a,b,c\n1,12\" tall,\"says \"\"no\"\"\"\n2,\"Old mill\" road,x\n3, \"y, z\" ,\"\"\n"));

        Assert.Equal(
            ["2: 1 | 12\" tall | says \"no\"", "3: 2 | \"Old mill\" road | x", "4: 3 | y, z | "], Lines(table));
        var problem = Assert.Single(table.Rows().SelectMany(row => row.Problems));
        Assert.Equal(3, problem.Line);
        Assert.Contains("closed in the middle", problem.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unclosed_quote_costs_its_own_line_and_no_other()
    {
        var table = Opened(Text("a,b,c\n1,\"x\ny\",2\n3,\"open,4\n5,\"p, q\",6\n7,\"x\ny\",8\n9,10,11\n"));
        var tally = new TableTally();
        var rows = table.Rows(tally).ToList();

        Assert.Equal(
            ["2: 1 | x\ny | 2", "4: refused", "5: 5 | p, q | 6", "6: 7 | x\ny | 8", "8: 9 | 10 | 11"], Lines(table));
        Assert.Equal("3,\"open,4", rows[1].Problems.Single().Text);
        Assert.Equal("A quotation mark is opened in this line and not closed, or closed in the middle of a cell.",
            rows[1].Problems.Single().Reason);
        Assert.Equal((4, 1, 8), (tally.Read, tally.Refused, tally.LastLine));
    }

    [Fact]
    public void An_unclosed_quote_in_the_last_line_is_refused_alone()
    {
        Assert.Equal(["2: 1 | 2 | 3", "3: refused"], Lines(Opened(Text("a,b,c\n1,2,3\n4,\"5,6\n"))));
    }

    [Fact]
    public void With_many_unclosed_quotes_each_line_stands_for_itself()
    {
        var text = new StringBuilder("a,b,c\n");
        for (var i = 0; i < 60; i++)
        {
            text.Append(i % 2 == 0 ? $"{i},\"open,x\n" : $"{i},\"p, q\",y\n");
        }

        var table = Opened(Text(text.ToString()));

        Assert.Equal("CSV, comma, quotation marks within one line", table.Format);
        Assert.Equal(60, table.Rows().Count());
        Assert.Equal(30, table.Rows().Count(row => row.IsRefused));
        Assert.All(table.Rows().Where(row => !row.IsRefused), row => Assert.Equal("p, q", row.Cells[1]));
    }

    [Fact]
    public void A_quote_left_open_over_megabytes_does_not_swallow_them()
    {
        var text = new StringBuilder("a,b,c\n0,\"open,x\n");
        for (var i = 1; i < 300_000; i++)
        {
            text.Append(i).Append(",two,three\n");
        }

        var tally = new TableTally();
        Assert.Equal(300_000, Opened(Text(text.ToString())).Rows(tally).Count());
        Assert.Equal(1, tally.Refused);
    }

    [Fact]
    public void A_cell_that_swallowed_a_row_and_ended_well_is_questioned()
    {
        // The inch mark of line 3 closes what line 2 opened: formally right, and surely not meant.
        var row = Opened(Text("a,b,c\n1,\"open,x\n2,12\",y\n3,4,5\n")).Rows().First();

        Assert.Contains("holds as much as a row", row.Problems.Single().Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void In_tab_separated_exports_quotes_are_letters()
    {
        var table = Opened(Text(
            "id\tplace\tby\n1\t\"Twenty\" acre\tA\n2\t12\" deep\tB\n3\t\"open\tC\n4\t\"Brask, A\"\tD\n"));

        Assert.Equal(
            ["2: 1 | \"Twenty\" acre | A", "3: 2 | 12\" deep | B", "4: 3 | \"open | C", "5: 4 | Brask, A | D"],
            Lines(table));
    }

    [Fact]
    public void In_tab_separated_text_of_a_spreadsheet_quotes_enclose()
    {
        var table = Opened(Text("id\tplace\tby\n1\t\"north\nside\"\tA\n2\t\"a \"\"b\"\"\"\tB\n"));

        Assert.Equal("TSV, tab", table.Format);
        Assert.Equal(["2: 1 | north\nside | A", "4: 2 | a \"b\" | B"], Lines(table));
    }

    [Fact]
    public void Rows_longer_or_shorter_than_the_headings_are_kept_and_said()
    {
        var table = Opened(Text("a,b,c\n1,2,3\n1,2,3,4,5\n1,2\n1,2,3,,\n"));
        var problems = table.Rows().SelectMany(row => row.Problems).ToList();

        Assert.Equal(["2: 1 | 2 | 3", "3: 1 | 2 | 3", "4: 1 | 2 | ", "5: 1 | 2 | 3"], Lines(table));
        Assert.Equal([3, 4], problems.Select(p => p.Line));
        Assert.Equal("4 | 5", problems[0].Text);
        Assert.Contains("5 cells for 3 headings", problems[0].Reason, StringComparison.Ordinal);
        Assert.Contains("only 2 cells", problems[1].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Short_rows_are_not_worth_a_word_where_they_are_the_rule()
    {
        Assert.All(Opened(Text("a,b,c\n1,2\n3,4\n5,6,7\n")).Rows(), row => Assert.Empty(row.Problems));
    }

    [Fact]
    public void Titles_above_the_headings_are_said_and_passed_over()
    {
        var table = Opened(Text(
            "Plants of the Grey Hills\n\nprinted 2024,,,\nCollector,Number,Date,Place\nOrm,1,1961,Mill\n"));

        Assert.Equal(4, table.HeaderLine);
        Assert.Equal(["5: Orm | 1 | 1961 | Mill"], Lines(table));
        Assert.Equal(["Plants of the Grey Hills", "printed 2024"], table.Notes.Select(note => note.Text));
    }

    [Fact]
    public void A_heading_line_that_comes_again_is_refused_as_a_row()
    {
        var table = Opened(Text("Collector,Number,Date\nOrm,1,1961\ncollector,number,date\nOrm,2,1962\n"));

        Assert.Equal(["2: Orm | 1 | 1961", "3: refused", "4: Orm | 2 | 1962"], Lines(table));
        Assert.Equal("This is the heading line again.", table.Rows().ElementAt(1).Problems.Single().Reason);
    }

    [Fact]
    public void A_missing_heading_is_named_after_its_place()
    {
        var table = Opened(Text("a,,c,\n1,2,3,\n"));

        Assert.Equal(["a", "Column 2", "c"], table.Headers);
        Assert.Equal("This column has no heading.", table.Notes.Single().Reason);
    }

    [Fact]
    public void Invisible_characters_and_formula_errors_are_taken_out_and_said()
    {
        var row = Opened(Text("a,b,c,d\nx\0y,\u0007z,#REF!,=\"007\"\n")).Rows().Single();

        Assert.Equal(["x y", "z", "", "007"], row.Cells);
        Assert.Equal([1, 2, 3], row.Problems.Select(p => p.Column!.Value));
        Assert.Equal("b", row.Problems[1].ColumnName);
        Assert.Equal("#REF!", row.Problems[2].Text);
    }

    [Fact]
    public void A_cell_longer_than_a_spreadsheet_allows_costs_its_row()
    {
        var table = Opened(Text($"a,b\n1,{new string('x', 40_000)}\n2,3\n"));

        Assert.Equal(["2: refused", "3: 2 | 3"], Lines(table));
        Assert.Equal(
            "A cell has 40,000 characters; 32,767 are allowed.", table.Rows().First().Problems.Single().Reason);
    }

    [Fact]
    public void A_line_longer_than_memory_should_hold_costs_only_itself()
    {
        var table = Opened(Text($"a,b\n1,2\n3,{new string('x', 9_000_000)}\n4,5\n"));

        Assert.Equal(["2: 1 | 2", "3: refused", "4: 4 | 5"], Lines(table));
        Assert.Contains(
            "more than a row may have",
            table.Rows().ElementAt(1).Problems.Single().Reason,
            StringComparison.Ordinal);
    }
}
