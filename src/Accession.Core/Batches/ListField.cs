using System.Collections.Frozen;

namespace Accession.Core.Batches;

/// <summary>
/// What a column of a sender's list can mean to us: a Darwin Core term or, where Darwin Core has no word for it, a
/// meaning of our own. There is one instance of each; compare by reference.
/// </summary>
public sealed class ListField
{
    private static readonly List<ListField> Known = [];

    private ListField(string name, string? term, bool isSingle, string help)
    {
        (Name, Term, IsSingle, Help) = (name, term, isSingle, help);
        Known.Add(this);
    }

    /// <summary>The collectors in the order of the label, the one whose number it is first.</summary>
    public static ListField RecordedBy { get; } = new("recordedBy", "recordedBy", true,
        "Everybody who collected, the first one first, such as \"A. Orm & B. Brask\".");

    /// <summary>Collectors beside the first, where a list keeps them in a column of their own.</summary>
    public static ListField OtherCollectors { get; } =
        new("otherCollectors", "recordedBy", false, "Those who collected with the first collector.");

    /// <summary>Identifiers of the collectors, such as ORCID addresses.</summary>
    public static ListField RecordedByID { get; } =
        new("recordedByID", "recordedByID", true, "The collectors' ORCID addresses, in the order of the names.");

    /// <summary>The collector's own number of the gathering, to the letter.</summary>
    public static ListField RecordNumber { get; } = new("recordNumber", "recordNumber", true,
        "The number the collector gave, such as KB-1204a; s.n. where there is none.");

    /// <summary>A number of the field notebook; stands in where the collector's number is empty.</summary>
    public static ListField FieldNumber { get; } = new("fieldNumber", "fieldNumber", true,
        "The number in the field notebook, if it is another than the collector's number.");

    /// <summary>The date of collecting, as written; may be a year, a month or a range.</summary>
    public static ListField EventDate { get; } =
        new("eventDate", "eventDate", true, "When it was collected, best as 2024-03-17; as much of it as is known.");

    /// <summary>The last day of collecting, where a list keeps it in a column of its own.</summary>
    public static ListField EventDateEnd { get; } =
        new("eventDateEnd", "eventDate", true, "The last day, if collecting took several.");

    /// <summary>The date of collecting to the letter of the label.</summary>
    public static ListField VerbatimEventDate { get; } =
        new("verbatimEventDate", "verbatimEventDate", true, "The date exactly as the label has it.");

    /// <summary>The year of collecting, four digits.</summary>
    public static ListField Year { get; } = new("year", "year", true, "The year, such as 1961.");

    /// <summary>The month of collecting: a number, a Roman numeral or a name.</summary>
    public static ListField Month { get; } = new("month", "month", true, "The month, such as 5, V or May.");

    /// <summary>The day of the month, 1 to 31.</summary>
    public static ListField Day { get; } = new("day", "day", true, "The day of the month.");

    /// <summary>The continent.</summary>
    public static ListField Continent { get; } = new("continent", "continent", true, "The continent.");

    /// <summary>The country as a name.</summary>
    public static ListField Country { get; } = new("country", "country", true, "The country, in any language.");

    /// <summary>The country as two letters of ISO 3166-1.</summary>
    public static ListField CountryCode { get; } = new("countryCode", "countryCode", true, "Two letters, such as PE.");

    /// <summary>The division below the country: state, province, department.</summary>
    public static ListField StateProvince { get; } =
        new("stateProvince", "stateProvince", true, "State, province or department.");

    /// <summary>The division below that: county, district, Kreis.</summary>
    public static ListField County { get; } = new("county", "county", true, "County or district.");

    /// <summary>The division below that: municipality, township, commune.</summary>
    public static ListField Municipality { get; } =
        new("municipality", "municipality", true, "Municipality or commune.");

    /// <summary>The group of islands.</summary>
    public static ListField IslandGroup { get; } = new("islandGroup", "islandGroup", true, "The group of islands.");

