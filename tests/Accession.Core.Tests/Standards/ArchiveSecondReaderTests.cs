using System.ComponentModel;
using System.Diagnostics;
using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Accession.Core.Standards;
using Accession.Core.Standards.DarwinCore;
using Accession.Tests;

namespace Accession.Core.Tests.Standards;

public sealed class ArchiveSecondReaderTests
{
    private static readonly ArchiveFile[] Files = [OccurrenceColumns.File, IdentificationColumns.File];

    [Fact]
    public void A_stranger_reads_in_our_archive_what_we_wrote()
    {
        using var zip = TestArchive.Zip();
        var read = ArchiveSecondReader.Read(zip);
        Assert.Equal(Files.Select(file => file.RowType), read.Select(file => file.RowType));
        foreach (var (file, found) in Files.Zip(read))
        {
            Assert.Equal(TestArchive.Rows, found.Rows.Count);
            Assert.All(found.Rows.Index(), row =>
            {
                Assert.Equal($"urn:demo:{row.Index}", row.Item.Id);
                var terms = file.Columns.Where(column => column.Term is not null).ToList();
                Assert.Equal(terms.Count, row.Item.Values.Count);
                Assert.All(terms, column => Assert.Equal(
                    OneLine.Of(TestArchive.Text(row.Index, column)), row.Item.Values[column.Term!.Iri]));
            });
        }

        Assert.Equal("catalogNumber of 0", read[0].Rows[0]["catalogNumber"]);
        Assert.StartsWith("<?xml", ArchiveSecondReader.ReadText(zip, "eml.xml"));
    }

    [Fact]
    public void Another_language_reads_the_same()
    {
        var path = Path.Combine(Path.GetTempPath(), $"archive-{Guid.NewGuid():N}.zip");
        using var zip = TestArchive.Zip();
        try
        {
            File.WriteAllBytes(path, zip.ToArray());
            AssertSame(ArchiveSecondReader.Read(zip), ReadByPython(path));
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void Both_readers_agree_on_an_archive_that_others_made()
    {
        var path = ReferenceData.Require("standards", "dwca-samples", "made", "herbarium-complete.zip");
        using var zip = File.OpenRead(path);
        var read = ArchiveSecondReader.Read(zip);
        Assert.Equal([3, 3, 2], read.Select(file => file.Rows.Count));   // the figures of the collection of samples
        AssertSame(read, ReadByPython(path));
    }

    [Fact]
    public void An_archive_that_leads_outside_is_refused()
    {
        using var zip = File.OpenRead(ReferenceData.Require("standards", "dwca-samples", "made", "path-escape.zip"));
        Assert.Throws<InvalidDataException>(() => ArchiveSecondReader.Read(zip));
    }

    [Theory]
    [InlineData("../outside.txt")]
    [InlineData("/outside.txt")]
    [InlineData("C:outside.txt")]
    [InlineData("a\\..\\outside.txt")]
    [InlineData("meta.xml")]             // a second one: readers would not agree which counts
    public void An_entry_that_does_not_belong_is_refused(string name)
    {
        using var zip = TestArchive.Zip();
        using (var archive = new ZipArchive(zip, ZipArchiveMode.Update, leaveOpen: true))
        {
            archive.CreateEntry(name);
        }

        Assert.Throws<InvalidDataException>(() => ArchiveSecondReader.Read(zip));
    }

    [Fact]
    public void A_line_with_a_cell_too_many_is_noticed()
    {
        // What a writer that forgets the rule of the cell would bring about.
        using var zip = TestArchive.Zip();
        using (var archive = new ZipArchive(zip, ZipArchiveMode.Update, leaveOpen: true))
        {
            using var entry = archive.GetEntry(OccurrenceColumns.File.Name)!.Open();
            entry.Seek(0, SeekOrigin.End);
            entry.Write(Encoding.UTF8.GetBytes(string.Join('\t', Enumerable.Repeat("x", 99)) + "\n"));
        }

        Assert.Throws<InvalidDataException>(() => ArchiveSecondReader.Read(zip));
    }

    [Theory]
    [InlineData("a,b\n", "a/b")]
    [InlineData("\"a,\"\"b\n\",c\nd,", "a,\"b\n/c;d/")]
    [InlineData("a\n\nb", "a;b")]
    [InlineData("", "")]
    [InlineData("a\"b,c\n", "a\"b/c")]
    public void Separated_text_is_split_as_declared(string text, string expected) => Assert.Equal(
        expected, string.Join(';', ArchiveSecondReader.Split(text, ",", "\n", '"').Select(r => string.Join('/', r))));

    private static void AssertSame(IReadOnlyList<SecondFile> ours, JsonElement theirs)
    {
        Assert.Equal(ours.Count, theirs.GetArrayLength());
        foreach (var (file, other) in ours.Zip(theirs.EnumerateArray()))
        {
            Assert.Equal(file.RowType, other.GetProperty("rowType").GetString());
            Assert.Equal(file.Rows.Count, other.GetProperty("rows").GetArrayLength());
            foreach (var (row, otherRow) in file.Rows.Zip(other.GetProperty("rows").EnumerateArray()))
            {
                Assert.Equal(row.Id, otherRow.GetProperty("id").GetString());
                var values = otherRow.GetProperty("values").EnumerateObject()
                    .ToDictionary(value => value.Name, value => value.Value.GetString()!);
                Assert.Equal(row.Values.OrderBy(pair => pair.Key), values.OrderBy(pair => pair.Key));
            }
        }
    }

    private static JsonElement ReadByPython(string archive)
    {
        var script = Path.Combine(ReferenceData.CheckoutRoot(), "tests", "data", "second_reader.py");
        var start = new ProcessStartInfo("python3", [script, archive]) { RedirectStandardOutput = true };
        try
        {
            using var python = Process.Start(start)!;
            var output = python.StandardOutput.ReadToEnd();
            python.WaitForExit();
            Assert.Equal(0, python.ExitCode);
            return JsonDocument.Parse(output).RootElement;
        }
        catch (Win32Exception)
        {
            Assert.Skip("Needs python3.");
            throw;
        }
    }
}
