namespace Accession.Core.Standards.DarwinCore;

/// <summary>A term of the standard: what a column of an archive means to everybody.</summary>
/// <param name="Name">The local name, such as <c>catalogNumber</c>; it is the heading of the column.</param>
/// <param name="Iri">The address that identifies the term in <c>meta.xml</c>. The letter case matters.</param>
/// <param name="IsList">
/// Whether the standard recommends several values in one cell, separated by <see cref="ArchiveLine.ListSeparator"/>.
/// </param>
public sealed record Term(string Name, string Iri, bool IsList = false)
{
    /// <summary>What the addresses of Darwin Core terms begin with.</summary>
    public const string DarwinCore = "http://rs.tdwg.org/dwc/terms/";

    /// <summary>What the addresses of the Dublin Core terms begin with that Darwin Core borrows.</summary>
    public const string DublinCore = "http://purl.org/dc/terms/";
}
