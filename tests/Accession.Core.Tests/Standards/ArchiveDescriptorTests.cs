using System.Text;
using Accession.Core.Standards.DarwinCore;
using Accession.Tests;

namespace Accession.Core.Tests.Standards;

public sealed class ArchiveDescriptorTests
{
    private static readonly ArchiveColumn Key = OccurrenceColumns.File.Columns[0];
    private static readonly ArchiveColumn Number =
        OccurrenceColumns.File.Columns.Single(column => column.Value == PublishedValue.CatalogNumber);

    private static PublishedSchema TextGuide() =>
        new(ReferenceData.Require("standards", "dwc", "xsd", "tdwg_dwc_text.xsd"));

    private static byte[] Written(ArchiveFile core, params IReadOnlyList<ArchiveFile> extensions)
    {
        using var stream = new MemoryStream();
        ArchiveDescriptor.Write(stream, core, extensions);
        return stream.ToArray();
    }

    [Fact]
    public void It_is_valid_by_the_published_schema()
    {
        Assert.Empty(TextGuide().Against(Written(OccurrenceColumns.File, IdentificationColumns.File)));
        Assert.Empty(TextGuide().Against(Written(OccurrenceColumns.File)));
    }

    [Theory]
    [InlineData("<core ", "<kernel ")]                                  // never a core
    [InlineData(" rowType=", " rowKind=")]
    [InlineData("<coreid index=\"0\" />", "")]
    [InlineData("index=\"0\"", "index=\"first\"")]
    [InlineData("http://rs.tdwg.org/dwc/text/", "http://example.org/")]  // a validator that finds no schema only warns
    public void The_schema_refuses_a_spoilt_one(string right, string wrong)
    {
        var text = Encoding.UTF8.GetString(Written(OccurrenceColumns.File, IdentificationColumns.File));
        Assert.Contains(right, text);
        var spoilt = text.Replace(right, wrong, StringComparison.Ordinal)
            .Replace("</core>", wrong == "<kernel " ? "</kernel>" : "</core>", StringComparison.Ordinal);
        Assert.NotEmpty(TextGuide().Against(Encoding.UTF8.GetBytes(spoilt)));
    }

    [Fact]
    public void It_says_what_a_reader_must_know()
    {
        var file = new ArchiveFile("http://rs.tdwg.org/dwc/terms/Occurrence", "occurrence.txt", [Key, Number]);
        const string format =
            """fieldsTerminatedBy="\t" linesTerminatedBy="\n" fieldsEnclosedBy="" ignoreHeaderLines="1" """;
        var expected = """
            <?xml version="1.0" encoding="utf-8"?>
            <archive metadata="eml.xml" xmlns="http://rs.tdwg.org/dwc/text/">
              <core encoding="UTF-8" FORMAT rowType="http://rs.tdwg.org/dwc/terms/Occurrence">
                <files>
                  <location>occurrence.txt</location>
                </files>
                <id index="0" />
                <field index="0" term="http://rs.tdwg.org/dwc/terms/occurrenceID" />
                <field index="1" term="http://rs.tdwg.org/dwc/terms/catalogNumber" />
              </core>
            </archive>
            """.Replace("FORMAT", format.TrimEnd(), StringComparison.Ordinal);
        Assert.Equal(Encoding.UTF8.GetBytes(expected.ReplaceLineEndings("\n")), Written(file));   // no mark, no CR
        Assert.Equal("occurrenceID\tcatalogNumber\n", file.HeadingLine);
        Assert.StartsWith("coreid\tidentificationID\t", IdentificationColumns.File.HeadingLine);
    }

    [Fact]
    public void Several_values_are_declared_where_there_may_be_several()
    {
        var text = Encoding.UTF8.GetString(Written(OccurrenceColumns.File));
        Assert.Contains("/recordedBy\" delimitedBy=\" | \"", text);
        Assert.DoesNotContain("/locality\" delimitedBy", text);
    }

    [Theory]
    [InlineData("")]
    [InlineData("../occurrence.txt")]
    [InlineData("a/b.txt")]
    [InlineData("a\\b.txt")]
    [InlineData("..")]
    [InlineData("C:x")]
    [InlineData("fünf.txt")]
    public void A_file_cannot_have_a_name_that_leads_elsewhere(string name) =>
        Assert.Throws<ArgumentException>(() => new ArchiveFile("x", name, [Key, Number]));

    [Fact]
    public void A_file_cannot_have_columns_that_mean_nothing_or_the_same()
    {
        var link = new ArchiveColumn(PublishedValue.OccurrenceId, null);
        Assert.Throws<ArgumentException>(() => new ArchiveFile("x", "x.txt", [Key]));
        Assert.Throws<ArgumentException>(() => new ArchiveFile("x", "x.txt", [Key, link]));
        Assert.Throws<ArgumentException>(() => new ArchiveFile("x", "x.txt", [Key, Number, Number]));
        Assert.Throws<ArgumentException>(() => new ArchiveFile("x", "x.txt", [Key, Key]));
    }

    [Fact]
    public void An_archive_cannot_begin_with_an_extension_or_name_a_file_twice()
    {
        Assert.Throws<ArgumentException>(() => Written(IdentificationColumns.File));
        Assert.Throws<ArgumentException>(() => Written(OccurrenceColumns.File, OccurrenceColumns.File));
    }
}
