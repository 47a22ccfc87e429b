using Accession.Storage.Tables;

namespace Accession.Tests.Tables;

public sealed class WorkbookTableTests : TableTests
{
    [Theory]
    [InlineData("<c r=\"A2\"><v>812</v></c>", "812")]
    [InlineData("<c r=\"A2\"><v>1.23E5</v></c>", "123000")]
    [InlineData("<c r=\"A2\"><v>1E-5</v></c>", "0.00001")]
    [InlineData("<c r=\"A2\"><v>12345678901234567</v></c>", "12345678901234600")]   // fifteen digits are shown
    [InlineData("<c r=\"A2\"><v>37.369280000000003</v></c>", "37.36928")]
    [InlineData("<c r=\"A2\"><v>0.30000000000000004</v></c>", "0.3")]
    [InlineData("<c r=\"A2\"><v>-114.5</v></c>", "-114.5")]
    [InlineData("<c r=\"A2\" s=\"4\"><v>812</v></c>", "KB-00812")]   // zeros and letters made by the format
    [InlineData("<c r=\"A2\" t=\"b\"><v>1</v></c>", "TRUE")]
    [InlineData("<c r=\"A2\"><f>B2*2</f><v>24</v></c>", "24")]   // what the spreadsheet last worked out
    [InlineData("<c r=\"A2\" t=\"str\"><f>B2&amp;\"x\"</f><v>12x</v></c>", "12x")]
    [InlineData("<c r=\"A2\" t=\"inlineStr\"><is><r><t>two </t></r><r><t>parts</t></r></is></c>", "two parts")]
    [InlineData("<c r=\"A2\" s=\"7\"><v>0.4375</v></c>", "10:30")]
    public void A_cell_reads_as_a_person_sees_it(string xml, string text)
    {
        var row = One(xml).Rows().Single();

        Assert.Equal(text, row.Cells[0]);
        Assert.Empty(row.Problems);
        Assert.Empty(row.DateColumns);
    }

    [Theory]
    [InlineData("<c r=\"A2\" s=\"1\"><v>45368</v></c>", "2024-03-17")]
    [InlineData("<c r=\"A2\" s=\"2\"><v>45352</v></c>", "2024-03")]   // shown as Mar-24: the day is the spreadsheet's
    [InlineData("<c r=\"A2\" s=\"5\"><v>45352</v></c>", "2024")]
    [InlineData("<c r=\"A2\" s=\"6\"><v>45368.4375</v></c>", "2024-03-17T10:30")]
    public void A_typed_date_is_ISO_as_precise_as_it_is_shown_and_marked(string xml, string text)
    {
        var row = One(xml).Rows().Single();

        Assert.Equal(text, row.Cells[0]);
        Assert.Equal([0], row.DateColumns);
        Assert.Empty(row.Problems);
    }

