namespace Accession.Core.Standards.DarwinCore;

/// <summary>
/// What we publish about a specimen: the key by which a query binds an expression to a column. The same value can stand
/// in two files, as the determiner does in the core (of the current determination) and in the history (of each).
/// What may be shown of a protected place is in <see cref="ArchiveColumn.WhenProtected"/>.
/// </summary>
public enum PublishedValue
{
    /// <summary>
    /// The specimen's permanent identifier, the same in every archive; never empty. In the identification file it
    /// links a line to its specimen.
    /// </summary>
    OccurrenceId,

    /// <summary>
    /// When anything published about the specimen last changed, UTC, such as <c>2026-05-04T09:30:00Z</c>.
    /// </summary>
    Modified,

    /// <summary>
    /// The address of the data set's licence, the same in every line (<see cref="Eml.LicenceTexts.Address"/>).
    /// </summary>
    License,

    /// <summary>
    /// The institution that holds the rights, from the data set's description; empty when it names none.
    /// </summary>
    RightsHolder,

    /// <summary>The address of the specimen's public page.</summary>
    References,

    /// <summary>The code of the parent institution, such as a university or a field station.</summary>
    InstitutionCode,

    /// <summary>The acronym of the herbarium, as the TDWG guide for herbaria has it.</summary>
    CollectionCode,

    /// <summary>Always <see cref="OccurrenceColumns.PreservedSpecimen"/>.</summary>
    BasisOfRecord,

    /// <summary>What is kept back and whom to ask, as a sentence; empty when nothing is.</summary>
    InformationWithheld,

    /// <summary>How the place was blurred, and to what grid, as a sentence; empty when it was not.</summary>
    DataGeneralizations,

    /// <summary>
    /// The collecting date in ISO 8601 with the precision it has: <c>1987</c>, <c>1987-06</c>, <c>1987-06-14</c>, or
    /// an interval <c>1987-06-14/1987-06-16</c>.
    /// </summary>
    EventDate,

    /// <summary>The year in four digits; empty when unknown or when the interval spans several.</summary>
    Year,

    /// <summary>The month, 1 to 12; empty when unknown or when the interval spans several.</summary>
    Month,

    /// <summary>The day of the month, 1 to 31; empty when unknown or when the interval spans several.</summary>
    Day,

    /// <summary>The date to the letter, as the label or the list has it.</summary>
    VerbatimEventDate,

    /// <summary>The habitat from the field notes. Withheld when protected: its words often name the place.</summary>
    Habitat,

    /// <summary>The country as the gathering has it, in words.</summary>
    Country,

    /// <summary>
    /// The ISO 3166-1 alpha-2 code of the country (<see cref="Countries.CountryCode"/>); empty when the words do not
    /// settle it.
    /// </summary>
    CountryCode,

    /// <summary>The state or province.</summary>
    StateProvince,

    /// <summary>The county, without the word itself where that is the custom.</summary>
    County,

    /// <summary>The town or municipality. Withheld when protected.</summary>
    Municipality,

    /// <summary>The place in words, as settled for the gathering. When protected: the public wording only.</summary>
    Locality,

    /// <summary>The place to the letter, as the label or the list has it. Withheld when protected.</summary>
    VerbatimLocality,

    /// <summary>
    /// The lower end of the elevation in metres; both ends are equal for a single value. Withheld when protected.
    /// </summary>
    MinimumElevationInMeters,

    /// <summary>The upper end of the elevation in metres. Withheld when protected.</summary>
    MaximumElevationInMeters,

    /// <summary>The elevation to the letter, with its unit. Withheld when protected.</summary>
    VerbatimElevation,

    /// <summary>
    /// The latitude in decimal degrees, north positive, from -90 to 90. When protected: the centre of the public grid
    /// cell, or empty.
    /// </summary>
    DecimalLatitude,

    /// <summary>
    /// The longitude in decimal degrees, east positive, from -180 to 180. When protected: the centre of the public
    /// grid cell, or empty.
    /// </summary>
    DecimalLongitude,

    /// <summary>
    /// Always <see cref="OccurrenceColumns.Wgs84"/> where there are coordinates; empty where there are none.
    /// </summary>
    GeodeticDatum,

    /// <summary>
    /// The radius in metres, greater than 0; empty when unknown. When protected it covers the whole grid cell and
    /// what was unsure before.
    /// </summary>
    CoordinateUncertaintyInMeters,

