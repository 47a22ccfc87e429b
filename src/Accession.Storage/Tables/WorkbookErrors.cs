using System.Globalization;
using System.IO.Compression;
using System.Xml;

namespace Accession.Storage.Tables;

/// <summary>
/// The cells of a sheet in which a formula came to nothing. The workbook library hands them out as empty, which
/// would lose them without a word, so the sheet's XML is asked.
/// </summary>
internal static class WorkbookErrors
{
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    /// <summary>What each such cell shows, by row from 1 and column from 0.</summary>
    public static IReadOnlyDictionary<(int Line, int Column), string> Of(string path, string sheet)
    {
        var errors = new Dictionary<(int, int), string>();
        using var zip = ZipFile.OpenRead(path);
        if (PartOf(zip, sheet) is not { } part || !MentionsErrors(part))
        {
            return errors;
        }

        using var xml = XmlReader.Create(part.Open());
        while (xml.ReadToFollowing("c"))
        {
            if (xml.GetAttribute("t") == "e" && PlaceOf(xml.GetAttribute("r")) is { } place)
            {
                using var cell = xml.ReadSubtree();
                errors[place] = cell.ReadToFollowing("v") ? string.Intern(cell.ReadElementContentAsString()) : "#ERROR";
            }
        }

        return errors;
    }

    /// <summary>Hardly any list has errors, and looking for a few bytes is much faster than reading XML.</summary>
    private static bool MentionsErrors(ZipArchiveEntry part)
    {
        using var stream = part.Open();
        var buffer = new byte[1 << 16];
        var kept = 0;
        while (stream.Read(buffer, kept, buffer.Length - kept) is > 0 and var got)
        {
            var block = buffer.AsSpan(0, kept + got);
            if (block.IndexOf(" t=\"e\""u8) >= 0 || block.IndexOf(" t='e'"u8) >= 0)
            {
                return true;
            }

            kept = Math.Min(8, block.Length);
            block[^kept..].CopyTo(buffer);
        }

        return false;
    }

    private static ZipArchiveEntry? PartOf(ZipArchive zip, string sheet)
    {
        var id = Find(zip, "xl/workbook.xml", "sheet", xml =>
            xml.GetAttribute("name") == sheet ? xml.GetAttribute("id", Relations) : null);
        var target = Find(zip, "xl/_rels/workbook.xml.rels", "Relationship", xml =>
            xml.GetAttribute("Id") == id ? xml.GetAttribute("Target") : null);
        return target is null ? null : zip.GetEntry(target.StartsWith('/') ? target[1..] : "xl/" + target);
    }

    private static string? Find(ZipArchive zip, string part, string element, Func<XmlReader, string?> of)
    {
        using var xml = zip.GetEntry(part) is { } entry ? XmlReader.Create(entry.Open()) : null;
        while (xml?.Read() == true)
        {
            if (xml.NodeType == XmlNodeType.Element && xml.LocalName == element && of(xml) is { } found)
            {
                return found;
            }
        }

        return null;
    }

    /// <summary>Reads a cell's address, such as AB12.</summary>
    private static (int, int)? PlaceOf(string? address)
    {
        var (column, i) = (0, 0);
        for (; i < address?.Length && char.IsAsciiLetterUpper(address[i]) && i < 4; i++)
        {
            column = (column * 26) + address[i] - 'A' + 1;
        }

        var row = address.AsSpan(i);
        return column > 0 && int.TryParse(row, NumberStyles.None, CultureInfo.InvariantCulture, out var line)
            ? (line, column - 1)
            : null;
    }
}
