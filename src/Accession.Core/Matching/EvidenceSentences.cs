using System.Globalization;

namespace Accession.Core.Matching;

/// <summary>Evidence in the words of the trade.</summary>
internal static class EvidenceSentences
{
    /// <summary>What speaks for the pair, what speaks against it, and what is to be asked.</summary>
    public static IReadOnlyList<string> Of(Evidence evidence, FindingKind kind)
    {
        List<string> sentences = [];
        if ((evidence.Notes & EvidenceNotes.SameRecord) != 0)
        {
            sentences.Add(kind == FindingKind.Repeat
                ? "The catalog number, the record's identifier or the whole row is the same: this record is "
                    + "here already."
                : "The catalog number or the record's identifier is the same, but the records are not: "
                    + "one of them has a number that is not its own.");
        }

        foreach (var (sentence, _) in Fields(evidence).OrderBy(field => (int)field.Agreement switch
        {
            (int)Agreement.Same => 0,
            (int)Agreement.Near => 1,
            (int)Agreement.Contradicts => 2,
            _ => 3,
        }))
        {
            sentences.Add(sentence);
        }

        AddNotes(sentences, evidence, kind);
        return sentences;
    }

    private static IEnumerable<(string Sentence, Agreement Agreement)> Fields(Evidence evidence)
    {
        yield return (Who(evidence), evidence.Who.Agreement);
        yield return (Number(evidence.Number), evidence.Number.Agreement);
        yield return (When(evidence), evidence.When.Agreement);
        yield return (Where(evidence.Where), evidence.Where.Agreement);
        yield return (What(evidence.What), evidence.What.Agreement);
    }

    private static void AddNotes(List<string> sentences, Evidence evidence, FindingKind kind)
    {
        if ((evidence.Notes & EvidenceNotes.TwoPeople) != 0)
        {
            sentences.Add(string.Create(CultureInfo.InvariantCulture,
                $"{evidence.YearsApart} years apart: two people of one name."));
        }

        if ((evidence.Notes & EvidenceNotes.OutsideYears) != 0)
        {
            sentences.Add("Outside the years in which this collector collected: two people of one name.");
        }

        if ((evidence.Notes & EvidenceNotes.AnotherYear) != 0)
        {
            sentences.Add("This collector begins the numbers anew each year: in another year it is another number.");
        }

        if ((evidence.Notes & EvidenceNotes.TwoRuns) != 0)
        {
            sentences.Add("The collector's other sheets of that day agree with this row in place and run of numbers: "
                + "two runs, or two people of one name.");
        }

        if (kind is FindingKind.New or FindingKind.Repeat)
        {
            return;
        }

        if (kind == FindingKind.NumberClash)
        {
            sentences.Add("One collector does not use a number twice: ask the collector which date and place are "
                + "right.");
        }
        else if ((evidence.Notes & EvidenceNotes.WhoseNumber) != 0)
        {
            sentences.Add("Whose number is it? Look at the labels for the numbering collector.");
        }
        else if ((evidence.Notes & EvidenceNotes.Question) != 0)
        {
            sentences.Add("All else agrees, so this is probably a slip of the pen: look at the labels.");
        }

        if (evidence.IsNeverInBulk)
        {
            sentences.Add("The plants are of different families: settle this pair by itself; the sheets may have been "
                + "mixed up.");
        }
        else if ((evidence.Notes & EvidenceNotes.DeterminationDiffers) != 0)
        {
            sentences.Add("The determinations differ; one of the sheets may need a new one.");
        }
    }

    private static string Who(Evidence evidence) => evidence.Who switch
    {
        { Slip: Slip.FamilyLetters } => "The family name of the collector differs by a letter or two.",
        { Slip: Slip.FamilySound } => "The family name of the collector sounds the same; the spelling differs.",
        { Slip: Slip.FamilyCutShort } => "The family name of the collector is cut short on one side.",
        { Slip: Slip.FamilyOnly } => "The family name of the collector is the same; one side has no more of the name.",
        { Slip: Slip.InitialsForName } => "One side has only initials, and they fit the name on the other.",
        { Slip: Slip.GivenNames } => "The family name is the same; given names or initials differ or are left out.",
        { Slip: Slip.OtherFamilyName } => "One side has another of the collector's names as the family name.",
        { Slip: Slip.CompanionListed } => "The collector on one side is a companion on the other.",
        { Slip: Slip.TeamOrder } => "The same people collected, in another order.",
        { Slip: Slip.SuffixOfName } => "One side has a suffix such as Jr. and the other has none: one person or two?",
        { Slip: Slip.OtherInitials } => "The family name is the same, the initials are not.",
        { Slip: Slip.OnePerson } => "A curator has said that these are one person.",
        { Slip: Slip.TwoOnRecord } => "A curator has said that these are two people.",
        { Slip: Slip.OtherLeader } => "Another collector comes first; a companion is the same.",
        { Slip: Slip.OtherCollector } => "The collectors are not the same.",
        { Agreement: Agreement.Same } when (evidence.Notes & EvidenceNotes.TeamAgrees) != 0 => "The team is the same.",
        { Agreement: Agreement.Same } => "The collector is the same.",
        _ => "On one side no collector is known.",
    };

