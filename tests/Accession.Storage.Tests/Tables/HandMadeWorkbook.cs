using System.Globalization;
using System.IO.Compression;
using System.Text;

namespace Accession.Tests.Tables;

/// <summary>
/// Writes the XML of a workbook by hand, for what no library writes on purpose: cached formulas, errors, exponents,
/// gaps of a million rows. Cell styles are numbered as <see cref="Formats"/> lists them.
/// </summary>
internal static class HandMadeWorkbook
{
    /// <summary>Style 0 is "General"; style n uses the n-th of these number formats.</summary>
    public static IReadOnlyList<string> Formats { get; } =
        ["yyyy\\-mm\\-dd", "mmm\\-yy", "d\\-mmm", "&quot;KB-&quot;00000", "yyyy", "d/m/yyyy h:mm", "h:mm"];

    /// <summary>Writes sheets, each a name, a state and the XML of its rows.</summary>
    public static string Write(string path, params (string Name, string State, string Rows)[] sheets)
    {
        using var zip = ZipFile.Open(path, ZipArchiveMode.Create);
        Frame(zip, sheets.Select(sheet => (sheet.Name, sheet.State)).ToList());
        for (var i = 0; i < sheets.Length; i++)
        {
            using var writer = Entry(zip, $"xl/worksheets/sheet{i + 1}.xml");
            writer.Write(SheetStart);
            writer.Write(sheets[i].Rows);
            writer.Write(SheetEnd);
        }

        return path;
    }

    /// <summary>Writes one sheet from rows that are made as they are written.</summary>
    public static string Stream(string path, IEnumerable<string> rows)
    {
        using var zip = ZipFile.Open(path, ZipArchiveMode.Create);
        Frame(zip, [("List", "visible")]);
        using var writer = Entry(zip, "xl/worksheets/sheet1.xml");
        writer.Write(SheetStart);
        foreach (var row in rows)
        {
            writer.Write(row);
        }

        writer.Write(SheetEnd);
        return path;
    }

    /// <summary>A row of texts.</summary>
    public static string Row(int number, params string[] cells)
    {
        var row = new StringBuilder().Append(CultureInfo.InvariantCulture, $"<row r=\"{number}\">");
        for (var i = 0; i < cells.Length; i++)
        {
            row.Append(CultureInfo.InvariantCulture,
                $"<c r=\"{(char)('A' + i)}{number}\" t=\"inlineStr\"><is><t>{cells[i]}</t></is></c>");
        }

        return row.Append("</row>").ToString();
    }

    private const string Ns = "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"";

    private const string Kinds = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    private const string SheetStart = $"<?xml version=\"1.0\"?><worksheet {Ns}><sheetData>";

    private const string SheetEnd = "</sheetData></worksheet>";

    private static StreamWriter Entry(ZipArchive zip, string name) => new(zip.CreateEntry(name).Open());

    private static void Frame(ZipArchive zip, List<(string Name, string State)> sheets)
    {
        string Each(Func<int, string> of) => string.Concat(Enumerable.Range(0, sheets.Count).Select(of));

        Write("[Content_Types].xml",
            "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">"
            + "<Default Extension=\"xml\" ContentType=\"application/xml\"/></Types>");
        Write("_rels/.rels",
            "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
            + $"<Relationship Id=\"r1\" Type=\"{Kinds}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>");
        Write("xl/_rels/workbook.xml.rels",
            "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
            + $"<Relationship Id=\"s\" Type=\"{Kinds}/styles\" Target=\"styles.xml\"/>"
            + Each(i =>
                $"<Relationship Id=\"r{i}\" Type=\"{Kinds}/worksheet\" Target=\"worksheets/sheet{i + 1}.xml\"/>")
            + "</Relationships>");
        Write("xl/workbook.xml",
            $"<workbook {Ns} xmlns:r=\"{Kinds}\"><sheets>"
            + Each(i =>
                $"<sheet name=\"{sheets[i].Name}\" sheetId=\"{i + 1}\" state=\"{sheets[i].State}\" r:id=\"r{i}\"/>")
            + "</sheets></workbook>");
        var numberFormats = Formats.Select((code, i) => $"<numFmt numFmtId=\"{170 + i}\" formatCode=\"{code}\"/>");
        var styles = Formats.Select((_, i) => $"<xf numFmtId=\"{170 + i}\" applyNumberFormat=\"1\"/>");
        Write("xl/styles.xml",
            $"<styleSheet {Ns}><numFmts>{string.Concat(numberFormats)}</numFmts>"
            + $"<cellXfs><xf numFmtId=\"0\"/>{string.Concat(styles)}</cellXfs></styleSheet>");

        void Write(string name, string content)
        {
            using var writer = Entry(zip, name);
            writer.Write(content);
        }
    }
}
