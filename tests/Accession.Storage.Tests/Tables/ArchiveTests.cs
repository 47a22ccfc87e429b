using System.IO.Compression;
using System.Text;
using Accession.Storage.Tables;

namespace Accession.Tests.Tables;

/// <summary>
/// Darwin Core archives as the text guide has them (http://rs.tdwg.org/dwc/text/), and as careless or hostile senders
/// have them. People and places are invented.
/// </summary>
public sealed class ArchiveTests : TableTests
{
    private const string Dwc = "http://rs.tdwg.org/dwc/terms/";

    private static string Core(string attributes, string body, string rest = "") =>
        $"""
        <archive xmlns="http://rs.tdwg.org/dwc/text/">
          <core rowType="{Dwc}Occurrence" {attributes}><files><location>occurrence.txt</location></files>{body}</core>
          {rest}
        </archive>
        """;

    private static string Field(string term, int? index, string? value = null) =>
        $"<field term=\"{Dwc}{term}\"{(index is { } at ? $" index=\"{at}\"" : "")}"
        + $"{(value is not null ? $" default=\"{value}\"" : "")}/>";

    private static readonly string Plain =
        "<id index=\"0\"/>" + Field("recordedBy", 1) + Field("recordNumber", 2);

    private const string Tabs = """fieldsTerminatedBy="\t" ignoreHeaderLines="1" fieldsEnclosedBy="" """;

    private string Archive(params (string Name, string Text)[] files) =>
        Archive([.. files.Select(file => (file.Name, Encoding.UTF8.GetBytes(file.Text)))]);

    private string Archive(params (string Name, byte[] Bytes)[] files)
    {
        File.Delete(PathOf("list.zip"));
        using var zip = ZipFile.Open(PathOf("list.zip"), ZipArchiveMode.Create);
        foreach (var (name, bytes) in files)
        {
            using var entry = zip.CreateEntry(name).Open();
            entry.Write(bytes);
        }

        return PathOf("list.zip");
    }

    private string Archive(string meta, string occurrences) =>
        Archive(("meta.xml", meta), ("occurrence.txt", occurrences));

    [Fact]
    public void What_the_descriptor_leaves_out_has_the_guides_own_value()
    {
        // Commas, line feeds, quotation marks, no heading, UTF-8.
        var path = Archive(Core("", Plain), "a,\"Orm, \"\"B.\"\"\",7\r\nb,\"two\nlines\",8");

        Assert.Equal(["1: a | Orm, \"B.\" | 7", "2: b | two\nlines | 8"], Lines(Opened(path)));
    }

    [Fact]
    public void Separators_of_several_letters_other_marks_and_lines_above_are_understood()
    {
        var path = Archive(
            Core(
                "fieldsTerminatedBy=\"||\" linesTerminatedBy=\"\\r\\n\" fieldsEnclosedBy=\"'\" ignoreHeaderLines=\"2\"",
                Plain),
            "made in May\r\nid||by||no\r\n1||'Orm || Brask'||7\r\n\r\n2||O'Hara||8\r\n");

        Assert.Equal(["3: 1 | Orm || Brask | 7", "5: 2 | O'Hara | 8"], Lines(Opened(path)));
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Lines_may_end_as_they_do_on_any_machine(string end)
    {
        var path = Archive(Core(Tabs, Plain), $"id\tby\tno{end}1\tOrm\t7{end}{end}2\tBrask\t8{end}");

        Assert.Equal(["2: 1 | Orm | 7", "4: 2 | Brask | 8"], Lines(Opened(path)));
    }

    [Fact]
    public void A_default_stands_in_for_an_empty_cell_and_in_every_row_where_there_is_no_column()
    {
        var meta = Core(Tabs, "<id index=\"0\"/>" + Field("country", 1, "Peru") + Field("basisOfRecord", null, "P"));

        Assert.Equal(
            ["2: 1 | Peru | P", "3: 2 | Bolivia | P"], Lines(Opened(Archive(meta, "id\tcountry\n1\t\n2\tBolivia\n"))));
    }

    [Fact]
    public void A_mark_that_is_never_closed_costs_its_own_row()
    {
        var rows = Opened(Archive(Core("", Plain), "1,Orm,7\n2,\"Brask,8\n3,Ull,9\n4,\"Orm\",10\n")).Rows().ToList();

        Assert.Equal([false, true, false, false], rows.Select(row => row.IsRefused));
        Assert.Equal(
            "A quotation mark is opened in this line and not closed.", Assert.Single(rows[1].Problems).Reason);
    }

    [Fact]
    public void A_row_cut_off_or_with_a_separator_too_many_is_read_and_said()
    {
        var rows = Opened(Archive(Core("", Plain), "1,Orm,7\n2,Brask\n3,Ull,9,x\n4,Orm,1\n")).Rows().ToList();

        Assert.Equal(
            [
                "The row has only 2 cells; meta.xml speaks of 3. Was it cut off?",
                "The row has 4 cells and the others 3. Is a separator too many in it?",
            ],
            rows.SelectMany(row => row.Problems).Select(problem => problem.Reason));
    }

    [Fact]
    public void A_term_of_a_column_that_is_not_there_is_said()
    {
        var table = Opened(Archive(Core("", Plain + Field("county", 9)), "1,Orm,7\n2,Orm,8\n"));

        Assert.Equal(["1: 1 | Orm | 7 | ", "2: 2 | Orm | 8 | "], Lines(table));
        Assert.Contains(table.Notes, note => note.Reason
            == "meta.xml says that county is column 10 of occurrence.txt, whose rows have 3: it is read as empty.");
        Assert.All(table.Rows(), row => Assert.Empty(row.Problems));
    }

    [Fact]
    public void Rows_of_an_extension_that_belong_to_no_row_are_said_with_their_lines()
    {
        var table = Opened(Archive(
            ("meta.xml", Core(Tabs, Plain, $"""
                <extension rowType="{Dwc}Identification" {Tabs}><files><location>names.txt</location></files>
                <coreid index="1"/>{Field("scientificName", 0)}</extension>
                """)),
            ("occurrence.txt", "id\tby\tno\n1\tOrm\t7\n2\tOrm\t8\n\tOrm\t9\n"),
            ("names.txt", "name\tid\nCarex b\t1\nCarex a\t1\nCarex c\t77\nCarex d\t\n")));

        Assert.Equal(
            [
                "2: 1 | Orm | 7 | scientificName: Carex a\nscientificName: Carex b", "3: 2 | Orm | 8 | ",
                "4:  | Orm | 9 | ",
            ],
            Lines(table));
        Assert.Contains(table.Notes, note => (note.Line, note.Text, note.Reason)
            == (4, "Carex c | 77", "In names.txt: no row of occurrence.txt has the id 77. It was not read."));
        Assert.Contains(table.Notes, note => note.Line == 5 && note.Reason.Contains("does not say"));
        Assert.Contains(table.Rows().Last().Problems, problem => problem.Reason.StartsWith(
            "The row has no id, so nothing", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("UTF-8", "windows-1252", "is not UTF-8")]
    [InlineData("ISO-8859-1", "utf-8", "they are UTF-8")]
    [InlineData("UTF-8", "utf-16", "they are UTF-16, little-endian (marked)")]
    [InlineData("Martian", "utf-8", "which is not known")]
    public void Encodings_that_lie_are_found_out_and_said(string declared, string real, string told)
    {
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        var encoding = Encoding.GetEncoding(real);
        var table = Opened(Archive(
            ("meta.xml", Encoding.UTF8.GetBytes(Core($"{Tabs} encoding=\"{declared}\"", Plain))),
            ("occurrence.txt",
                [.. real == "utf-8" ? [] : encoding.GetPreamble(), .. encoding.GetBytes("id\tby\tno\n1\tÖrm\t7\n")])));

        Assert.Equal("Örm", table.Rows().Single().Cells[1]);
        Assert.Contains(table.Notes, note => note.Reason.Contains(told, StringComparison.Ordinal));
    }

    [Fact]
    public void An_encoding_that_the_descriptor_names_rightly_is_used_without_a_word()
    {
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        var table = Opened(Archive(
            ("meta.xml", Encoding.UTF8.GetBytes(Core($"{Tabs} encoding=\"ISO-8859-2\"", Plain))),
            ("occurrence.txt", Encoding.GetEncoding("ISO-8859-2").GetBytes("id\tby\tno\n1\tDvořák\t7\n"))));

        Assert.Equal(("Dvořák", 0), (table.Rows().Single().Cells[1], table.Notes.Count));
    }

    [Fact]
    public void A_folder_that_was_packed_is_opened_and_what_a_system_left_beside_it_is_not_looked_at()
    {
        var path = Archive(
            ("mine/meta.xml", Core(Tabs, Plain)), ("mine/Occurrence.TXT", "id\tby\tno\n1\tOrm\t7\n"),
            ("__MACOSX/mine/._meta.xml", "x"), ("mine/.DS_Store", "x"));

        Assert.Equal(["2: 1 | Orm | 7"], Lines(Opened(path)));
    }

    [Fact]
    public void A_single_list_in_a_zip_needs_no_descriptor()
    {
        var table = Opened(Archive(("occurrence.csv", "recordedBy;recordNumber\nOrm;7\n"), ("eml.xml", "<eml/>")));

        Assert.Equal(["2: Orm | 7"], Lines(table));
        Assert.StartsWith("occurrence.csv in a zip: CSV", table.Format, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_lists_in_a_zip_are_not_guessed_at() => Assert.Contains(
        "it holds 2 files that could be the list",
        Refused(Archive(("a.csv", "a,b\n1,2\n"), ("b.csv", "a,b\n1,2\n"))), StringComparison.Ordinal);

    [Fact]
    public void Files_that_the_descriptor_does_not_name_are_said_and_addresses_are_not_fetched()
    {
        var meta = Core(Tabs, Plain).Replace(
            "<archive ", "<archive metadata=\"https://example.org/eml.xml\" ", StringComparison.Ordinal);
        var told = Opened(Archive(
            ("meta.xml", meta), ("occurrence.txt", "id\tby\tno\n1\tOrm\t7\n"), ("photos.txt", "x")))
            .Notes.Select(note => note.Reason).ToList();

        Assert.Equal(
            [
                "The description of the data set lies at https://example.org/eml.xml and was not fetched.",
                "photos.txt is in the archive and meta.xml does not name it: it was not read.",
            ],
            told);
    }

    [Fact]
    public void Our_own_headings_in_a_row_are_noticed_when_the_descriptor_forgot_them()
    {
        var path = Archive(
            Core("", Field("recordedBy", 0) + Field("recordNumber", 1)), "recordedBy,recordNumber\nOrm,7\n");

        Assert.Equal(["1: refused", "2: Orm | 7"], Lines(Opened(path)));
    }
}
