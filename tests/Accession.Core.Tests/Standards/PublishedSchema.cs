using System.Xml;
using System.Xml.Schema;

namespace Accession.Core.Tests.Standards;

/// <summary>
/// A published XML schema, compiled from local files only: nothing is fetched, whatever a schema refers to.
/// </summary>
internal sealed class PublishedSchema
{
    private readonly XmlSchemaSet _schemas = new() { XmlResolver = new LocalFilesOnly() };

    public PublishedSchema(string path)
    {
        _schemas.ValidationEventHandler += (_, e) => Assert.Fail($"{path}: {e.Message}");
        _schemas.Add(null, path);
        _schemas.Compile();
    }

    /// <summary>What the schema says against a document; empty when it is valid.</summary>
    public IReadOnlyList<string> Against(byte[] document)
    {
        List<string> errors = [];
        var settings = new XmlReaderSettings
        {
            ValidationType = ValidationType.Schema,
            Schemas = _schemas,
            XmlResolver = null,
            DtdProcessing = DtdProcessing.Prohibit,
        };
        settings.ValidationEventHandler += (_, e) => errors.Add(e.Message);
        using var reader = XmlReader.Create(new MemoryStream(document), settings);
        reader.MoveToContent();
        if (!_schemas.GlobalElements.Contains(new XmlQualifiedName(reader.LocalName, reader.NamespaceURI)))
        {
            errors.Add($"The schema knows no element {reader.Name}.");   // a validator would only warn, and pass
        }

        while (reader.Read())
        {
        }

        return errors;
    }

    private sealed class LocalFilesOnly : XmlUrlResolver
    {
        public override object? GetEntity(Uri absoluteUri, string? role, Type? ofObjectToReturn) => absoluteUri.IsFile
            ? base.GetEntity(absoluteUri, role, ofObjectToReturn)
            : throw new XmlException($"{absoluteUri} is not on this machine.");
    }
}
