namespace Accession.Core.Standards.DarwinCore;

/// <summary>
/// The terms we publish, in the order of Simple Darwin Core but for <see cref="OccurrenceId"/>, which comes first
/// because it is the key of the file. The source is the Darwin Core standard of TDWG
/// (http://www.tdwg.org/standards/450), version of 2026-05-26.
/// </summary>
public static class DarwinCoreTerms
{
    /// <summary>Identifies the record for ever.</summary>
    public static Term OccurrenceId { get; } = DarwinCore("occurrenceID");

    /// <summary>The licence under which the record may be used.</summary>
    public static Term License { get; } = DublinCore("license");

    /// <summary>The institution that has custody.</summary>
    public static Term InstitutionCode { get; } = DarwinCore("institutionCode");

    /// <summary>The collection within the institution.</summary>
    public static Term CollectionCode { get; } = DarwinCore("collectionCode");

    /// <summary>What the record rests on.</summary>
    public static Term BasisOfRecord { get; } = DarwinCore("basisOfRecord");

    /// <summary>What exists but is not shown.</summary>
    public static Term InformationWithheld { get; } = DarwinCore("informationWithheld");

    /// <summary>What is shown less exactly than it is known.</summary>
    public static Term DataGeneralizations { get; } = DarwinCore("dataGeneralizations");

    /// <summary>When it was collected.</summary>
    public static Term EventDate { get; } = DarwinCore("eventDate");

    /// <summary>The year of the event.</summary>
    public static Term Year { get; } = DarwinCore("year");

    /// <summary>The month of the event.</summary>
    public static Term Month { get; } = DarwinCore("month");

    /// <summary>The day of the event.</summary>
    public static Term Day { get; } = DarwinCore("day");

    /// <summary>The date as first written.</summary>
    public static Term VerbatimEventDate { get; } = DarwinCore("verbatimEventDate");

    /// <summary>The kind of place.</summary>
    public static Term Habitat { get; } = DarwinCore("habitat");

    /// <summary>The country.</summary>
    public static Term Country { get; } = DarwinCore("country");

    /// <summary>The country as a code.</summary>
    public static Term CountryCode { get; } = DarwinCore("countryCode");

    /// <summary>The next smaller region than the country.</summary>
    public static Term StateProvince { get; } = DarwinCore("stateProvince");

    /// <summary>The next smaller region than the state or province.</summary>
    public static Term County { get; } = DarwinCore("county");

    /// <summary>The next smaller region than the county.</summary>
    public static Term Municipality { get; } = DarwinCore("municipality");

    /// <summary>The place in words.</summary>
    public static Term Locality { get; } = DarwinCore("locality");

    /// <summary>The lower end of the elevation, in metres.</summary>
    public static Term MinimumElevationInMeters { get; } = DarwinCore("minimumElevationInMeters");

    /// <summary>The upper end of the elevation, in metres.</summary>
    public static Term MaximumElevationInMeters { get; } = DarwinCore("maximumElevationInMeters");

    /// <summary>The elevation as first written.</summary>
    public static Term VerbatimElevation { get; } = DarwinCore("verbatimElevation");

    /// <summary>The latitude in decimal degrees.</summary>
    public static Term DecimalLatitude { get; } = DarwinCore("decimalLatitude");

    /// <summary>The longitude in decimal degrees.</summary>
    public static Term DecimalLongitude { get; } = DarwinCore("decimalLongitude");

    /// <summary>The reference system of the coordinates.</summary>
    public static Term GeodeticDatum { get; } = DarwinCore("geodeticDatum");

    /// <summary>The radius that surely holds the place, in metres.</summary>
    public static Term CoordinateUncertaintyInMeters { get; } = DarwinCore("coordinateUncertaintyInMeters");

    /// <summary>The step of the coordinates, in degrees.</summary>
    public static Term CoordinatePrecision { get; } = DarwinCore("coordinatePrecision");

    /// <summary>The coordinates as first written.</summary>
    public static Term VerbatimCoordinates { get; } = DarwinCore("verbatimCoordinates");

    /// <summary>Identifies one identification.</summary>
    public static Term IdentificationId { get; } = DarwinCore("identificationID");

    /// <summary>The name as first written.</summary>
    public static Term VerbatimIdentification { get; } = DarwinCore("verbatimIdentification");

    /// <summary>The determiner's doubt.</summary>
    public static Term IdentificationQualifier { get; } = DarwinCore("identificationQualifier");

    /// <summary>Who gave the name.</summary>
    public static Term IdentifiedBy { get; } = DarwinCore("identifiedBy", isList: true);

    /// <summary>When the name was given.</summary>
    public static Term DateIdentified { get; } = DarwinCore("dateIdentified");

    /// <summary>The number of the specimen in the collection.</summary>
    public static Term CatalogNumber { get; } = DarwinCore("catalogNumber");

    /// <summary>Other numbers of the same specimen.</summary>
    public static Term OtherCatalogNumbers { get; } = DarwinCore("otherCatalogNumbers", isList: true);

    /// <summary>The collector's number.</summary>
    public static Term RecordNumber { get; } = DarwinCore("recordNumber");

    /// <summary>Who collected it.</summary>
    public static Term RecordedBy { get; } = DarwinCore("recordedBy", isList: true);

    /// <summary>Whether the taxon was there.</summary>
    public static Term OccurrenceStatus { get; } = DarwinCore("occurrenceStatus");

    /// <summary>What it grew with.</summary>
    public static Term AssociatedTaxa { get; } = DarwinCore("associatedTaxa", isList: true);

    /// <summary>Remarks on the occurrence.</summary>
    public static Term OccurrenceRemarks { get; } = DarwinCore("occurrenceRemarks");

    /// <summary>The full name of the taxon.</summary>
    public static Term ScientificName { get; } = DarwinCore("scientificName");

    /// <summary>The family.</summary>
    public static Term Family { get; } = DarwinCore("family");

    /// <summary>The code that rules the name.</summary>
    public static Term NomenclaturalCode { get; } = DarwinCore("nomenclaturalCode");

    private static Term DarwinCore(string name, bool isList = false) => new(name, Term.DarwinCore + name, isList);

    private static Term DublinCore(string name) => new(name, Term.DublinCore + name);
}