    /// <summary>
    /// The precision of the coordinates in degrees, such as <c>0.0001</c>. When protected: the width of the grid
    /// cell.
    /// </summary>
    CoordinatePrecision,

    /// <summary>The coordinates to the letter, in whatever notation. Withheld when protected.</summary>
    VerbatimCoordinates,

    /// <summary>The datum to the letter, such as <c>NAD27</c>. Withheld when protected.</summary>
    VerbatimSrs,

    /// <summary>
    /// The identifier of the determination. In the core it is that of the current one, so a reader finds it in the
    /// history.
    /// </summary>
    IdentificationId,

    /// <summary>The name to the letter, with hybrid sign, qualifier and working names.</summary>
    VerbatimIdentification,

    /// <summary>The qualifier with the part it doubts, such as <c>cf. stoebe</c>.</summary>
    IdentificationQualifier,

    /// <summary>
    /// The types it is, in the form <c>holotype of</c> and the name with its citation. Several are separated by
    /// <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    TypeStatus,

    /// <summary>
    /// The determiners, in the order of the slip. Several are separated by <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    IdentifiedBy,

    /// <summary>
    /// The ORCID addresses of the determiners who have one. Several are separated by
    /// <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    IdentifiedById,

    /// <summary>The date of the determination in ISO 8601 with the precision it has; a year alone is usual.</summary>
    DateIdentified,

    /// <summary>
    /// Flora, key or revision used. Several are separated by <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    IdentificationReferences,

    /// <summary>The verification level 0 to 4 of HISPID, as ABCD uses it; empty when nobody knows.</summary>
    IdentificationVerificationStatus,

    /// <summary>
    /// Characters seen, the kind of opinion (confirmation, change of name only, rejection), and whether it rests on
    /// the sheet or a picture.
    /// </summary>
    IdentificationRemarks,

    /// <summary>The specimen's own permanent number, which is also its barcode.</summary>
    CatalogNumber,

    /// <summary>
    /// Legacy and foreign numbers, each as acronym, colon and number. Several are separated by
    /// <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    OtherCatalogNumbers,

    /// <summary>The collector number to the letter, or <c>s.n.</c></summary>
    RecordNumber,

    /// <summary>
    /// The kinds of its parts, such as <c>sheet | packet</c>. Several are separated by
    /// <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    Preparations,

    /// <summary>
    /// Where the specimen stands, in the words of Darwin Core: <c>in collection</c>, <c>on loan</c>, <c>missing</c>,
    /// <c>destroyed</c>, <c>deaccessioned</c>. Never who has it.
    /// </summary>
    Disposition,

    /// <summary>
    /// The collectors, in the order of the label, the one whose number it is first. Several are separated by
    /// <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    RecordedBy,

    /// <summary>
    /// The ORCID addresses of the collectors who have one. Several are separated by
    /// <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    RecordedById,

    /// <summary>What the sheet shows, such as <c>flowers, fruits</c>.</summary>
    ReproductiveCondition,

    /// <summary>Always <see cref="OccurrenceColumns.Present"/>: a sheet proves that the plant was there.</summary>
    OccurrenceStatus,

    /// <summary>
    /// The plants the collector saw beside it. Several are separated by <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    AssociatedTaxa,

    /// <summary>Remarks from the field notes. Withheld when protected: they may describe the place.</summary>
    OccurrenceRemarks,

    /// <summary>The name as read, with its author where given, without the qualifier.</summary>
    ScientificName,

    /// <summary>The family of the name, from the checklist; empty when the name is in none.</summary>
    Family,

    /// <summary>The genus of the name; empty above the rank of genus.</summary>
    Genus,

    /// <summary>The species epithet of the name; empty above the rank of species.</summary>
    SpecificEpithet,

    /// <summary>The lowest epithet below the species; empty for a species.</summary>
    InfraspecificEpithet,

    /// <summary>
    /// The rank in English, such as <c>genus</c>, <c>species</c>, <c>subspecies</c>, <c>variety</c>, <c>form</c>.
    /// </summary>
    TaxonRank,

    /// <summary>The authors of the name; empty when not given.</summary>
    ScientificNameAuthorship,

    /// <summary>
    /// Always <see cref="OccurrenceColumns.Nomenclature"/>: a herbarium keeps algae, fungi and plants.
    /// </summary>
    NomenclaturalCode,
}
