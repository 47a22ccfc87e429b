using System.IO.Compression;
using System.Text;
using Accession.Storage.Tables;

namespace Accession.Tests.Tables;

/// <summary>Archives that are broken or meant to do harm: each is refused in one sentence.</summary>
public sealed class HostileArchiveTests : TableTests
{
    private const string Meta =
        """
        <archive xmlns="http://rs.tdwg.org/dwc/text/">
          <core rowType="http://rs.tdwg.org/dwc/terms/Occurrence" fieldsTerminatedBy="\t">
            <files><location>occurrence.txt</location></files><id index="0"/>
            <field index="1" term="http://rs.tdwg.org/dwc/terms/recordedBy"/>
          </core>
        </archive>
        """;

    private string Archive(string meta, params string[] names)
    {
        File.Delete(PathOf("list.zip"));
        using var zip = ZipFile.Open(PathOf("list.zip"), ZipArchiveMode.Create);
        foreach (var (name, text) in names.Select(name => (name, "1\tOrm\n")).Prepend(("meta.xml", meta)))
        {
            using var entry = zip.CreateEntry(name).Open();
            entry.Write(Encoding.UTF8.GetBytes(text));
        }

        return PathOf("list.zip");
    }

    [Theory]
    [InlineData("../occurrence.txt")]
    [InlineData("a/../../occurrence.txt")]
    [InlineData("%2e%2e/occurrence.txt")]
    [InlineData("/etc/passwd")]
    [InlineData("..\\occurrence.txt")]
    [InlineData("C:\\occurrence.txt")]
    [InlineData("file:///etc/passwd")]
    [InlineData("https://example.org/occurrence.txt")]
    public void A_descriptor_that_points_outside_is_refused(string location) => Assert.Equal(
        $"meta.xml points outside of the archive: {location}. Only files in the archive are read.",
        Refused(Archive(Meta.Replace("occurrence.txt", location, StringComparison.Ordinal), "occurrence.txt")));

    [Theory]
    [InlineData("../x.txt")]
    [InlineData("/x.txt")]
    [InlineData("a/../../x.txt")]
    [InlineData("..\\x.txt")]
    [InlineData("C:/x.txt")]
    public void A_file_that_would_lie_outside_is_refused_with_the_archive(string name) => Assert.Contains(
        "which would lie outside of its folder", Refused(Archive(Meta, "occurrence.txt", name)),
        StringComparison.Ordinal);

    [Theory]
    [InlineData("""<!DOCTYPE archive [<!ENTITY x SYSTEM "file:///etc/passwd">]>""")]
    [InlineData("""<!DOCTYPE archive SYSTEM "http://example.org/a.dtd">""")]
    [InlineData("""<!DOCTYPE archive [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>""")]
    public void Document_types_and_entities_are_refused(string declaration) => Assert.StartsWith(
        "meta.xml declares a document type or entities", Refused(Archive(declaration + Meta, "occurrence.txt")),
        StringComparison.Ordinal);

    [Theory]
    [InlineData("<html/>", "it holds <html> where <archive> belongs")]
    [InlineData("<archive/>", "meta.xml names no core")]
    [InlineData("", "meta.xml is not XML that can be read")]
    [InlineData("<archive><core><files><location>occurrence.txt</location></files><id index='-1'/></core></archive>",
        "counts a column of the core as \"-1\"")]
    [InlineData("<archive><core><files><location>occurrence.txt</location></files><id index='0'/></core></archive>",
        "does not say what the columns of occurrence.txt mean")]
    [InlineData("<archive><core ignoreHeaderLines='all'><files><location>occurrence.txt</location></files>"
        + "<field index='0' term='x'/></core></archive>", "says that \"all\" lines stand above the rows")]
    [InlineData("<archive><core fieldsEnclosedBy=','><files><location>occurrence.txt</location></files>"
        + "<field index='0' term='x'/></core></archive>", "uses one character for two things")]
    public void A_descriptor_that_says_too_little_or_nonsense_is_refused(string meta, string reason) =>
        Assert.Contains(reason, Refused(Archive(meta, "occurrence.txt")), StringComparison.Ordinal);

    [Fact]
    public void An_extension_without_a_way_to_its_rows_is_refused() => Assert.Contains(
        "does not say which column of names.txt names the row of the core",
        Refused(Archive(
            Meta.Replace(
                "</archive>",
                "<extension><files><location>names.txt</location></files><field index='0' term='x'/></extension>"
                + "</archive>",
                StringComparison.Ordinal),
            "occurrence.txt", "names.txt")),
        StringComparison.Ordinal);

    [Fact]
    public void An_extension_that_joins_by_a_column_that_is_not_there_is_told_row_by_row()
    {
        var table = Opened(Archive(
            Meta.Replace(
                "</archive>",
                "<extension fieldsTerminatedBy='\\t'><files><location>names.txt</location></files><coreid index='8'/>"
                + "<field index='1' term='x'/></extension></archive>",
                StringComparison.Ordinal),
            "occurrence.txt", "names.txt"));

        Assert.Single(table.Rows());
        Assert.Contains(table.Notes, note => note.Reason
            == "meta.xml says that column 9 of names.txt joins its rows to others; there are 2.");
        Assert.Contains(table.Notes, note => note.Reason.StartsWith(
            "In names.txt: the row does not say", StringComparison.Ordinal));
    }

