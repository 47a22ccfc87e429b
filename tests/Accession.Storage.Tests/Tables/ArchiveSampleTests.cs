using System.Globalization;
using System.IO.Compression;
using Accession.Storage.Tables;

namespace Accession.Tests.Tables;

/// <summary>
/// Darwin Core archives that were not made by this program: accepted or refused as the description beside them says
/// (standards/dwca-samples/README.md of the reference data).
/// </summary>
public sealed class ArchiveSampleTests : TableTests
{
    private string Sample(string name)
    {
        var path = ReferenceData.Require(["standards", "dwca-samples", .. name.Split('/')]);
        if (File.Exists(path))
        {
            return path;
        }

        File.Delete(PathOf("sample.zip"));
        ZipFile.CreateFromDirectory(path, PathOf("sample.zip"));   // folders there are archives laid open
        return PathOf("sample.zip");
    }

    [Theory]
    [InlineData("simplest-archive", 2)]
    [InlineData("multifile-psv", 6)]
    [InlineData("id-also-a-term", 2)]
    [InlineData("json-in-quotes", 1)]
    [InlineData("encoding-not-declared", 0)]
    [InlineData("taxa-with-occurrences.zip", 740)]   // its occurrences: the core are the names
    [InlineData("made/herbarium-complete.zip", 3)]
    [InlineData("made/duplicate-ids.zip", 3)]
    [InlineData("made/unknown-and-old-terms.zip", 3)]
    [InlineData("single-file/csv_quoted-unquoted_headers.csv", 3)]
    [InlineData("single-file/csv_unquoted.txt", 3)]
    [InlineData("single-file/empty_line.tab", 6)]
    public void What_is_valid_is_read_to_its_last_row(string name, int rows)
    {
        var tally = new TableTally();
        var table = Opened(Sample(name));

        Assert.Equal(rows, table.Rows(tally).Count());
        Assert.Equal((rows, 0), (tally.Read, tally.Refused));
    }

    [Theory]
    [InlineData("invalid/extension-location-missing",
        "meta.xml does not say in which file the extension Multimedia is.")]
    [InlineData("invalid/extension-missing", "meta.xml names the file media.txt, which is not in the archive.")]
    [InlineData("invalid/meta-only", "meta.xml names the file taxa.txt, which is not in the archive.")]
    [InlineData("made/not-well-formed-meta.zip",
        "meta.xml is not XML that can be read: something is wrong in its line 28.")]
    [InlineData("made/path-escape.zip",
        "The zip holds a file named ../outside.txt, which would lie outside of its folder. It is not opened: no honest "
        + "archive has one.")]
    public void What_is_not_is_refused_in_a_sentence(string name, string reason) =>
        Assert.Equal(reason, Refused(Sample(name)));

    [Fact]
    public void A_core_in_three_files_is_one_list_and_each_picture_stands_with_its_row()
    {
        var table = Opened(Sample("multifile-psv"));
        var rows = table.Rows().ToList();

        Assert.Equal(["scientificName", "id", "taxonRank", "Multimedia rows"], table.Headers);
        Assert.Equal(["1", "2", "6", "3", "5", "4"], rows.Select(row => row.Cells[1]));
        Assert.All(rows, row => Assert.Equal($"identifier: id{row.Cells[1]}; type: StillImage", row.Cells[3]));
        Assert.Equal([2, 3, 5, 6, 8, 9], rows.Select(row => row.Line));
        Assert.Contains(table.Notes, note => note.Reason == "taxa2.txt is lines 4 to 6 of this list.");
        Assert.Contains(table.Notes, note => note.Reason.StartsWith(
            "6 rows of media1.txt, media2.txt are kept", StringComparison.Ordinal));
    }

    [Fact]
    public void What_the_descriptor_says_of_every_row_stands_in_every_row_and_what_it_leaves_out_is_kept()
    {
        var table = Opened(Sample("id-also-a-term"));
        var first = table.Headers.Zip(table.Rows().First().Cells).ToDictionary(pair => pair.First, pair => pair.Second);

        Assert.Equal("10d1bde8870c424ba9065de6964a269d", first["occurrenceID"]);
        Assert.DoesNotContain("id", table.Headers);
        Assert.Equal("Austria", first["Column 4"]);
        Assert.Equal(("Plantae", "EPSG:3035", "707"),
            (first["kingdom"], first["geodeticDatum"], first["coordinateUncertaintyInMeters"]));
        Assert.Equal("-9999", first["NomenclaturalCode"]);   // the default is for rows that have nothing there
        Assert.Contains(table.Notes, note => note.Reason.StartsWith("eml.xml,", StringComparison.Ordinal));
        Assert.Contains(table.Notes, note => note.Reason.StartsWith("meta.xml names rights", StringComparison.Ordinal));
        Assert.Contains(table.Notes, note => note.Reason.Contains(" mean: 4, 7, 8, 9, 10, 11, 12."));
    }

