using System.IO.Compression;

namespace Accession.Storage.Tables;

/// <summary>Looks at the first bytes of a file.</summary>
internal static class FileKinds
{
    private static readonly (byte[] Start, string What)[] Known =
    [
        ("%PDF-"u8.ToArray(), "a PDF"),
        ([0x89, 0x50, 0x4E, 0x47], "a picture (PNG)"),
        ([0xFF, 0xD8, 0xFF], "a picture (JPEG)"),
        ("GIF8"u8.ToArray(), "a picture (GIF)"),
        ("II*\0"u8.ToArray(), "a picture (TIFF)"),
        ("MM\0*"u8.ToArray(), "a picture (TIFF)"),
        ("BM"u8.ToArray(), "a picture (BMP)"),
        ([0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1], "an old .xls or .doc file, or a workbook with a password"),
        ("MZ"u8.ToArray(), "a program"),
        ([0x7F, 0x45, 0x4C, 0x46], "a program"),
        ([0x1F, 0x8B], "a packed file (gzip)"),
        ("Rar!"u8.ToArray(), "a packed file (RAR)"),
        ([0x37, 0x7A, 0xBC, 0xAF], "a packed file (7z)"),
        ("SQLite format 3"u8.ToArray(), "a database"),
        ("{\\rtf"u8.ToArray(), "a word processor's file (RTF)"),
        ("<?xml"u8.ToArray(), "an XML file"),
        ("<!DOCTYPE"u8.ToArray(), "a web page"),
        ("<html"u8.ToArray(), "a web page"),
    ];

    /// <summary>The kind of a file and, when it is not a table, what it looks like.</summary>
    public static (FileKind Kind, string What) Of(FileStream file, ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("PK"u8) && head.Length > 3 && head[2] < 8 && head[3] < 9)
        {
            return OfZip(file);
        }

        foreach (var (start, what) in Known)
        {
            // Two letters may begin a heading as well: those signatures only count with binary bytes behind them.
            if (head.StartsWith(start) && (start.Length > 2 || start[0] == 0x1F || head.Contains((byte)0)))
            {
                return (FileKind.Other, what);
            }
        }

        return IsBinary(head) ? (FileKind.Other, "a binary file") : (FileKind.Text, "text");
    }

    private static (FileKind, string) OfZip(FileStream file)
    {
        try
        {
            using var zip = new ZipArchive(file, ZipArchiveMode.Read, leaveOpen: true);
            bool Has(string name) => zip.GetEntry(name) is not null;
            return Has("xl/workbook.xml") ? (FileKind.Workbook, "a workbook")
                : Has("xl/workbook.bin") ? (FileKind.Other, "a binary workbook (.xlsb)")
                : Has("word/document.xml") ? (FileKind.Other, "a word processor's file (.docx)")
                : Has("content.xml") ? (FileKind.Other, "an OpenDocument file (.ods or .odt)")
                : (FileKind.Archive, "a packed file");
        }
        catch (InvalidDataException)
        {
            return (FileKind.Other, "a packed file or workbook that is damaged or was not sent to its end");
        }
    }

    /// <summary>Text has hardly any control characters; UTF-16 has zeros, but all on one side.</summary>
    private static bool IsBinary(ReadOnlySpan<byte> head)
    {
        if (TextEncoding.LooksLikeUtf16(head) is not null || head is [0xFF, 0xFE, ..] or [0xFE, 0xFF, ..])
        {
            return false;
        }

        var controls = 0;
        foreach (var b in head)
        {
            controls += b < 0x20 && b is not ((byte)'\t' or (byte)'\n' or (byte)'\r' or 0x0B or 0x0C or 0x1A) ? 1 : 0;
        }

        return controls > 4 && controls > head.Length / 20;
    }
}
