using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace Accession.Storage.Tables.Archives;

/// <summary>
/// Reads the descriptor of an archive by the Darwin Core text guide (http://rs.tdwg.org/dwc/text/). It asks for
/// nothing outside the text it is given: no document type, no entity, no schema.
/// </summary>
internal static class MetaReader
{
    private const int MostColumns = 5_000;
    private const int MostLinesAbove = 1_000;

    /// <summary>What a descriptor says.</summary>
    /// <param name="Metadata">The document about the data set that it names; null when it names none.</param>
    public sealed record Meta(ArchiveTable Core, IReadOnlyList<ArchiveTable> Extensions, string? Metadata);

    /// <summary>Reads a descriptor.</summary>
    /// <exception cref="ArchiveRefusedException">It is not XML, or does not say what it must.</exception>
    public static Meta Read(string text)
    {
        var root = Parse(text).Root!;
        if (root.Name.LocalName != "archive")
        {
            throw new ArchiveRefusedException(
                $"meta.xml does not describe an archive: it holds <{Cut(root.Name.LocalName)}> where <archive> "
                + "belongs.");
        }

        var cores = Children(root, "core").ToList();
        return cores is [var core]
            ? new(
                TableOf(core, "id", isCore: true),
                [.. Children(root, "extension").Select(extension => TableOf(extension, "coreid", isCore: false))],
                Trimmed(root, "metadata"))
            : throw new ArchiveRefusedException(cores is []
                ? "meta.xml names no core: nothing says which file holds the rows."
                : "meta.xml names more than one core; an archive has one.");
    }

    private static XDocument Parse(string text)
    {
        try
        {
            using var xml = XmlReader.Create(new StringReader(text), new XmlReaderSettings
            {
                DtdProcessing = DtdProcessing.Prohibit,
                XmlResolver = null,
                IgnoreComments = true,
                IgnoreProcessingInstructions = true,
            });
            return XDocument.Load(xml);
        }
        catch (XmlException wrong)
        {
            throw new ArchiveRefusedException(text.Contains("<!DOCTYPE", StringComparison.Ordinal)
                ? "meta.xml declares a document type or entities, which can reach outside of the archive: it is not "
                    + "read. Ask the sender for a meta.xml without them."
                : $"meta.xml is not XML that can be read: something is wrong in its line {wrong.LineNumber}.");
        }
    }

    private static ArchiveTable TableOf(XElement element, string keyName, bool isCore)
    {
        var what = isCore ? "the core" : $"the extension {ArchiveField.LastPart(Trimmed(element, "rowType") ?? "")}";
        var locations = Children(element, "files").SelectMany(files => Children(files, "location"))
            .Select(location => location.Value.Trim()).Where(location => location.Length > 0).ToList();
        if (locations is [])
        {
            throw new ArchiveRefusedException($"meta.xml does not say in which file {what} is.");
        }

        if (locations.Distinct(StringComparer.Ordinal).Count() < locations.Count)
        {
            throw new ArchiveRefusedException($"meta.xml names the same file twice for {what}.");
        }

        var keys = Children(element, keyName).ToList();
        var key = keys is [var only] ? IndexOf(only, what) : null;
        if (!isCore && key is null)
        {
            throw new ArchiveRefusedException(
                $"meta.xml does not say which column of {locations[0]} names the row of the core (coreid).");
        }

        var fields = Children(element, "field").Select(field => FieldOf(field, what)).ToList();
        return fields is []
            ? throw new ArchiveRefusedException($"meta.xml does not say what the columns of {locations[0]} mean.")
            : new(
                Trimmed(element, "rowType") ?? "", FormatOf(element, what), Trimmed(element, "encoding"),
                Trimmed(element, "dateFormat"), locations, key, fields);
    }

    private static ArchiveField FieldOf(XElement field, string what) => Trimmed(field, "term") is { } term
        ? new(IndexOf(field, what), term, Trimmed(field, "default"))
        : throw new ArchiveRefusedException($"A field of {what} in meta.xml has no term.");

    private static int? IndexOf(XElement element, string what)
    {
        if (element.Attribute("index") is not { } index)
        {
            return null;
        }

        return int.TryParse(index.Value.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var column)
            && column < MostColumns
            ? column
            : throw new ArchiveRefusedException(
                $"meta.xml counts a column of {what} as \"{Cut(index.Value)}\"; columns are counted from 0.");
    }

    private static DelimitedFormat FormatOf(XElement element, string what)
    {
        var plain = new DelimitedFormat();
        var mark = Unescaped(element, "fieldsEnclosedBy");
        var lines = Unescaped(element, "linesTerminatedBy") is { Length: > 0 } written ? written : plain.BetweenLines;
        // XML makes a space of a real tab in an attribute, and nobody separates cells by spaces.
        var cells = Unescaped(element, "fieldsTerminatedBy") is { } between
            ? between == " " ? "\t" : between
            : plain.BetweenCells;
        if (mark?.Length > 1)
        {
            throw new ArchiveRefusedException(
                $"meta.xml encloses cells of {what} by \"{Cut(mark)}\"; that must be a single character.");
        }

        if (cells == lines || (mark is { Length: 1 } && (cells.Contains(mark[0]) || lines.Contains(mark[0]))))
        {
            throw new ArchiveRefusedException(
                $"meta.xml uses one character for two things in {what}: cells, lines and marks cannot be told apart.");
        }

        var above = Trimmed(element, "ignoreHeaderLines") ?? "0";
        return int.TryParse(above, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            && count <= MostLinesAbove
            ? new(cells, lines, mark is null ? plain.Mark : mark.Length == 0 ? null : mark[0], count)
            : throw new ArchiveRefusedException(
                $"meta.xml says that \"{Cut(above)}\" lines stand above the rows of {what}; a small number belongs "
                + "there.");
    }

    /// <summary>The guide writes a tab as the two characters \t; a real one is understood as well.</summary>
    private static string? Unescaped(XElement element, string name)
    {
        if (element.Attribute(name)?.Value is not { } text)
        {
            return null;
        }

        var plain = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            var escaped = text[i] == '\\' && i + 1 < text.Length ? Escaped(text[i + 1]) : null;
            plain.Append(escaped ?? text[i]);
            i += escaped is null ? 0 : 1;
        }

        return plain.ToString();
    }

    private static char? Escaped(char c) => c switch
    {
        't' => '\t',
        'n' => '\n',
        'r' => '\r',
        'f' => '\f',
        '\\' or '"' or '\'' => c,
        _ => null,
    };

    private static IEnumerable<XElement> Children(XElement element, string name) =>
        element.Elements().Where(child => child.Name.LocalName == name);

    private static string? Trimmed(XElement element, string name) =>
        element.Attribute(name)?.Value.Trim() is { Length: > 0 } text ? text : null;

    private static string Cut(string text) => text.Length <= 60 ? text : text[..60] + "…";
}