    private static string Number(FieldEvidence number) => number switch
    {
        { Slip: Slip.NumberLost } => "One side has no number.",
        { Slip: Slip.NoNumbers } => "Neither side has a number.",
        { Slip: Slip.PrefixOnOneSide } => "The number is the same, with a prefix on one side only.",
        { Slip: Slip.SuffixOnOneSide } => "The suffix differs: one side has one, the other has none.",
        { Slip: Slip.OtherSuffix } => "The suffixes differ.",
        { Slip: Slip.OtherPrefix } => "The prefixes differ.",
        { Slip: Slip.NumberDigit } => "The numbers differ by one digit, or two digits are swapped.",
        { Slip: Slip.NumberDoubted } => "The number is the same, and on one side it is in doubt.",
        { Slip: Slip.DigitLost } => "The numbers are the same but for one digit that is missing on one side.",
        { Slip: Slip.YearOfSeries } => "One number has a year before it; the other is the serial number alone.",
        { Slip: Slip.OtherNumber } => "The numbers are not the same.",
        { Agreement: Agreement.Same } => "The number is the same.",
        _ => "The numbers cannot be compared.",
    };

    private static string When(Evidence evidence) => evidence.When switch
    {
        { Slip: Slip.CoarserDate } => "The dates agree as far as both go.",
        { Slip: Slip.SameCoarseDate } => "The dates are the same, and neither is to the day.",
        { Slip: Slip.DayAndMonthSwapped } => "Day and month are swapped.",
        { Slip: Slip.YearDigit } => "Day and month are the same; one digit of the year is off.",
        { Slip: Slip.NeighbouringMonth } => "The months are neighbours.",
        { Slip: Slip.OtherMonth } => "Day and year are the same; the month is not.",
        { Slip: Slip.DefaultDay } => "One date is the first of a month or year, as is written for a day not known.",
        { Slip: Slip.OneDayApart } => "The dates are one day apart.",
        { Slip: Slip.DayDigit } => "Month and year are the same; one digit of the day is off.",
        { Slip: Slip.OtherDate or Slip.TwoPeople } => evidence.YearsApart > 1
            ? string.Create(CultureInfo.InvariantCulture, $"The dates are {evidence.YearsApart} years apart.")
            : "The dates are not the same.",
        { Agreement: Agreement.Same } => "The date is the same.",
        _ => "On one side the date is missing.",
    };

    private static string Where(FieldEvidence where) => where switch
    {
        { Slip: Slip.WithinTwoHundredMeters } => "The places are at most 200 m apart.",
        { Slip: Slip.WithinTwoKilometers } => "The places are at most 2 km apart.",
        { Slip: Slip.SameWords } => "The place is described in the same words.",
        { Slip: Slip.SimilarWords } => "The place is described in similar words.",
        { Slip: Slip.WithinUncertainty } => "The places agree as far as the coordinates are certain.",
        { Slip: Slip.SameCounty } => "The county is the same; nothing nearer is known.",
        { Slip: Slip.CoordinateSlip } => "The coordinates differ by a sign or a whole degree, or are swapped.",
        { Slip: Slip.SameWordsElsewhere } => "The place is described in the same words, in another state or country.",
        { Slip: Slip.OtherCounty } => "The counties are not the same.",
        { Slip: Slip.OtherRegion } => "The countries or states are not the same.",
        { Slip: Slip.TooFarApart } => "The places are farther apart than the coordinates are uncertain.",
        { Slip: Slip.OtherWords } => "The places are described in other words, and nothing else is known of them.",
        _ => "The places cannot be compared.",
    };

    private static string What(FieldEvidence what) => what switch
    {
        { Slip: Slip.OtherSpecies } => "The genus is the same; the species is not.",
        { Slip: Slip.LessFinelyNamed } => "The species is the same; one side has an infraspecific name too.",
        { Slip: Slip.GenusOnly } => "The genus is the same; on one side at least nothing finer is known.",
        { Slip: Slip.OtherGenusSameEpithet } => "The epithet is the same, in another genus.",
        { Slip: Slip.OtherInfraspecific } => "The species is the same; the infraspecific name is not.",
        { Slip: Slip.OtherGenus } => "The genera are not the same.",
        { Slip: Slip.OtherFamily } => "The families are not the same.",
        { Agreement: Agreement.Same } => "The plant has the same name.",
        _ => "On one side the plant has no name.",
    };
}
