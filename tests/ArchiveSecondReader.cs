using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace Accession.Tests;

/// <summary>A file of an archive as a stranger reads it.</summary>
/// <param name="RowType">The address of the class a row stands for.</param>
/// <param name="Rows">The rows in their order, without the heading.</param>
internal sealed record SecondFile(string RowType, IReadOnlyList<SecondRow> Rows);

/// <summary>A row of a file.</summary>
/// <param name="Id">The identifier of the core row that it is, or belongs to.</param>
/// <param name="Values">From the address of a term to the text of the cell.</param>
internal sealed record SecondRow(string Id, IReadOnlyDictionary<string, string> Values)
{
    /// <summary>The text under a term, by its local name, such as catalogNumber.</summary>
    public string this[string localName] =>
        Values.Single(pair => pair.Key.EndsWith("/" + localName, StringComparison.Ordinal)).Value;
}

/// <summary>
/// Reads a Darwin Core archive by the published text guide and by nothing of ours: what it finds is what an aggregator
/// would find. It is strict, because it is a test: whatever is doubtful is an <see cref="InvalidDataException"/>.
/// </summary>
internal static class ArchiveSecondReader
{
    private static readonly XNamespace Text = "http://rs.tdwg.org/dwc/text/";

    /// <summary>The core first, then the extensions in the order of the descriptor.</summary>
    public static IReadOnlyList<SecondFile> Read(Stream zip)
    {
        using var archive = new ZipArchive(zip, ZipArchiveMode.Read, leaveOpen: true);
        RefuseForeignPaths(archive);
        var root = Descriptor(archive).Root!;
        if (root.Name != Text + "archive")
        {
            throw new InvalidDataException($"The descriptor begins with {root.Name}.");
        }

        var core = root.Elements(Text + "core").Single();
        return
        [
            ReadFile(archive, core, "id"),
            .. root.Elements(Text + "extension").Select(extension => ReadFile(archive, extension, "coreid")),
        ];
    }

    /// <summary>The text of an entry of the archive, such as eml.xml.</summary>
    public static string ReadText(Stream zip, string name)
    {
        using var archive = new ZipArchive(zip, ZipArchiveMode.Read, leaveOpen: true);
        return Decode(archive, name);
    }

    /// <summary>Records of separated text; a quote is doubled within quotes. Empty records are left out.</summary>
    public static IEnumerable<IReadOnlyList<string>> Split(string text, string separator, string lineEnd, char? quote)
    {
        List<string> record = [];
        var cell = new StringBuilder();
        var isQuoted = false;
        for (var i = 0; i < text.Length;)
        {
            if (text[i] == quote && isQuoted && i + 1 < text.Length && text[i + 1] == quote)
            {
                cell.Append(text[i]);
                i += 2;
            }
            else if (text[i] == quote && (isQuoted || cell.Length == 0))
            {
                isQuoted = !isQuoted;
                i++;
            }
            else if (!isQuoted && StandsAt(text, i, separator))
            {
                record.Add(Take(cell));
                i += separator.Length;
            }
            else if (!isQuoted && StandsAt(text, i, lineEnd))
            {
                record.Add(Take(cell));
                if (record is not [""])
                {
                    yield return record;
                }

                record = [];
                i += lineEnd.Length;
            }
            else
            {
                cell.Append(text[i++]);
            }
        }

        if (record.Count > 0 || cell.Length > 0)
        {
            yield return [.. record, Take(cell)];
        }
    }

    private static SecondFile ReadFile(ZipArchive archive, XElement file, string identifier)
    {
        var separator = Declared(file, "fieldsTerminatedBy", ",");
        var lineEnd = Declared(file, "linesTerminatedBy", "\n");
        var quote = Declared(file, "fieldsEnclosedBy", "\"");
        var headings = int.Parse(Declared(file, "ignoreHeaderLines", "0"), CultureInfo.InvariantCulture);
        var id = Index(file.Elements(Text + identifier).Single())!.Value;
        var fields = file.Elements(Text + "field")
            .Select(field => (
                Term: field.Attribute("term")!.Value, Index: Index(field), field.Attribute("default")?.Value))
            .ToList();
        if (!Declared(file, "encoding", "UTF-8").Equals("UTF-8", StringComparison.OrdinalIgnoreCase))
        {
            throw new InvalidDataException("Only UTF-8 is read here.");
        }

        List<SecondRow> rows = [];
        foreach (var location in file.Elements(Text + "files").Elements(Text + "location"))
        {
            var text = Decode(archive, location.Value);
            var lines = Split(text, separator, lineEnd, quote is "" ? null : quote[0]).ToList();
            if (lines.Select(line => line.Count).Distinct().Count() > 1)
            {
                throw new InvalidDataException($"The lines of {location.Value} differ in their number of cells.");
            }

            rows.AddRange(lines.Skip(headings).Select(cells => new SecondRow(cells[id], fields.ToDictionary(
                field => field.Term, field => field.Index is { } index ? cells[index] : field.Value ?? ""))));
        }

        return new(file.Attribute("rowType")!.Value, rows);
    }

    private static void RefuseForeignPaths(ZipArchive archive)
    {
        foreach (var name in archive.Entries.Select(entry => entry.FullName))
        {
            if (name.StartsWith('/') || name.IndexOfAny(['\\', ':']) >= 0 || name.Split('/').Contains(".."))
            {
                throw new InvalidDataException($"The entry {name} leads out of the archive.");
            }
        }

        if (archive.Entries.GroupBy(entry => entry.FullName).Any(same => same.Count() > 1))
        {
            throw new InvalidDataException("Two entries of the archive have the same name.");
        }
    }

    private static XDocument Descriptor(ZipArchive archive)
    {
        using var stream = Entry(archive, "meta.xml").Open();
        var settings = new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null };
        using var reader = XmlReader.Create(stream, settings);
        return XDocument.Load(reader);
    }

    private static string Decode(ZipArchive archive, string name)
    {
        using var stream = Entry(archive, name).Open();
        var strict = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);
        using var reader = new StreamReader(stream, strict, detectEncodingFromByteOrderMarks: true);
        return reader.ReadToEnd();
    }

    private static ZipArchiveEntry Entry(ZipArchive archive, string name) =>
        archive.GetEntry(name) ?? throw new InvalidDataException($"The archive has no {name}.");

    private static string Declared(XElement file, string attribute, string otherwise) =>
        (file.Attribute(attribute)?.Value ?? otherwise).Replace(@"\t", "\t").Replace(@"\r", "\r").Replace(@"\n", "\n");

    private static int? Index(XElement field) =>
        field.Attribute("index") is { } index ? int.Parse(index.Value, CultureInfo.InvariantCulture) : null;

    private static bool StandsAt(string text, int at, string what) =>
        string.CompareOrdinal(text, at, what, 0, what.Length) == 0;

    private static string Take(StringBuilder cell)
    {
        var text = cell.ToString();
        cell.Clear();
        return text;
    }
}
