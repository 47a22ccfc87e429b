using static Accession.Core.Standards.DarwinCore.WhenProtected;

namespace Accession.Core.Standards.DarwinCore;

/// <summary>
/// The columns of the core file, one line for each specimen: what the register knows of a sheet, in the order of Simple
/// Darwin Core. A column comes when the register can fill it; none is empty in every line. All are in the Occurrence
/// core of GBIF of 2026-02-12; the terms of May 2026 that it lacks, such as isAcceptedIdentification, are left out on
/// purpose.
/// </summary>
public static class OccurrenceColumns
{
    /// <summary>The only basisOfRecord of a herbarium sheet, a value of the Darwin Core type vocabulary.</summary>
    public const string PreservedSpecimen = "PreservedSpecimen";

    /// <summary>The only occurrenceStatus of a specimen, a value of the GBIF vocabulary of 2020-07-15.</summary>
    public const string Present = "present";

    /// <summary>The code that rules the names of algae, fungi and plants, a value of the GBIF vocabulary.</summary>
    public const string Nomenclature = "ICN";

    /// <summary>The file <c>occurrence.txt</c>, the core of the archive.</summary>
    public static ArchiveFile File { get; } = new(
        "http://rs.tdwg.org/dwc/terms/Occurrence",
        "occurrence.txt",
        [
            new(PublishedValue.OccurrenceId, DarwinCoreTerms.OccurrenceId),
            new(PublishedValue.License, DarwinCoreTerms.License),
            new(PublishedValue.InstitutionCode, DarwinCoreTerms.InstitutionCode),
            new(PublishedValue.CollectionCode, DarwinCoreTerms.CollectionCode),
            new(PublishedValue.BasisOfRecord, DarwinCoreTerms.BasisOfRecord),
            new(PublishedValue.InformationWithheld, DarwinCoreTerms.InformationWithheld),
            new(PublishedValue.DataGeneralizations, DarwinCoreTerms.DataGeneralizations),
            new(PublishedValue.EventDate, DarwinCoreTerms.EventDate),
            new(PublishedValue.Year, DarwinCoreTerms.Year),
            new(PublishedValue.Month, DarwinCoreTerms.Month),
            new(PublishedValue.Day, DarwinCoreTerms.Day),
            new(PublishedValue.VerbatimEventDate, DarwinCoreTerms.VerbatimEventDate),
            new(PublishedValue.Habitat, DarwinCoreTerms.Habitat, Withheld),
            new(PublishedValue.Country, DarwinCoreTerms.Country),
            new(PublishedValue.CountryCode, DarwinCoreTerms.CountryCode),
            new(PublishedValue.StateProvince, DarwinCoreTerms.StateProvince),
            new(PublishedValue.County, DarwinCoreTerms.County),
            new(PublishedValue.Municipality, DarwinCoreTerms.Municipality, Withheld),
            new(PublishedValue.Locality, DarwinCoreTerms.Locality, Withheld),
            new(PublishedValue.MinimumElevationInMeters, DarwinCoreTerms.MinimumElevationInMeters, Withheld),
            new(PublishedValue.MaximumElevationInMeters, DarwinCoreTerms.MaximumElevationInMeters, Withheld),
            new(PublishedValue.VerbatimElevation, DarwinCoreTerms.VerbatimElevation, Withheld),
            new(PublishedValue.DecimalLatitude, DarwinCoreTerms.DecimalLatitude, Generalised),
            new(PublishedValue.DecimalLongitude, DarwinCoreTerms.DecimalLongitude, Generalised),
            new(PublishedValue.GeodeticDatum, DarwinCoreTerms.GeodeticDatum),
            new(
                PublishedValue.CoordinateUncertaintyInMeters,
                DarwinCoreTerms.CoordinateUncertaintyInMeters,
                Generalised),
            new(PublishedValue.CoordinatePrecision, DarwinCoreTerms.CoordinatePrecision, Generalised),
            new(PublishedValue.VerbatimCoordinates, DarwinCoreTerms.VerbatimCoordinates, Withheld),
            new(PublishedValue.IdentificationId, DarwinCoreTerms.IdentificationId),
            new(PublishedValue.VerbatimIdentification, DarwinCoreTerms.VerbatimIdentification),
            new(PublishedValue.IdentificationQualifier, DarwinCoreTerms.IdentificationQualifier),
            new(PublishedValue.IdentifiedBy, DarwinCoreTerms.IdentifiedBy),
            new(PublishedValue.DateIdentified, DarwinCoreTerms.DateIdentified),
            new(PublishedValue.CatalogNumber, DarwinCoreTerms.CatalogNumber),
            new(PublishedValue.OtherCatalogNumbers, DarwinCoreTerms.OtherCatalogNumbers),
            new(PublishedValue.RecordNumber, DarwinCoreTerms.RecordNumber),
            new(PublishedValue.RecordedBy, DarwinCoreTerms.RecordedBy),
            new(PublishedValue.OccurrenceStatus, DarwinCoreTerms.OccurrenceStatus),
            new(PublishedValue.AssociatedTaxa, DarwinCoreTerms.AssociatedTaxa),
            new(PublishedValue.OccurrenceRemarks, DarwinCoreTerms.OccurrenceRemarks, Withheld),
            new(PublishedValue.ScientificName, DarwinCoreTerms.ScientificName),
            new(PublishedValue.Family, DarwinCoreTerms.Family),
            new(PublishedValue.NomenclaturalCode, DarwinCoreTerms.NomenclaturalCode),
        ]);
}
