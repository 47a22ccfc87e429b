namespace Accession.Core.Matching;

/// <summary>
/// How far the evidence of a pair may go, whatever it weighs. A contradiction with a name, such as a swapped day and
/// month, is a slip of the pen while all else agrees; without a name somebody must look; and two contradictions under
/// one collector and number are a clash. Another plant never breaks a pair.
/// </summary>
internal static class Rules
{
    private const EvidenceNotes Plain = EvidenceNotes.None;

    /// <summary>The greatest kind that the evidence allows, and what is to be asked.</summary>
    public static (FindingKind Kind, EvidenceNotes Notes) Of(Evidence pair) => pair.When.Slip == Slip.TwoPeople
        ? (FindingKind.New, Plain)
        : pair.Number.Agreement switch
        {
            Agreement.Same => ByNumber(pair),
            Agreement.Near => ByNearNumber(pair),
            Agreement.Missing => WithoutNumber(pair),
            _ => (FindingKind.New, Plain),
        };

    private static (FindingKind Kind, EvidenceNotes Notes) ByNumber(Evidence pair) => pair.Who switch
    {
        { Agreement: Agreement.Same } => ByCollectorAndNumber(pair),
        { Agreement: Agreement.Missing } => ByNumberAlone(pair),
        { Slip: Slip.SuffixOfName } when (pair.Notes & EvidenceNotes.TeamAgrees) != 0 => ByCollectorAndNumber(pair),
        { Slip: Slip.SuffixOfName } when Contradictions(pair) == 0 && IsFullDate(pair)
            && pair.Where.Agreement == Agreement.Same && pair.What.Agreement == Agreement.Same =>
            (FindingKind.SameGathering, EvidenceNotes.Question),
        { Slip: Slip.SuffixOfName } => (Contradictions(pair) == 0 ? FindingKind.Possible : FindingKind.New, Plain),
        { Slip: Slip.FamilyLetters or Slip.FamilySound or Slip.FamilyCutShort } => ByNearName(pair),
        { Slip: Slip.GivenNames or Slip.OtherFamilyName } => ByNearName(pair),
        { Slip: Slip.TeamOrder or Slip.CompanionListed or Slip.InitialsForName } => ByOtherLeader(pair),
        _ => (pair.When is { Agreement: Agreement.Same } && IsPlaceAgreed(pair)
            ? FindingKind.Possible
            : FindingKind.New, Plain),
    };

    private static (FindingKind Kind, EvidenceNotes Notes) ByCollectorAndNumber(Evidence pair) =>
        Contradictions(pair) switch
        {
            0 => (IsDateAgreed(pair) || IsPlaceAgreed(pair)
                ? FindingKind.SameGathering
                : FindingKind.Possible, Plain),
            1 when IsOtherwherePlain(pair) && pair.Number.Slip != Slip.NumberDoubted =>
                (FindingKind.NumberClash, EvidenceNotes.Question),
            1 when IsSlipWhileTheRestAgrees(pair) => (FindingKind.SameGathering, EvidenceNotes.Question),
            1 => (FindingKind.Possible, Plain),
            _ when pair.Number.Slip == Slip.NumberDoubted => (FindingKind.Possible, Plain),
            _ => (FindingKind.NumberClash, EvidenceNotes.Question),
        };

    private static bool IsSlipWhileTheRestAgrees(Evidence pair) => IsDateSlip(pair)
        && (pair.Where.Agreement == Agreement.Same
            ? pair.What.Slip != Slip.OtherFamily
            : pair.Where.Slip is Slip.WithinTwoKilometers or Slip.SimilarWords
                && pair.What.Slip is not (Slip.OtherFamily or Slip.OtherGenus));

