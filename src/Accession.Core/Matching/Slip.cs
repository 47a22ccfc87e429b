namespace Accession.Core.Matching;

/// <summary>
/// What two fields have in common or what tells them apart, where there is a name for it. The values are stored, six
/// bits each; add at the end and do not renumber.
/// </summary>
public enum Slip
{
    /// <summary>Nothing with a name.</summary>
    None = 0,

    /// <summary>The family name differs by a letter or two.</summary>
    FamilyLetters = 1,

    /// <summary>One side has the family name cut short.</summary>
    FamilyCutShort = 2,

    /// <summary>One side has initials in place of a name.</summary>
    InitialsForName = 3,

    /// <summary>Given names or initials are left out or swapped on one side.</summary>
    GivenNames = 4,

    /// <summary>One side has a family name that the other has as a given or second family name.</summary>
    OtherFamilyName = 5,

    /// <summary>A companion on one side is the only or first collector on the other.</summary>
    CompanionListed = 6,

    /// <summary>The same people in another order.</summary>
    TeamOrder = 7,

    /// <summary>One side has a suffix such as Jr., and the other has not.</summary>
    SuffixOfName = 8,

    /// <summary>One family, other initials: two people, or a slip.</summary>
    OtherInitials = 9,

    /// <summary>Another collector.</summary>
    OtherCollector = 10,

    /// <summary>Another first collector, and a companion in common.</summary>
    OtherLeader = 11,

    /// <summary>The family name differs by a letter or two and sounds alike.</summary>
    FamilySound = 12,

    /// <summary>The family name is the same, and on one side nothing else is known of the person.</summary>
    FamilyOnly = 13,

    /// <summary>A curator has said that both are one person.</summary>
    OnePerson = 14,

    /// <summary>A curator has put both on record as two persons.</summary>
    TwoOnRecord = 15,

    /// <summary>One side has no number.</summary>
    NumberLost = 16,

    /// <summary>Neither side has a number.</summary>
    NoNumbers = 17,

    /// <summary>A prefix stands on one side only.</summary>
    PrefixOnOneSide = 18,

    /// <summary>A suffix stands on one side only.</summary>
    SuffixOnOneSide = 19,

    /// <summary>Both have suffixes, and they differ.</summary>
    OtherSuffix = 20,

    /// <summary>Both have prefixes, and they differ.</summary>
    OtherPrefix = 21,

    /// <summary>One digit is another, or two are swapped.</summary>
    NumberDigit = 22,

    /// <summary>A year series on one side, its serial number alone on the other.</summary>
    YearOfSeries = 23,

    /// <summary>Another number.</summary>
    OtherNumber = 24,

    /// <summary>A digit is missing on one side.</summary>
    DigitLost = 25,

    /// <summary>The number is the same, and somebody doubted it.</summary>
    NumberDoubted = 26,

    /// <summary>One date is coarser than the other and holds it.</summary>
    CoarserDate = 28,

    /// <summary>Day and month swapped.</summary>
    DayAndMonthSwapped = 29,

    /// <summary>The same day and month, a digit of the year off.</summary>
    YearDigit = 30,

    /// <summary>The same day, the neighbouring month.</summary>
    NeighbouringMonth = 31,

    /// <summary>The same day and year, another month.</summary>
    OtherMonth = 32,

    /// <summary>1 January, or the first of the month, as a data base fills in what it does not know.</summary>
    DefaultDay = 33,

    /// <summary>One day apart.</summary>
    OneDayApart = 34,

    /// <summary>A digit of the day off.</summary>
    DayDigit = 35,

    /// <summary>Another date.</summary>
    OtherDate = 36,

    /// <summary>Years apart that no one person's collecting spans.</summary>
    TwoPeople = 37,

    /// <summary>The same month or year or stretch, and no day on either side.</summary>
    SameCoarseDate = 38,

    /// <summary>At most 200 m apart.</summary>
    WithinTwoHundredMeters = 40,

    /// <summary>At most 2 km apart.</summary>
    WithinTwoKilometers = 41,

    /// <summary>The places are described in the same words.</summary>
    SameWords = 42,

    /// <summary>The places are described in similar words.</summary>
    SimilarWords = 43,

    /// <summary>Both uncertainty circles, and 2 km between them, hold both points.</summary>
    WithinUncertainty = 44,

    /// <summary>The same county, and nothing nearer is known.</summary>
    SameCounty = 45,

    /// <summary>A sign or a whole degree of a coordinate is off, or both coordinates are swapped.</summary>
    CoordinateSlip = 46,

    /// <summary>Another county.</summary>
    OtherCounty = 47,

    /// <summary>Another country or state.</summary>
    OtherRegion = 48,

    /// <summary>Farther apart than both uncertainty circles and 2 km.</summary>
    TooFarApart = 49,

    /// <summary>Other words, and no coordinates or county to go by.</summary>
    OtherWords = 50,

    /// <summary>The same words, in another state or country.</summary>
    SameWordsElsewhere = 51,

    /// <summary>Another determination within the genus.</summary>
    OtherSpecies = 52,

    /// <summary>One side has an infraspecific name, and the other has none.</summary>
    LessFinelyNamed = 53,

    /// <summary>The same epithet in another genus.</summary>
    OtherGenusSameEpithet = 54,

    /// <summary>Another genus.</summary>
    OtherGenus = 55,

    /// <summary>Another family: never to be accepted in bulk.</summary>
    OtherFamily = 56,

    /// <summary>One species, another infraspecific name.</summary>
    OtherInfraspecific = 57,

    /// <summary>At least one side was named to genus only.</summary>
    GenusOnly = 58,
}
