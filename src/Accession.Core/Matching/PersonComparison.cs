using Accession.Core.People;

namespace Accession.Core.Matching;

/// <summary>What curators said of the persons on both sides of a pair, beside what the labels say.</summary>
/// <param name="One">The person of one side; null where nobody is known.</param>
/// <param name="Other">The person of the other side; null where nobody is known.</param>
internal readonly record struct PersonComparison(KnownSpelling? One, KnownSpelling? Other)
{
    /// <summary>Looks up both sides.</summary>
    public static PersonComparison Of(in Signature one, in Signature other, KnownPersons known) =>
        new(known.Of(one.Team, one.Date), known.Of(other.Team, other.Date));

    private bool AreOne => One is { } one && Other is { } other && one.PersonId == other.PersonId;

    private bool AreTwo => One is { } one && Other is { } other && one.PersonId != other.PersonId;

    /// <summary>
    /// The collectors in the light of it: one person under two spellings agrees fully, and two persons are two, however
    /// alike their names are.
    /// </summary>
    public FieldEvidence Who(FieldEvidence who, in Signature one, in Signature other) =>
        AreOne && who is not { Agreement: Agreement.Same, Slip: Slip.None }
            ? new(Agreement.Same, Slip.OnePerson)
        : AreTwo && IsAgreed(WhoComparison.Persons(one.Team[0], other.Team[0]))
            ? new(Agreement.Contradicts, Slip.TwoOnRecord)
        : who;

    /// <summary>
    /// Whether the date of one side is outside the years of the other side's person: somebody else of that name. A slip
    /// of the date that has a name, at the same place, is a slip rather than another person.
    /// </summary>
    public bool IsOutsideYears(in Signature one, in Signature other, FieldEvidence when, FieldEvidence where) =>
        when.Agreement == Agreement.Contradicts
        && (when.Slip == Slip.OtherDate || where.Agreement != Agreement.Same)
        && (IsOutside(One, other.Date) || IsOutside(Other, one.Date));

    /// <summary>
    /// Whether both sides have one number of a collector who begins anew each year, in different years. A number that
    /// has its year before it does not come again.
    /// </summary>
    public bool IsOfAnotherYear(in Signature one, in Signature other, FieldEvidence number) =>
        !AreTwo && (One ?? Other) is { Habit: NumberingHabit.RestartsYearly }
        && number.Agreement == Agreement.Same
        && (one.Numbers.First.Before == 0 || other.Numbers.First.Before == 0)
        && one.Date.Year is { } mine && other.Date.Year is { } theirs && mine != theirs;

    private static bool IsOutside(KnownSpelling? person, in DateMark date) =>
        person is { Years: { AreStated: true } years } && date.IsPresent && !date.MeetsYears(years);

    private static bool IsAgreed(FieldEvidence field) => field.Agreement is Agreement.Same or Agreement.Near;
}