    /// <summary>The island.</summary>
    public static ListField Island { get; } = new("island", "island", true, "The island.");

    /// <summary>The lake, river or sea.</summary>
    public static ListField WaterBody { get; } = new("waterBody", "waterBody", true, "The lake, river or sea.");

    /// <summary>The place in words, below what the other columns say.</summary>
    public static ListField Locality { get; } = new("locality", "locality", true, "Where it grew, in words.");

    /// <summary>The place to the letter of the label.</summary>
    public static ListField VerbatimLocality { get; } =
        new("verbatimLocality", "verbatimLocality", true, "The place exactly as the label has it.");

    /// <summary>Remarks on the place.</summary>
    public static ListField LocationRemarks { get; } =
        new("locationRemarks", "locationRemarks", false, "Remarks on the place.");

    /// <summary>Where the plant grew: vegetation, ground, light.</summary>
    public static ListField Habitat { get; } =
        new("habitat", "habitat", false, "Vegetation, ground and light, such as \"wet meadow on peat\".");

    /// <summary>Height above sea level as written, or a number in the heading's unit.</summary>
    public static ListField VerbatimElevation { get; } = new("verbatimElevation", "verbatimElevation", true,
        "Height above sea level, with its unit here or in the heading.");

    /// <summary>The lower height above sea level, in metres unless the heading says otherwise.</summary>
    public static ListField MinimumElevationInMeters { get; } =
        new("minimumElevationInMeters", "minimumElevationInMeters", true, "The lower height, in metres.");

    /// <summary>The upper height above sea level, in metres unless the heading says otherwise.</summary>
    public static ListField MaximumElevationInMeters { get; } =
        new("maximumElevationInMeters", "maximumElevationInMeters", true, "The upper height, in metres.");

    /// <summary>Latitude, in decimal degrees, north positive; other spellings are read as well.</summary>
    public static ListField DecimalLatitude { get; } =
        new("decimalLatitude", "decimalLatitude", true, "Degrees north, such as 47.36912; south is negative.");

    /// <summary>Longitude, in decimal degrees, east positive; other spellings are read as well.</summary>
    public static ListField DecimalLongitude { get; } =
        new("decimalLongitude", "decimalLongitude", true, "Degrees east, such as 8.54103; west is negative.");

    /// <summary>Latitude to the letter, such as degrees, minutes and seconds.</summary>
    public static ListField VerbatimLatitude { get; } =
        new("verbatimLatitude", "verbatimLatitude", true, "The latitude exactly as the label has it.");

    /// <summary>Longitude to the letter, such as degrees, minutes and seconds.</summary>
    public static ListField VerbatimLongitude { get; } =
        new("verbatimLongitude", "verbatimLongitude", true, "The longitude exactly as the label has it.");

    /// <summary>Both coordinates in one text, or a grid reference, possibly over several columns.</summary>
    public static ListField VerbatimCoordinates { get; } = new("verbatimCoordinates", "verbatimCoordinates", false,
        "Coordinates as the label has them, or a grid reference.");

    /// <summary>What kind of coordinates the label has.</summary>
    public static ListField VerbatimCoordinateSystem { get; } =
        new("verbatimCoordinateSystem", "verbatimCoordinateSystem", true,
        "The kind of coordinates, such as UTM or degrees minutes seconds.");

    /// <summary>The datum or reference system of the coordinates.</summary>
    public static ListField GeodeticDatum { get; } =
        new("geodeticDatum", "geodeticDatum", true, "The datum, such as WGS84.");

    /// <summary>Radius round the point that holds the place, in metres unless the heading says otherwise.</summary>
    public static ListField CoordinateUncertaintyInMeters { get; } =
        new("coordinateUncertaintyInMeters", "coordinateUncertaintyInMeters", true,
        "How far off the point may be, in metres.");

    /// <summary>Who found the coordinates.</summary>
    public static ListField GeoreferencedBy { get; } =
        new("georeferencedBy", "georeferencedBy", true, "Who found the coordinates.");