    // The name is the slip: the rest must agree, and nothing else may have slipped.
    private static (FindingKind Kind, EvidenceNotes Notes) ByNearName(Evidence pair) => Contradictions(pair) switch
    {
        0 when IsFullDate(pair) => (FindingKind.SameGathering, Plain),
        0 when IsHeardAlike(pair.Who) && pair.Where.Agreement == Agreement.Same => (FindingKind.SameGathering, Plain),
        0 => (FindingKind.Possible, Plain),
        1 when (IsDateSlip(pair) && IsPlaceAgreed(pair)) || IsFullDate(pair) => (FindingKind.Possible, Plain),
        2 when pair.Who.Slip == Slip.FamilySound => (FindingKind.NumberClash, EvidenceNotes.Question),
        _ => (FindingKind.New, Plain),
    };

    private static (FindingKind Kind, EvidenceNotes Notes) ByOtherLeader(Evidence pair)
    {
        var question = pair.Who.Slip == Slip.InitialsForName ? EvidenceNotes.Question : EvidenceNotes.WhoseNumber;
        return Contradictions(pair) switch
        {
            0 when IsFullDate(pair) && IsPlaceAgreed(pair) => (FindingKind.SameGathering, question),
            0 => (FindingKind.Possible, question),
            1 when (IsDateSlip(pair) && IsPlaceAgreed(pair)) || IsFullDate(pair) => (FindingKind.Possible, question),
            _ => (FindingKind.New, Plain),
        };
    }

    private static (FindingKind Kind, EvidenceNotes Notes) ByNumberAlone(Evidence pair) =>
        !IsFullDate(pair) || pair.Where.Agreement == Agreement.Contradicts ? (FindingKind.New, Plain)
        : pair.Where.Agreement == Agreement.Same && pair.What.Agreement is Agreement.Same or Agreement.Near
            ? (FindingKind.SameGathering, EvidenceNotes.Question)
            : (FindingKind.Possible, Plain);

    private static (FindingKind Kind, EvidenceNotes Notes) ByNearNumber(Evidence pair)
    {
        var isSamePerson = pair.Who.Agreement is Agreement.Same or Agreement.Near;
        var none = Contradictions(pair) == 0;
        return !isSamePerson ? (FindingKind.New, Plain) : pair.Number.Slip switch
        {
            Slip.PrefixOnOneSide when none && IsFullDate(pair) && IsPlaceAgreed(pair)
                && pair.Who.Agreement == Agreement.Same => (FindingKind.SameGathering, EvidenceNotes.Question),
            Slip.PrefixOnOneSide when none || (IsDateSlip(pair) && IsPlaceAgreed(pair)) =>
                (FindingKind.Possible, Plain),
            Slip.SuffixOnOneSide or Slip.YearOfSeries when none && (IsDateAgreed(pair) || IsPlaceAgreed(pair)) =>
                (FindingKind.Possible, Plain),
            Slip.NumberDigit or Slip.DigitLost when IsAllButNumber(pair) =>
                (IsSlipOfNumber(pair) ? FindingKind.SameGathering : FindingKind.Possible, EvidenceNotes.Question),
            _ => (FindingKind.New, Plain),
        };
    }

    private static bool IsAllButNumber(Evidence pair) => IsFullDate(pair)
        && pair.Where.Agreement == Agreement.Same && pair.What.Agreement == Agreement.Same;

    // Numbers that differ in a digit and are near are two gatherings of one day as likely as a slip. Those that are far
    // from each other, or lack a digit, are not: nobody gathers one plant twice at one place, a hundred numbers apart.
    private static bool IsSlipOfNumber(Evidence pair) => pair.Who.Agreement == Agreement.Same
        && (pair.Number.Slip == Slip.DigitLost || (pair.Notes & EvidenceNotes.NeighbourNumber) == 0);