    [Fact]
    public void A_day_shown_without_its_year_is_questioned()
    {
        var row = One("<c r=\"A2\" s=\"3\"><v>45368</v></c>").Rows().Single();

        Assert.Equal("2024-03-17", row.Cells[0]);
        Assert.Contains("without a year", row.Problems.Single().Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_formula_that_came_to_nothing_is_a_problem_of_its_cell()
    {
        var row = One("<c r=\"A2\" t=\"e\"><f>NA()</f><v>#N/A</v></c>").Rows().Single();

        Assert.Equal(["", "x"], row.Cells);
        Assert.Equal((2, 1, "Number", "#N/A"),
            row.Problems.Select(p => (p.Line, p.Column!.Value, p.ColumnName, p.Text)).Single());
    }

    [Fact]
    public void The_first_visible_sheet_with_something_on_it_is_read_and_the_others_named()
    {
        var rows = HandMadeWorkbook.Row(1, "Number", "Place") + HandMadeWorkbook.Row(2, "1", "Mill");
        var table = Opened(HandMadeWorkbook.Write(
            PathOf("sheets.xlsx"), ("Secret", "hidden", rows), ("Empty", "visible", ""), ("List", "visible", rows),
            ("Notes", "visible", rows)));

        Assert.Equal("XLSX, sheet List", table.Format);
        Assert.Equal("Secret (hidden), Empty, Notes", table.Notes.Single().Text);
        Assert.Equal(["2: 1 | Mill"], Lines(table));
    }

    [Fact]
    public void A_row_behind_a_million_empty_ones_is_found_under_its_number()
    {
        var rows = Enumerable.Range(3, 1_000_000).Select(i => $"<row r=\"{i}\"/>")
            .Prepend(HandMadeWorkbook.Row(2, "1", "Mill"))
            .Prepend(HandMadeWorkbook.Row(1, "Number", "Place"))
            .Append(HandMadeWorkbook.Row(1_048_576, "2", "Ford"));

        Assert.Equal(
            ["2: 1 | Mill", "1048576: 2 | Ford"], Lines(Opened(HandMadeWorkbook.Stream(PathOf("gap.xlsx"), rows))));
    }

    [Fact]
    public void Only_blank_sheets_are_nothing()
    {
        const string Rows = "<row r=\"1\"><c r=\"A1\"/></row>";
        var path = HandMadeWorkbook.Write(PathOf("blank.xlsx"), ("List", "visible", Rows));

        Assert.Equal("There is nothing on the visible sheets of this workbook.", Refused(path));
    }

    [Fact]
    public void A_workbook_that_unpacks_to_too_much_is_refused_unread()
    {
        var rows = Enumerable.Range(2, 50_000).Select(i => $"<row r=\"{i}\"/>")
            .Prepend(HandMadeWorkbook.Row(1, "Number", "Place"));
        var path = HandMadeWorkbook.Stream(PathOf("bomb.xlsx"), rows);

        Assert.Contains("unpacks to", Refused(path, new(MaximumUnpackedBytes: 500_000)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_workbook_that_lies_about_its_size_is_not_unpacked_beyond_the_lie()
    {
        var rows = Enumerable.Range(3, 400_000).Select(i => HandMadeWorkbook.Row(i, "1", "Mill"))
            .Prepend(HandMadeWorkbook.Row(1, "Number", "Place"));
        var path = HandMadeWorkbook.Stream(PathOf("liar.xlsx"), rows);
        Declare(path, "xl/worksheets/sheet1.xml", 100_000);

        var outcome = TableReader.Open(path, new(MaximumUnpackedBytes: 500_000));
        Assert.Contains("is damaged", Assert.Single(outcome.Refusals).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_damaged_sheet_gives_its_rows_up_to_the_damage_and_says_so()
    {
        var path = HandMadeWorkbook.Write(PathOf("torn.xlsx"), ("List", "visible",
            HandMadeWorkbook.Row(1, "Number", "Place") + HandMadeWorkbook.Row(2, "1", "Mill")
            + "<row r=\"3\"><c r=</row>"));

        var outcome = TableReader.Open(path);
        Assert.Equal(
            "This workbook is damaged. Open it in a spreadsheet, save it anew and send that.",
            Assert.Single(outcome.Refusals).Reason);
    }

    private Table One(string cell) => Opened(HandMadeWorkbook.Write(PathOf("one.xlsx"), ("List", "visible",
        HandMadeWorkbook.Row(1, "Number", "Place")
        + $"<row r=\"2\">{cell}<c r=\"B2\" t=\"str\"><v>x</v></c></row>")));

    /// <summary>Overwrites the unpacked size of a part in the zip directory (APPNOTE 4.3.12, offset 24).</summary>
    private static void Declare(string path, string part, int size)
    {
        var bytes = File.ReadAllBytes(path);
        var name = System.Text.Encoding.ASCII.GetBytes(part);
        var at = bytes.AsSpan().LastIndexOf(name) - 46;
        Assert.Equal(0x02014b50, BitConverter.ToInt32(bytes, at));
        BitConverter.TryWriteBytes(bytes.AsSpan(at + 24), size);
        File.WriteAllBytes(path, bytes);
    }
}
