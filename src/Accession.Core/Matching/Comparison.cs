namespace Accession.Core.Matching;

/// <summary>
/// What two signatures are to each other: a kind, the evidence, and its weight. Rules decide how far a pair may go, the
/// sum of weights whether the evidence is enough to go there. Comparing is symmetric and allocates nothing.
/// </summary>
/// <param name="Kind">What the pair is.</param>
/// <param name="Evidence">Why.</param>
/// <param name="Weight">The sum of weights: the greater, the closer.</param>
public readonly record struct Comparison(FindingKind Kind, Evidence Evidence, int Weight)
{
    /// <summary>Two dates farther apart than this are two people's, in years.</summary>
    public const int YearsOfTwoPeople = 80;

    /// <summary>Compares two signatures. It never answers a repeat: only an identity can.</summary>
    /// <param name="one">A gathering or row.</param>
    /// <param name="other">Another.</param>
    public static Comparison Between(in Signature one, in Signature other) =>
        Between(one, other, KnownPersons.Nobody);

    /// <summary>Compares two signatures in the light of what curators said of persons.</summary>
    /// <param name="one">A gathering or row.</param>
    /// <param name="other">Another.</param>
    /// <param name="known">What was said.</param>
    public static Comparison Between(in Signature one, in Signature other, KnownPersons known)
    {
        ArgumentNullException.ThrowIfNull(known);
        var persons = known.IsEmpty ? default : PersonComparison.Of(one, other, known);
        var who = WhoComparison.Between(one.Team, other.Team, out var teamAgrees);
        who = persons.Who(who, one, other);
        var number = NumberComparison.Between(one.Numbers, other.Numbers);
        var when = DateComparison.Between(one.Date, other.Date);
        var years = DateComparison.YearsBetween(one.Date, other.Date);
        var notes = teamAgrees ? EvidenceNotes.TeamAgrees : EvidenceNotes.None;
        if (years > YearsOfTwoPeople && IsAgreed(who) && IsAgreed(number))
        {
            when = new(Agreement.Contradicts, Slip.TwoPeople);
            notes |= EvidenceNotes.TwoPeople;
        }

        var where = PlaceComparison.Between(one.Place, other.Place);
        if (IsAgreed(who) && IsAgreed(number))
        {
            if (persons.IsOutsideYears(one, other, when, where))
            {
                when = new(Agreement.Contradicts, Slip.TwoPeople);
                notes |= EvidenceNotes.OutsideYears;
            }
            else if (persons.IsOfAnotherYear(one, other, number))
            {
                notes |= EvidenceNotes.AnotherYear;
            }
        }

        var what = PlantComparison.Between(one.Plant, other.Plant);
        if (what.Agreement == Agreement.Contradicts
            || what.Slip is Slip.OtherGenusSameEpithet or Slip.OtherInfraspecific)
        {
            notes |= EvidenceNotes.DeterminationDiffers;
        }

        if (NumberComparison.AreNeighbours(one.Numbers.First, other.Numbers.First))
        {
            notes |= EvidenceNotes.NeighbourNumber;
        }

        var evidence = new Evidence(who, number, when, where, what, notes, years);
        return Judged(evidence);
    }

    /// <summary>
    /// The same pair when an identity of the record is the same: a repeat, unless the records have so little in common
    /// that one of them bears a number which is not its own. Then somebody must look.
    /// </summary>
    public Comparison AsRepeat() => this with
    {
        Kind = Rules.MayBeOneRecord(Evidence) ? FindingKind.Repeat
            : (FindingKind)Math.Max((int)Kind, (int)FindingKind.Possible),
        Evidence = Evidence with { Notes = Evidence.Notes | EvidenceNotes.SameRecord },
    };

    private static bool IsAgreed(FieldEvidence field) => field.Agreement is Agreement.Same or Agreement.Near;

    // A number that comes each year says little: what looks like a slip of the year is to be looked at.
    private static (FindingKind Kind, EvidenceNotes Notes) OfAnotherYear(
        FindingKind kind, Evidence evidence, EvidenceNotes notes) =>
        kind is FindingKind.SameGathering or FindingKind.Possible
            && evidence is { Where.Agreement: Agreement.Same, What.Agreement: Agreement.Same }
                ? (FindingKind.Possible, notes)
                : (FindingKind.New, notes & ~(EvidenceNotes.Question | EvidenceNotes.WhoseNumber));

    private static Comparison Judged(Evidence evidence) => Judged(evidence, Weights.Sum(evidence));

    /// <summary>What the rules and a sum of weights make of evidence.</summary>
    internal static Comparison Judged(Evidence evidence, int weight)
    {
        var (kind, notes) = Rules.Of(evidence);
        if (kind == FindingKind.SameGathering && weight < Weights.ForSameGathering)
        {
            kind = FindingKind.Possible;
        }

        var isCollectorsNumber = evidence is { Who.Agreement: Agreement.Same, Number.Agreement: Agreement.Same };
        if (kind == FindingKind.Possible && weight < Weights.ForPossible && !isCollectorsNumber)
        {
            kind = FindingKind.New;
        }

        if ((evidence.Notes & EvidenceNotes.AnotherYear) != 0)
        {
            (kind, notes) = OfAnotherYear(kind, evidence, notes);
        }

        return new(kind, evidence with { Notes = evidence.Notes | notes }, weight);
    }
}
