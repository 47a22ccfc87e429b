using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text;
using System.Xml;

namespace Accession.Core.Standards.Eml;

/// <summary>
/// Writes <c>eml.xml</c>, the description of a data set: valid by the GBIF metadata profile 1.3 and by the whole
/// Ecological Metadata Language 2.2.0 (Jones et al. 2019, doi 10.5063/F11834T2), which differ in what they permit.
/// </summary>
/// <remarks>
/// Every text goes by the rule of <see cref="OneLine"/>; a character that XML 1.0 cannot carry at all becomes U+FFFD,
/// so no description can make the document unreadable.
/// </remarks>
public static class EmlDocument
{
    /// <summary>The name of the document in an archive; <c>meta.xml</c> refers to it.</summary>
    public const string FileName = "eml.xml";

    private const string Namespace = "https://eml.ecoinformatics.org/eml-2.2.0";

    private const string SubtypeVocabulary =
        "GBIF Dataset Subtype Vocabulary: http://rs.gbif.org/vocabulary/gbif/dataset_subtype.xml";

    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where to; it is left open.</param>
    /// <param name="dataset">What to say.</param>
    /// <exception cref="ArgumentException">
    /// The description has <see cref="DatasetDescription.Refusals"/>; ask for them first.
    /// </exception>
    public static void Write(Stream stream, DatasetDescription dataset)
    {
        if (dataset.Refusals() is { Count: > 0 } refusals)
        {
            throw new ArgumentException(string.Join(" ", refusals.Select(refusal => refusal.Reason)), nameof(dataset));
        }

        var settings = new XmlWriterSettings
        {
            Encoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false),
            Indent = true,
            NewLineChars = "\n",
        };
        using var xml = XmlWriter.Create(stream, settings);
        xml.WriteStartElement("eml", "eml", Namespace);
        xml.WriteAttributeString("packageId", Invariant($"{dataset.Identifier:D}/v{dataset.Version}"));
        xml.WriteAttributeString("system", "http://gbif.org");
        xml.WriteAttributeString("scope", "system");
        xml.WriteAttributeString("xml", "lang", null, Text(dataset.Language));
        WriteDataset(xml, dataset);
        WriteCollection(xml, dataset);
        xml.WriteEndElement();
    }

    // The order of the elements is the schema's.
    private static void WriteDataset(XmlWriter xml, DatasetDescription dataset)
    {
        xml.WriteStartElement("dataset");
        Element(xml, "alternateIdentifier", dataset.Identifier.ToString("D"));
        xml.WriteStartElement("title");
        xml.WriteAttributeString("xml", "lang", null, Text(dataset.Language));
        xml.WriteString(Text(dataset.Title));
        xml.WriteEndElement();
        WriteParty(xml, "creator", dataset.Creator, page: null);
        WriteParty(xml, "metadataProvider", dataset.Publisher, page: null);
        Element(xml, "pubDate", Day(dataset.PublishedOn));
        Element(xml, "language", dataset.Language);
        WriteAbstract(xml, dataset.Abstract);
        xml.WriteStartElement("keywordSet");
        Element(xml, "keyword", "Specimen");
        Element(xml, "keywordThesaurus", SubtypeVocabulary);
        xml.WriteEndElement();
        WriteLicence(xml, dataset.Licence);
        WriteHomePage(xml, dataset.HomePage);
        WriteCoverage(xml, dataset);
        WriteParty(xml, "contact", dataset.Contact, dataset.HomePage);
        WriteParty(xml, "publisher", dataset.Publisher, page: null);
        xml.WriteEndElement();
    }

    private static void WriteParty(XmlWriter xml, string element, DatasetParty party, Uri? page)
    {
        xml.WriteStartElement(element);
        if (HasText(party.Surname))
        {
            xml.WriteStartElement("individualName");
            ElementIfAny(xml, "givenName", party.GivenName);
            Element(xml, "surName", party.Surname);
            xml.WriteEndElement();
        }

        Element(xml, "organizationName", party.Organisation);
        ElementIfAny(xml, "positionName", party.Position);
        ElementIfAny(xml, "electronicMailAddress", party.MailAddress);
        ElementIfAny(xml, "onlineUrl", page?.AbsoluteUri);
        xml.WriteEndElement();
    }

    private static void WriteAbstract(XmlWriter xml, string text)
    {
        xml.WriteStartElement("abstract");
        var paragraphs = text.ReplaceLineEndings("\n").Split("\n\n");
        foreach (var paragraph in paragraphs.Where(HasText))
        {
            Element(xml, "para", paragraph.Trim());
        }

        xml.WriteEndElement();
    }

    // Twice, because aggregators read the link in the sentence and other readers the newer element.
    private static void WriteLicence(XmlWriter xml, Licence licence)
    {
        xml.WriteStartElement("intellectualRights");
        xml.WriteStartElement("para");
        xml.WriteString("These data may be used under the terms of ");
        xml.WriteStartElement("ulink");
        xml.WriteAttributeString("url", licence.Address());
        Element(xml, "citetitle", licence.Title());
        xml.WriteEndElement();
        xml.WriteString(".");
        xml.WriteEndElement();
        xml.WriteEndElement();

        xml.WriteStartElement("licensed");
        Element(xml, "licenseName", licence.Title());
        Element(xml, "url", licence.Address());
        Element(xml, "identifier", licence.Spdx());
        xml.WriteEndElement();
    }

    private static void WriteHomePage(XmlWriter xml, Uri? page)
    {
        if (page is null)
        {
            return;
        }

        xml.WriteStartElement("distribution");
        xml.WriteAttributeString("scope", "document");
        xml.WriteStartElement("online");
        xml.WriteStartElement("url");
        xml.WriteAttributeString("function", "information");
        xml.WriteString(page.AbsoluteUri);
        xml.WriteEndElement();
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void WriteCoverage(XmlWriter xml, DatasetDescription dataset)
    {
        var isDated = dataset is { CollectedFrom: not null, CollectedTo: not null };
        if (dataset.Geography is null && !isDated && !HasText(dataset.TaxonomicCoverage))
        {
            return;   // an empty element is not valid
        }

        xml.WriteStartElement("coverage");
        if (dataset.Geography is { } geography)
        {
            WriteGeography(xml, geography.Description, geography.Box ?? BoundingBox.World);
        }

        if (isDated)
        {
            WriteDates(xml, dataset.CollectedFrom!.Value, dataset.CollectedTo!.Value);
        }

        if (HasText(dataset.TaxonomicCoverage))
        {
            WriteTaxa(xml, dataset.TaxonomicCoverage, dataset.Taxa);
        }

        xml.WriteEndElement();
    }

    private static void WriteGeography(XmlWriter xml, string description, BoundingBox box)
    {
        xml.WriteStartElement("geographicCoverage");
        Element(xml, "geographicDescription", description);
        xml.WriteStartElement("boundingCoordinates");
        Element(xml, "westBoundingCoordinate", Invariant($"{box.West}"));
        Element(xml, "eastBoundingCoordinate", Invariant($"{box.East}"));
        Element(xml, "northBoundingCoordinate", Invariant($"{box.North}"));
        Element(xml, "southBoundingCoordinate", Invariant($"{box.South}"));
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void WriteDates(XmlWriter xml, DateOnly from, DateOnly to)
    {
        xml.WriteStartElement("temporalCoverage");
        xml.WriteStartElement("rangeOfDates");
        foreach (var (element, day) in new[] { ("beginDate", from), ("endDate", to) })
        {
            xml.WriteStartElement(element);
            Element(xml, "calendarDate", Day(day));
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void WriteTaxa(XmlWriter xml, string description, IReadOnlyList<string> taxa)
    {
        xml.WriteStartElement("taxonomicCoverage");
        Element(xml, "generalTaxonomicCoverage", description);
        foreach (var taxon in taxa.Where(HasText).DefaultIfEmpty("Plantae"))
        {
            xml.WriteStartElement("taxonomicClassification");
            Element(xml, "taxonRankValue", taxon);
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    private static void WriteCollection(XmlWriter xml, DatasetDescription dataset)
    {
        xml.WriteStartElement("additionalMetadata");
        xml.WriteStartElement("metadata");
        xml.WriteStartElement("gbif");
        Element(xml, "dateStamp", Invariant($"{dataset.WrittenAt:yyyy-MM-dd'T'HH:mm:ss'Z'}"));
        Element(xml, "hierarchyLevel", "dataset");
        xml.WriteStartElement("collection");
        ElementIfAny(xml, "collectionIdentifier", dataset.CollectionIdentifier);
        Element(xml, "collectionName", dataset.CollectionName);
        xml.WriteEndElement();
        Element(xml, "specimenPreservationMethod", "driedAndPressed");
        xml.WriteEndElement();
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void ElementIfAny(XmlWriter xml, string name, string? text)
    {
        if (HasText(text))
        {
            Element(xml, name, text);
        }
    }

    private static void Element(XmlWriter xml, string name, string? text) => xml.WriteElementString(name, Text(text));

    private static bool HasText([NotNullWhen(true)] string? text) =>
        !string.IsNullOrWhiteSpace(OneLine.Of(text));

    // What is left after OneLine and is no XML: the two noncharacters U+FFFE and U+FFFF.
    private static string Text(string? text) =>
        OneLine.Of(text).Replace('\uFFFE', '\uFFFD').Replace('\uFFFF', '\uFFFD');

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