    // Without a number the rest must carry the pair: team, full date, place and plant.
    private static (FindingKind Kind, EvidenceNotes Notes) WithoutNumber(Evidence pair)
    {
        if (pair.Who.Agreement is Agreement.Missing or Agreement.Contradicts
            || pair.When.Agreement == Agreement.Contradicts || pair.Where.Agreement == Agreement.Contradicts)
        {
            return (FindingKind.New, Plain);
        }

        var isLost = pair.Number.Slip == Slip.NumberLost;
        var isDated = IsFullDate(pair)
            || (isLost && pair.When.Slip == Slip.SameCoarseDate && pair.What.Agreement == Agreement.Same);
        var isPlaced = pair.Where.Agreement == Agreement.Same
            || (IsFullDate(pair) && pair.Where.Slip == Slip.WithinTwoKilometers);
        var isNamed = pair.What is { Agreement: Agreement.Same }
            or { Slip: Slip.LessFinelyNamed or Slip.OtherGenusSameEpithet };
        var isTeam = pair.Who.Agreement == Agreement.Same
            || (pair.Who.Slip == Slip.TeamOrder && IsFullDate(pair));
        if (isTeam && isDated && isPlaced && isNamed)
        {
            return (FindingKind.SameGathering, isLost ? EvidenceNotes.Question : Plain);
        }

        return !IsFullDate(pair)
            ? (isPlaced && pair.What.Agreement == Agreement.Same ? FindingKind.Possible : FindingKind.New, Plain)
            : (pair.Where.Agreement != Agreement.Missing || pair.What.Agreement is Agreement.Same or Agreement.Near
                ? FindingKind.Possible
                : FindingKind.New, Plain);
    }

    // Only names that sound alike meet in a key without the day.
    private static bool IsHeardAlike(FieldEvidence who) => who.Slip is Slip.FamilySound or Slip.GivenNames;

    // Another date, and the places are told in quite other words: the second contradiction is only not provable.
    private static bool IsOtherwherePlain(Evidence pair) =>
        pair.When.Slip == Slip.OtherDate && pair.Where.Slip == Slip.OtherWords;

    /// <summary>
    /// Whether two records of one identifier may be one record: at most one of their fields was corrected since.
    /// </summary>
    public static bool MayBeOneRecord(Evidence pair) => Corrections(pair) <= 1;

    private static int Corrections(Evidence pair) =>
        CorrectionsOf(pair.Who, Slip.OtherCollector, Slip.OtherInitials)
        + CorrectionsOf(pair.Number, Slip.OtherNumber, Slip.OtherSuffix)
        + (pair.Number.Slip is Slip.NumberDigit or Slip.DigitLost ? 1 : 0)
        + CorrectionsOf(pair.When, Slip.OtherDate, Slip.TwoPeople)
        + CorrectionsOf(pair.Where, Slip.OtherRegion, Slip.OtherCounty)
        + (pair.What.Agreement == Agreement.Contradicts ? 1 : 0);

    // What is quite another is more than one correction.
    private static int CorrectionsOf(FieldEvidence field, Slip other, Slip another) =>
        field.Agreement != Agreement.Contradicts ? 0 : field.Slip == other || field.Slip == another ? 2 : 1;

    private static int Contradictions(Evidence pair) =>
        (pair.When.Agreement == Agreement.Contradicts ? 1 : 0)
        + (pair.Where.Agreement == Agreement.Contradicts ? 1 : 0);

    private static bool IsFullDate(Evidence pair) => pair.When.Agreement == Agreement.Same;

    private static bool IsDateAgreed(Evidence pair) => pair.When.Agreement is Agreement.Same or Agreement.Near;

    private static bool IsDateSlip(Evidence pair) => pair.When is
    {
        Agreement: Agreement.Contradicts,
        Slip: not (Slip.OtherDate or Slip.TwoPeople),
    };

    // Two sheets of one county are not of one place yet.
    private static bool IsPlaceAgreed(Evidence pair) => pair.Where is { Agreement: Agreement.Same }
        or { Agreement: Agreement.Near, Slip: not (Slip.SameCounty or Slip.SameWordsElsewhere) };
}
