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
    /// The address of the data set's licence, the same in every line (<see cref="Eml.LicenceTexts.Address"/>).
    /// </summary>
    License,

    /// <summary>
    /// The code of the parent institution, such as a university or a field station; the same in every line.
    /// </summary>
    InstitutionCode,

    /// <summary>The acronym of the herbarium, as the TDWG guide for herbaria has it; the same in every line.</summary>
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

    /// <summary>The place in words, as the gathering has it. Withheld when protected: words name places.</summary>
    Locality,

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
    /// The datum of the coordinates, as the sender wrote it, such as <c>NAD27</c>; empty when it was not stated. It is
    /// never guessed, and coordinates are not moved from one datum to another.
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

    /// <summary>
    /// The identifier of the determination: that of the specimen, <c>#</c>, and a number that is never used again. In
    /// the core it is that of the current one, so a reader finds it in the history.
    /// </summary>
    IdentificationId,

    /// <summary>
    /// The name to the letter, with hybrid sign, qualifier and working names; empty before it was named.
    /// </summary>
    VerbatimIdentification,

    /// <summary>
    /// The qualifier where it stood apart from the name, such as <c>cf.</c>; empty when there is none.
    /// </summary>
    IdentificationQualifier,

    /// <summary>
    /// The determiners to the letter, in the order of the slip.
    /// </summary>
    IdentifiedBy,

    /// <summary>The date of the determination in ISO 8601 with the precision it has; a year alone is usual.</summary>
    DateIdentified,

    /// <summary>The specimen's own permanent number, which is also its barcode.</summary>
    CatalogNumber,

    /// <summary>
    /// Numbers that others gave the sheet. Several are separated by <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    OtherCatalogNumbers,

    /// <summary>The collector number to the letter, or <c>s.n.</c></summary>
    RecordNumber,

    /// <summary>
    /// The collectors, in the order of the label, the one whose number it is first. Several are separated by
    /// <see cref="ArchiveLine.ListSeparator"/>.
    /// </summary>
    RecordedBy,

    /// <summary>Always <see cref="OccurrenceColumns.Present"/>: a sheet proves that the plant was there.</summary>
    OccurrenceStatus,

    /// <summary>
    /// The plants the collector saw beside it, to the letter.
    /// </summary>
    AssociatedTaxa,

    /// <summary>Remarks from the field notes. Withheld when protected: they may describe the place.</summary>
    OccurrenceRemarks,

    /// <summary>The name as it was given, with its author where given; the same words as the verbatim name.</summary>
    ScientificName,

    /// <summary>The family, as it was given with the name; empty when it was not.</summary>
    Family,

    /// <summary>
    /// Always <see cref="OccurrenceColumns.Nomenclature"/>: a herbarium keeps algae, fungi and plants.
    /// </summary>
    NomenclaturalCode,
}