    /// <summary>When the coordinates were found.</summary>
    public static ListField GeoreferencedDate { get; } =
        new("georeferencedDate", "georeferencedDate", true, "When the coordinates were found.");

    /// <summary>How the coordinates were found.</summary>
    public static ListField GeoreferenceProtocol { get; } =
        new("georeferenceProtocol", "georeferenceProtocol", true, "How the coordinates were found.");

    /// <summary>From what the coordinates were found: map, gazetteer, receiver.</summary>
    public static ListField GeoreferenceSources { get; } =
        new("georeferenceSources", "georeferenceSources", true, "Map, gazetteer or receiver.");

    /// <summary>Remarks on the coordinates.</summary>
    public static ListField GeoreferenceRemarks { get; } =
        new("georeferenceRemarks", "georeferenceRemarks", false, "Remarks on the coordinates.");

    /// <summary>The name of the plant with or without its author.</summary>
    public static ListField ScientificName { get; } =
        new("scientificName", "scientificName", true, "The plant's name, such as \"Carex alta L.\".");

    /// <summary>The genus.</summary>
    public static ListField Genus { get; } = new("genus", "genus", true, "The genus.");

    /// <summary>The second word of a species name.</summary>
    public static ListField SpecificEpithet { get; } =
        new("specificEpithet", "specificEpithet", true, "The second word of the name.");

    /// <summary>The epithet below the species.</summary>
    public static ListField InfraspecificEpithet { get; } = new("infraspecificEpithet", "infraspecificEpithet", true,
        "The last word of the name of a subspecies or variety.");

    /// <summary>The rank of the name, such as variety.</summary>
    public static ListField TaxonRank { get; } =
        new("taxonRank", "taxonRank", true, "The rank, such as subsp. or var.");

    /// <summary>The author of the name.</summary>
    public static ListField ScientificNameAuthorship { get; } =
        new("scientificNameAuthorship", "scientificNameAuthorship", true, "The author of the name.");

    /// <summary>The family.</summary>
    public static ListField Family { get; } = new("family", "family", true, "The family.");

    /// <summary>A common name.</summary>
    public static ListField VernacularName { get; } =
        new("vernacularName", "vernacularName", false, "A common or local name.");

    /// <summary>A doubt about the name, such as cf. or aff.</summary>
    public static ListField IdentificationQualifier { get; } =
        new("identificationQualifier", "identificationQualifier", true, "cf., aff. or a question mark.");

    /// <summary>Who determined the plant.</summary>
    public static ListField IdentifiedBy { get; } = new("identifiedBy", "identifiedBy", true, "Who determined it.");

    /// <summary>Identifiers of the determiners, such as ORCID addresses.</summary>
    public static ListField IdentifiedByID { get; } =
        new("identifiedByID", "identifiedByID", true, "The determiners' ORCID addresses.");

    /// <summary>When the plant was determined; often a year.</summary>
    public static ListField DateIdentified { get; } =
        new("dateIdentified", "dateIdentified", true, "When it was determined; a year will do.");

    /// <summary>Remarks on the determination.</summary>
    public static ListField IdentificationRemarks { get; } =
        new("identificationRemarks", "identificationRemarks", false, "Remarks on the determination.");

    /// <summary>Of what name the sheet is a type, and which kind.</summary>
    public static ListField TypeStatus { get; } =
        new("typeStatus", "typeStatus", true, "The kind of type, such as isotype of Carex alta.");

    /// <summary>What the label says about the plant: habit, colours, frequency, anything else.</summary>
    public static ListField OccurrenceRemarks { get; } = new("occurrenceRemarks", "occurrenceRemarks", false,
        "Anything else the label should say: habit, colours, frequency.");

    /// <summary>Whether the plant is in bud, flower, fruit or spore.</summary>
    public static ListField ReproductiveCondition { get; } =
        new("reproductiveCondition", "reproductiveCondition", false, "In bud, flower or fruit.");

