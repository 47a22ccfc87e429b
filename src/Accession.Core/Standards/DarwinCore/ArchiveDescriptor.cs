using System.Globalization;
using System.Text;
using System.Xml;

namespace Accession.Core.Standards.DarwinCore;

/// <summary>
/// Writes <c>meta.xml</c>, which tells a reader what the files of an archive are and what their columns mean, by the
/// Darwin Core text guide (TDWG, http://rs.tdwg.org/dwc/text/).
/// </summary>
public static class ArchiveDescriptor
{
    /// <summary>The name of the descriptor in the archive, fixed by the text guide.</summary>
    public const string FileName = "meta.xml";

    private const string TextGuide = "http://rs.tdwg.org/dwc/text/";

    /// <summary>Writes the descriptor.</summary>
    /// <param name="stream">Where to; it is left open.</param>
    /// <param name="core">The file with one line for each specimen.</param>
    /// <param name="extensions">Files with any number of lines for each line of the core.</param>
    /// <exception cref="ArgumentException">The core's first column has no term, or two files have one name.</exception>
    public static void Write(Stream stream, ArchiveFile core, params IReadOnlyList<ArchiveFile> extensions)
    {
        if (core.Columns[0].Term is null)
        {
            throw new ArgumentException("The identifier of the core is a column with a term.", nameof(core));
        }

        if (extensions.Append(core).DistinctBy(file => file.Name).Count() != extensions.Count + 1)
        {
            throw new ArgumentException("Two files of an archive have the same name.", nameof(extensions));
        }

        var settings = new XmlWriterSettings
        {
            Encoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false),
            Indent = true,
            NewLineChars = "\n",
        };
        using var xml = XmlWriter.Create(stream, settings);
        xml.WriteStartElement("archive", TextGuide);
        xml.WriteAttributeString("metadata", Eml.EmlDocument.FileName);
        WriteFile(xml, core, "core", "id");
        foreach (var extension in extensions)
        {
            WriteFile(xml, extension, "extension", "coreid");
        }

        xml.WriteEndElement();
    }

    private static void WriteFile(XmlWriter xml, ArchiveFile file, string element, string identifier)
    {
        xml.WriteStartElement(element, TextGuide);
        xml.WriteAttributeString("encoding", "UTF-8");
        xml.WriteAttributeString("fieldsTerminatedBy", @"\t");   // the guide wants the two characters, not a tab
        xml.WriteAttributeString("linesTerminatedBy", @"\n");
        xml.WriteAttributeString("fieldsEnclosedBy", "");   // left out, it would mean quotation marks
        xml.WriteAttributeString("ignoreHeaderLines", "1");
        xml.WriteAttributeString("rowType", file.RowType);

        xml.WriteStartElement("files", TextGuide);
        xml.WriteElementString("location", TextGuide, file.Name);
        xml.WriteEndElement();

        xml.WriteStartElement(identifier, TextGuide);
        xml.WriteAttributeString("index", "0");
        xml.WriteEndElement();

        for (var index = 0; index < file.Columns.Count; index++)
        {
            if (file.Columns[index].Term is { } term)
            {
                WriteField(xml, index, term);
            }
        }

        xml.WriteEndElement();
    }

    private static void WriteField(XmlWriter xml, int index, Term term)
    {
        xml.WriteStartElement("field", TextGuide);
        xml.WriteAttributeString("index", index.ToString(CultureInfo.InvariantCulture));
        xml.WriteAttributeString("term", term.Iri);
        if (term.IsList)
        {
            xml.WriteAttributeString("delimitedBy", ArchiveLine.ListSeparator);
        }

        xml.WriteEndElement();
    }
}
