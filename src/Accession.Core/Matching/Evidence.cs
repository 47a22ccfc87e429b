namespace Accession.Core.Matching;

/// <summary>
/// Why two rows are of one gathering or not: field by field, in a form small enough to be stored with a finding and
/// turned into sentences when somebody looks. It holds no text of either row and no place.
/// </summary>
/// <param name="Who">The collectors.</param>
/// <param name="Number">The collector's numbers.</param>
/// <param name="When">The dates.</param>
/// <param name="Where">The places.</param>
/// <param name="What">The plants.</param>
/// <param name="Notes">What is to be said beside the fields.</param>
/// <param name="YearsApart">How many years lie between the dates, 0 to 4095; 0 also when a date is missing.</param>
public readonly record struct Evidence(
    FieldEvidence Who,
    FieldEvidence Number,
    FieldEvidence When,
    FieldEvidence Where,
    FieldEvidence What,
    EvidenceNotes Notes = EvidenceNotes.None,
    int YearsApart = 0)
{
    private const int NotesAt = 5 * FieldEvidence.Bits;
    private const int YearsAt = NotesAt + 8;
    private const int MostYears = 0xFFF;
    private const int NotesOfPersonsAt = YearsAt + 12;

    /// <summary>The evidence as one stored number; never negative.</summary>
    public long Packed => Who.Packed
        | (Number.Packed << FieldEvidence.Bits)
        | (When.Packed << (2 * FieldEvidence.Bits))
        | (Where.Packed << (3 * FieldEvidence.Bits))
        | (What.Packed << (4 * FieldEvidence.Bits))
        | (((long)Notes & 0xFF) << NotesAt)
        | (((long)Notes >> 8) << NotesOfPersonsAt)
        | ((long)Math.Min(YearsApart, MostYears) << YearsAt);

    /// <summary>Reads back what <see cref="Packed"/> gave.</summary>
    /// <param name="packed">The stored number.</param>
    public static Evidence FromPacked(long packed) => new(
        FieldEvidence.Unpacked(packed),
        FieldEvidence.Unpacked(packed >> FieldEvidence.Bits),
        FieldEvidence.Unpacked(packed >> (2 * FieldEvidence.Bits)),
        FieldEvidence.Unpacked(packed >> (3 * FieldEvidence.Bits)),
        FieldEvidence.Unpacked(packed >> (4 * FieldEvidence.Bits)),
        (EvidenceNotes)(((packed >> NotesAt) & 0xFF) | ((packed >> NotesOfPersonsAt) << 8)),
        (int)((packed >> YearsAt) & MostYears));

    /// <summary>How one of the five fields agrees.</summary>
    /// <param name="field">Which.</param>
    public FieldEvidence Of(EvidenceField field) => field switch
    {
        EvidenceField.Collector => Who,
        EvidenceField.Number => Number,
        EvidenceField.Date => When,
        EvidenceField.Place => Where,
        _ => What,
    };

    /// <summary>Whether a curator has to answer a question before the pair is settled.</summary>
    public bool HasQuestion => (Notes & (EvidenceNotes.Question | EvidenceNotes.WhoseNumber)) != 0;

    /// <summary>
    /// Whether the pair must be settled by itself and never with others in one stroke: the plants are of different
    /// families.
    /// </summary>
    public bool IsNeverInBulk => What.Slip == Slip.OtherFamily;

    /// <summary>
    /// The evidence in short sentences for a curator, what speaks for the pair before what speaks against it.
    /// </summary>
    /// <param name="kind">What the pair was found to be.</param>
    public IReadOnlyList<string> Sentences(FindingKind kind) => EvidenceSentences.Of(this, kind);
}

/// <summary>The fields of which evidence is weighed.</summary>
public enum EvidenceField
{
    /// <summary>Who gathered it.</summary>
    Collector,

    /// <summary>The collector's number.</summary>
    Number,

    /// <summary>When.</summary>
    Date,

    /// <summary>Where.</summary>
    Place,

    /// <summary>What it was named.</summary>
    Plant,
}

/// <summary>What is to be said beside the fields. The values are stored; do not renumber.</summary>
[Flags]
public enum EvidenceNotes
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>One contradiction that has a name: probably a slip of the pen, and to be asked about.</summary>
    Question = 1,

    /// <summary>Two first collectors: whose number is it?</summary>
    WhoseNumber = 2,

    /// <summary>The plants were named differently: look at the determinations.</summary>
    DeterminationDiffers = 4,

    /// <summary>More than 80 years apart: two people of one name.</summary>
    TwoPeople = 8,

    /// <summary>The record's own identifier is the same.</summary>
    SameRecord = 16,

    /// <summary>More than one person of the team agrees.</summary>
    TeamAgrees = 32,

    /// <summary>The numbers are of one run and not far from each other, as those of one day are.</summary>
    NeighbourNumber = 64,

    /// <summary>
    /// A clash that is none: date, place and number of the row fit the collector's other sheets of that day.
    /// </summary>
    TwoRuns = 128,

    /// <summary>One date is outside the years of the other side's person: two people of one name.</summary>
    OutsideYears = 256,

    /// <summary>The collector begins the numbers anew each year, and the years are not the same.</summary>
    AnotherYear = 512,
}
