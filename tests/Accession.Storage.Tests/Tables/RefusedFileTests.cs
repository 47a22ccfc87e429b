using System.IO.Compression;
using Accession.Core.Outcomes;
using Accession.Storage.Tables;

namespace Accession.Tests.Tables;

public sealed class RefusedFileTests : TableTests
{
    public static TheoryData<byte[], string> NotTables => new()
    {
        { "%PDF-1.7\n%âãÏÓ\n1 0 obj"u8.ToArray(), "a PDF" },
        { [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, 0, 0], "a picture (PNG)" },
        { [0xFF, 0xD8, 0xFF, 0xE0, 0, 16], "a picture (JPEG)" },
        { [.. "MZ"u8, 0x90, 0, 3, 0, 0, 0], "a program" },
        { [0x7F, .. "ELF"u8, 2, 1, 1, 0], "a program" },
        { [0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1, 0, 0],
            "an old .xls or .doc file, or a workbook with a password" },
        { "<!DOCTYPE html><html>"u8.ToArray(), "a web page" },
        { [.. "PK"u8, 3, 4, 1, 2, 3, 4], "a packed file or workbook that is damaged or was not sent to its end" },
        { [1, 2, 3, 4, 5, 6, 7, 8, 0, 0, 200, 201], "a binary file" },
    };

    [Theory]
    [MemberData(nameof(NotTables))]
    public void What_is_no_table_is_refused_with_what_it_looks_like(byte[] bytes, string what)
    {
        // The name says CSV: only the content counts.
        Assert.Equal(
            $"This is not a table: it looks like {what}. Save the list as CSV or XLSX and send that.",
            Refused(Bytes(bytes)));
    }

    [Theory]
    [InlineData("word/document.xml", "a word processor's file (.docx)")]
    [InlineData("content.xml", "an OpenDocument file (.ods or .odt)")]
    [InlineData("meta.xml", "meta.xml is not XML that can be read")]
    [InlineData("xl/workbook.bin", "a binary workbook (.xlsb)")]
    [InlineData("readme.txt", "a packed file (zip)")]
    public void Other_packed_files_are_told_apart(string entry, string what)
    {
        using (var zip = ZipFile.Open(PathOf("list.xlsx"), ZipArchiveMode.Create))
        {
            zip.CreateEntry(entry);
        }

        Assert.Contains(what, Refused(PathOf("list.xlsx")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "The file is empty: it has no bytes in it.")]
    [InlineData(" \r\n\r\n\t\n", "There is nothing in this file.")]
    [InlineData("Collector,Number,Date\n", "There are headings in line 1 and no row beneath them.")]
    [InlineData("Collector,Number,Date\n\n,,\n", "There are headings in line 1 and no row beneath them.")]
    [InlineData("Dear curator\nhere are my plants\nyours\n",
        "This is not a table: no columns were found, separated by commas, semicolons or tabs.")]
    [InlineData("Date,Number,date,Place,Number\n1,2,3,4,5\n",
        "The heading \"Date\" stands in line 1 more than once (columns 1 and 3). Rename one and send the list again. "
        + "The heading \"Number\" stands in line 1 more than once (columns 2 and 5). "
        + "Rename one and send the list again.")]
    public void A_list_without_a_body_is_refused(string text, string reason) =>
        Assert.Equal(reason, Refused(Text(text)));

    [Fact]
    public void A_byte_order_mark_alone_is_an_empty_file() =>
        Assert.Equal("There is nothing in this file.", Refused(Bytes([0xEF, 0xBB, 0xBF])));

    [Fact]
    public void Five_thousand_columns_are_refused()
    {
        var text = string.Join(",", Enumerable.Range(1, 5_000).Select(i => $"c{i}"));

        Assert.StartsWith(
            "Line 1 has 5,000 columns; a list may have 500.",
            Refused(Text($"{text}\n{text}\n")),
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_of_two_gigabytes_is_refused_before_it_is_read()
    {
        using (var file = new FileStream(PathOf("huge.csv"), FileMode.Create))
        {
            file.SetLength(2L << 30);   // sparse: no such bytes are written
        }

        Assert.Equal(
            "The file has 2,147 MB; lists of up to 524 MB are read. Divide it and send the parts.",
            Refused(PathOf("huge.csv")));
    }

    [Fact]
    public void A_file_that_is_not_there_is_not_found() =>
        Assert.Equal(RefusalKind.NotFound, TableReader.Open(PathOf("none.csv")).Refusals.Single().Kind);
}