    [Fact]
    public void Two_files_of_one_name_are_refused() => Assert.Equal(
        "The zip holds two files named occurrence.txt: nobody can say which of them is meant.",
        Refused(Archive(Meta, "occurrence.txt", "occurrence.txt")));

    [Fact]
    public void A_file_with_a_password_is_refused()
    {
        var bytes = File.ReadAllBytes(Archive(Meta, "occurrence.txt"));
        // Bit 0 of the general purpose flags, at 8 in the record of the directory (APPNOTE.TXT of PKWARE, 4.3.12).
        for (var i = 0; i + 4 < bytes.Length; i++)
        {
            if (bytes.AsSpan(i, 4).SequenceEqual("PK\u0001\u0002"u8))
            {
                bytes[i + 8] |= 1;
            }
        }

        Assert.Contains("has a password", Refused(Bytes(bytes, "secret.zip")), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_was_damaged_on_its_way_is_refused()
    {
        File.Delete(PathOf("list.zip"));
        using (var zip = ZipFile.Open(PathOf("list.zip"), ZipArchiveMode.Create))
        {
            (string, string)[] files = [("meta.xml", Meta), ("occurrence.txt", "1\tOrm\n")];
            foreach (var (name, text) in files)
            {
                using var entry = zip.CreateEntry(name, CompressionLevel.NoCompression).Open();
                entry.Write(Encoding.UTF8.GetBytes(text));
            }
        }

        var bytes = File.ReadAllBytes(PathOf("list.zip"));
        bytes[bytes.AsSpan().IndexOf("1\tOrm"u8)] = (byte)'2';

        Assert.StartsWith(
            "occurrence.txt was damaged on its way", Refused(Bytes(bytes, "damaged.zip")), StringComparison.Ordinal);
        Assert.Contains(
            "damaged or was not sent to its end", Refused(Bytes(bytes[..^30], "cut.zip")), StringComparison.Ordinal);
    }

    [Fact]
    public void A_bomb_is_stopped_by_what_comes_out_of_it_not_by_what_it_says()
    {
        var meta = Archive(Meta, "occurrence.txt");
        File.Delete(meta);
        using (var zip = ZipFile.Open(meta, ZipArchiveMode.Create))
        {
            using (var entry = zip.CreateEntry("meta.xml").Open())
            {
                entry.Write(Encoding.UTF8.GetBytes(Meta));
            }

            using var rows = zip.CreateEntry("occurrence.txt").Open();
            var zeros = new byte[1 << 20];
            for (var i = 0; i < 64; i++)
            {
                rows.Write(zeros);
            }
        }

        Assert.InRange(new FileInfo(meta).Length, 1, 100_000);
        Assert.Equal(
            "occurrence.txt unpacks to more than 200 times what was sent, as no table of rows does. It is not read "
            + "further.",
            Refused(meta));
        Assert.StartsWith(
            "occurrence.txt unpacks to more than 4 MB",
            Refused(meta, new TableLimits(MaximumUnpackedBytes: 4_000_000)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_hundred_thousand_rows_with_a_history_each_are_read_without_holding_them()
    {
        File.Delete(PathOf("long.zip"));
        using (var zip = ZipFile.Open(PathOf("long.zip"), ZipArchiveMode.Create))
        {
            Write(zip, "meta.xml", writer => writer.Write(Meta.Replace(
                "</archive>",
                """
                <extension rowType="http://rs.tdwg.org/dwc/terms/Identification" fieldsTerminatedBy="\t">
                <files><location>names.txt</location></files><coreid index="0"/>
                <field index="1" term="http://rs.tdwg.org/dwc/terms/scientificName"/></extension></archive>
                """,
                StringComparison.Ordinal)));
            Write(zip, "occurrence.txt", writer => Times(i => writer.Write($"{i}\tOrm, who went up the ridge {i}\n")));
            Write(zip, "names.txt", writer => Times(i => writer.Write($"{99_999 - i}\tCarex alta of {99_999 - i}\n")));
        }

        var table = Opened(PathOf("long.zip"));
        var before = GC.GetTotalMemory(forceFullCollection: true);
        long most = 0, count = 0;
        foreach (var row in table.Rows())
        {
            Assert.Equal($"scientificName: Carex alta of {row.Cells[0]}", row.Cells[2]);
            if (++count % 20_000 == 0)
            {
                most = Math.Max(most, GC.GetTotalMemory(forceFullCollection: true) - before);
            }
        }

        Assert.Equal(100_000, count);
        // Where each row begins and which ids came is held: some 40 bytes a row, and room for other tests' memory.
        Assert.InRange(most, long.MinValue, 24 << 20);
    }

    private static void Write(ZipArchive zip, string name, Action<TextWriter> write)
    {
        using var writer = new StreamWriter(zip.CreateEntry(name).Open());
        write(writer);
    }

    private static void Times(Action<int> write)
    {
        for (var i = 0; i < 100_000; i++)
        {
            write(i);
        }
    }
}
