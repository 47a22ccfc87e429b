namespace Accession.Core.Matching;

/// <summary>
/// What each agreement and contradiction weighs: the one place where weights stand. They are added up in the manner of
/// Fellegi and Sunter (A theory for record linkage, Journal of the American Statistical Association 64, 1969), but
/// they are judgement and were not estimated; the labelled samples were looked at to choose them. They decide only
/// within the rules of <see cref="Comparison"/>: no sum makes up for a rule. Ten points are a factor of ten in the
/// odds. What a register says of them is estimated by <see cref="WeightEstimate"/>, which changes none.
/// </summary>
internal static class Weights
{
    /// <summary>The least sum of a <see cref="FindingKind.SameGathering"/>.</summary>
    public const int ForSameGathering = 60;

    /// <summary>The least sum of a <see cref="FindingKind.Possible"/>.</summary>
    public const int ForPossible = 45;

    /// <summary>What one field weighs.</summary>
    /// <param name="field">How it agrees.</param>
    public static int Of(FieldEvidence field) => field.Slip switch
    {
        Slip.FamilyLetters => 18,
        Slip.FamilySound => 20,
        Slip.FamilyCutShort => 18,
        Slip.FamilyOnly => 25,
        Slip.InitialsForName => 10,
        Slip.GivenNames => 20,
        Slip.OtherFamilyName => 18,
        Slip.CompanionListed => 15,
        Slip.TeamOrder => 25,
        Slip.SuffixOfName => 15,
        Slip.OtherInitials => -20,
        Slip.OtherCollector => -30,
        Slip.OtherLeader => -10,
        Slip.OnePerson => SameCollector,
        Slip.TwoOnRecord => -30,
        Slip.NumberLost => 0,
        Slip.NoNumbers => 5,
        Slip.PrefixOnOneSide => 15,
        Slip.SuffixOnOneSide => 10,
        Slip.OtherSuffix => -20,
        Slip.OtherPrefix => -20,
        Slip.NumberDigit => 10,
        Slip.DigitLost => 10,
        Slip.NumberDoubted => 25,
        Slip.YearOfSeries => 10,
        Slip.OtherNumber => -40,
        Slip.CoarserDate => 15,
        Slip.SameCoarseDate => 15,
        Slip.DayAndMonthSwapped => -5,
        Slip.YearDigit => -5,
        Slip.NeighbouringMonth => -5,
        Slip.OtherMonth => -8,
        Slip.DefaultDay => 0,
        Slip.OneDayApart => 8,
        Slip.DayDigit => -5,
        Slip.OtherDate => -40,
        Slip.TwoPeople => -40,
        Slip.WithinTwoHundredMeters => 10,
        Slip.SameWords => 10,
        Slip.WithinTwoKilometers => 6,
        Slip.SimilarWords => 6,
        Slip.WithinUncertainty => 4,
        Slip.SameCounty => 3,
        Slip.CoordinateSlip => 2,
        Slip.SameWordsElsewhere => 0,
        Slip.OtherCounty => -25,
        Slip.OtherRegion => -40,
        Slip.TooFarApart => -25,
        Slip.OtherSpecies => -5,
        Slip.LessFinelyNamed => 8,
        Slip.GenusOnly => 5,
        Slip.OtherGenusSameEpithet => 5,
        Slip.OtherInfraspecific => 3,
        Slip.OtherGenus => -10,
        Slip.OtherFamily => -15,
        _ => 0,
    };

    /// <summary>What a collector who is the same weighs.</summary>
    public const int SameCollector = 30;

    /// <summary>What a number that is the same weighs.</summary>
    public const int SameNumber = 35;

    /// <summary>What a full date that is the same weighs.</summary>
    public const int SameDate = 20;

    /// <summary>What a plant that is the same weighs.</summary>
    public const int SamePlant = 10;

    /// <summary>The sum for a pair.</summary>
    /// <param name="evidence">How each field agrees.</param>
    public static int Sum(Evidence evidence) =>
        OfPlainOr(evidence.Who, SameCollector)
        + OfPlainOr(evidence.Number, SameNumber)
        + OfPlainOr(evidence.When, SameDate)
        + Of(evidence.Where)
        + OfPlainOr(evidence.What, SamePlant);

    /// <summary>What one field of a pair weighs.</summary>
    /// <param name="field">Which it is.</param>
    /// <param name="level">How it agrees.</param>
    public static int Of(EvidenceField field, FieldEvidence level) => field switch
    {
        EvidenceField.Collector => OfPlainOr(level, SameCollector),
        EvidenceField.Number => OfPlainOr(level, SameNumber),
        EvidenceField.Date => OfPlainOr(level, SameDate),
        EvidenceField.Plant => OfPlainOr(level, SamePlant),
        _ => Of(level),
    };

    private static int OfPlainOr(FieldEvidence field, int same) =>
        field is { Agreement: Agreement.Same, Slip: Slip.None } ? same : Of(field);
}