    /// <summary>Plants that grew beside it.</summary>
    public static ListField AssociatedTaxa { get; } =
        new("associatedTaxa", "associatedTaxa", false, "What grew beside it.");

    /// <summary>How many plants were there; not how many sheets.</summary>
    public static ListField IndividualCount { get; } =
        new("individualCount", "individualCount", true, "How many plants there were.");

    /// <summary>How many sheets the row stands for; a whole number from 1, empty for one.</summary>
    public static ListField Sheets { get; } =
        new("sheets", null, true, "How many sheets come with this row; leave it empty for one.");

    /// <summary>To whom duplicates were given.</summary>
    public static ListField DuplicatesTo { get; } =
        new("duplicatesTo", "disposition", true, "Which other herbaria have duplicates.");

    /// <summary>How the specimen was prepared: sheet, packet, spirit.</summary>
    public static ListField Preparations { get; } =
        new("preparations", "preparations", true, "Sheet, packet, spirit material, fruit box.");

    /// <summary>The permit under which it was collected.</summary>
    public static ListField Permit { get; } = new("permit", null, true, "The number of the collecting permit.");

    /// <summary>The project or expedition.</summary>
    public static ListField Project { get; } = new("project", "projectTitle", true, "The project or expedition.");

    /// <summary>The herbarium where the sender's sheet is, as its code.</summary>
    public static ListField InstitutionCode { get; } =
        new("institutionCode", "institutionCode", true, "The code of your herbarium.");

    /// <summary>The collection within the sender's institution.</summary>
    public static ListField CollectionCode { get; } =
        new("collectionCode", "collectionCode", true, "The collection within your institution.");

    /// <summary>
    /// The catalog number that the sheet bears already and keeps; only where a batch is taken over with its numbers.
    /// In any other list it counts as <see cref="OtherCatalogNumbers"/>.
    /// </summary>
    public static ListField CatalogNumber { get; } = new("catalogNumber", "catalogNumber", true,
        "The number that the sheet bears and keeps, to the letter.");

    /// <summary>The numbers the sender's sheets already bear: catalog number, barcode, accession number.</summary>
    public static ListField OtherCatalogNumbers { get; } =
        new("otherCatalogNumbers", "otherCatalogNumbers", false, "Your own number of the sheet, such as a barcode.");

    /// <summary>The lasting identifier of the sender's record.</summary>
    public static ListField OccurrenceID { get; } =
        new("occurrenceID", "occurrenceID", true, "The lasting identifier of your record.");

    /// <summary>Accession numbers of sequences made from the plant.</summary>
    public static ListField AssociatedSequences { get; } =
        new("associatedSequences", "associatedSequences", false, "GenBank numbers.");

    /// <summary>Every meaning, in the order of a label.</summary>
    public static IReadOnlyList<ListField> All { get; } = [.. Known];

    private static FrozenDictionary<string, ListField> ByName { get; } =
        All.ToFrozenDictionary(field => field.Name, StringComparer.OrdinalIgnoreCase);

    /// <summary>The name under which a matching is remembered, and which our own templates use as heading.</summary>
    public string Name { get; }

    /// <summary>The Darwin Core term that is published from it; null where Darwin Core has none.</summary>
    public string? Term { get; }

    /// <summary>Whether only one column may have this meaning. The texts of several are put after each other.</summary>
    public bool IsSingle { get; }

    /// <summary>What a sender should write there, as a sentence.</summary>
    public string Help { get; }

    /// <summary>Whether the name is itself a Darwin Core term.</summary>
    public bool IsDarwinCoreName => Name == Term;

    /// <summary>Finds a meaning by its name, in any letter case; null when there is none.</summary>
    /// <param name="name">Such as recordedBy.</param>
    public static ListField? Named(string name) => ByName.GetValueOrDefault(name);

    /// <summary>The name.</summary>
    public override string ToString() => Name;
}
