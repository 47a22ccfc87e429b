namespace Accession.Core.Standards.DarwinCore;

/// <summary>
/// The columns of the determination history, one line for each determination of each published specimen, the current
/// one among them: the core names it by its identificationID. All are in the Identification history extension of GBIF
/// of 2026-02-12, which knows no term for the current one.
/// </summary>
public static class IdentificationColumns
{
    /// <summary>The file <c>identification.txt</c>, an extension of the archive.</summary>
    public static ArchiveFile File { get; } = new(
        "http://rs.tdwg.org/dwc/terms/Identification",
        "identification.txt",
        [
            new(PublishedValue.OccurrenceId, Term: null),
            new(PublishedValue.IdentificationId, DarwinCoreTerms.IdentificationId),
            new(PublishedValue.VerbatimIdentification, DarwinCoreTerms.VerbatimIdentification),
            new(PublishedValue.IdentificationQualifier, DarwinCoreTerms.IdentificationQualifier),
            new(PublishedValue.IdentifiedBy, DarwinCoreTerms.IdentifiedBy),
            new(PublishedValue.DateIdentified, DarwinCoreTerms.DateIdentified),
            new(PublishedValue.ScientificName, DarwinCoreTerms.ScientificName),
            new(PublishedValue.Family, DarwinCoreTerms.Family),
            new(PublishedValue.NomenclaturalCode, DarwinCoreTerms.NomenclaturalCode),
        ]);
}