    [Fact]
    public void Json_in_quotes_survives_to_the_letter()
    {
        var table = Opened(Sample("json-in-quotes"));
        var row = table.Headers.Zip(table.Rows().Single().Cells).ToDictionary(pair => pair.First, pair => pair.Second);

        Assert.StartsWith(
            "{\"chronostratigraphy\": \"Cretaceous, ", row["dynamicProperties"], StringComparison.Ordinal);
        Assert.Contains("\\\"fragments of bone\\\"", row["dynamicProperties"], StringComparison.Ordinal);
        Assert.Equal(("779", "Cambridge, Cambridge"), (row["id"], row["locality"]));
        Assert.Equal(4, row["Multimedia rows"].Split('\n').Length);
    }

    [Fact]
    public void Names_that_have_occurrences_beside_them_give_those_with_what_is_said_of_the_name()
    {
        var table = Opened(Sample("taxa-with-occurrences.zip"));
        var first = table.Headers.Zip(table.Rows().First().Cells).ToDictionary(pair => pair.First, pair => pair.Second);

        Assert.Equal(("980-Occurrence-1", "Agelena", "labyrinthica"),
            (first["OccurrenceID"], first["genus"], first["specificEpithet"]));
        Assert.Contains(
            "taxonID: 980-sp2; specificEpithet: labyrinthica", first["Taxon rows"], StringComparison.Ordinal);
        Assert.Equal("UTF-8 (marked)", table.Encoding);
        // Of the 356 names, and the one reference; no picture has a row.
        var kept = table.Notes.Select(note => note.Reason).Where(reason => reason.Contains(" of taxa.csv ")).ToList();
        Assert.Equal(356, kept.Sum(reason => int.Parse(reason.Split(' ')[0], CultureInfo.InvariantCulture)));
    }

    [Fact]
    public void A_herbariums_archive_keeps_its_partial_dates_its_marks_and_the_history_of_its_names()
    {
        var table = Opened(Sample("made/herbarium-complete.zip"));
        var rows = table.Rows()
            .Select(row => table.Headers.Zip(row.Cells).ToDictionary(pair => pair.First, pair => pair.Second)).ToList();

        Assert.Equal(["2025-06-14", "1931-05", "2025-06-14/2025-06-16"], rows.Select(row => row["eventDate"]));
        Assert.Equal(["231", "s.n.", "233"], rows.Select(row => row["recordNumber"]));
        Assert.Equal("\"The Narrows\", along wagon road", rows[1]["locality"]);
        Assert.Equal("Große Düne, café", rows[2]["locality"]);
        Assert.Equal(
            "identificationID: d1; identifiedBy: A. Exampleton; dateIdentified: 2025-06-14; scientificName: Artemisia "
            + "tridentata Nutt.; taxonRank: species\nidentificationID: d2; identifiedBy: I. Samplefield; "
            + "dateIdentified: 2025-11; identificationQualifier: cf.; scientificName: Artemisia tridentata subsp. "
            + "wyomingensis Beetle & A.M.Young; taxonRank: subspecies; identificationRemarks: leaf fluorescence "
            + "checked",
            rows[0]["Identification rows"]);
        Assert.Equal(2, rows[0]["Multimedia rows"].Split('\n').Length);
        Assert.Equal("", rows[1]["Identification rows"]);
    }

    [Fact]
    public void An_id_that_comes_twice_is_said_at_the_row_that_repeats_it()
    {
        var rows = Opened(Sample("made/duplicate-ids.zip")).Rows().ToList();

        Assert.Empty(rows[0].Problems);
        var problem = Assert.Single(rows[2].Problems);
        Assert.Equal((4, null), (problem.Line, problem.ColumnName));
        Assert.StartsWith("Line 2 has this id already.", problem.Reason, StringComparison.Ordinal);
        Assert.NotEqual(rows[0].Cells, rows[2].Cells);
    }

    [Fact]
    public void Terms_that_are_old_or_private_are_kept_and_said()
    {
        var table = Opened(Sample("made/unknown-and-old-terms.zip"));

        Assert.Contains("ScientificName", table.Headers);
        Assert.Contains("http://example.org/terms/shelf", table.Headers);
        Assert.Contains(table.Notes, note => note.Reason.StartsWith("ScientificName is not", StringComparison.Ordinal));
        Assert.Contains(table.Notes, note => note.Reason.StartsWith("http://example", StringComparison.Ordinal));
    }

    [Fact]
    public void A_descriptor_in_sixteen_bits_is_read()
    {
        var meta = ReferenceData.Require("standards", "dwca-samples", "metadata", "meta-utf16le.xml");
        using (var zip = ZipFile.Open(PathOf("list.zip"), ZipArchiveMode.Create))
        {
            zip.CreateEntryFromFile(meta, "meta.xml");
        }

        // It is understood: what is missing is what it names.
        Assert.Contains("which is not in the archive", Refused(PathOf("list.zip")), StringComparison.Ordinal);
    }
}
