using Accession.Core.Batches;
using Accession.Core.Localities;
using Accession.Core.Outcomes;

namespace Accession.Core.Gatherings;

/// <summary>
/// What one team collected of one kind at one place and time (the International Code of Nomenclature for algae, fungi,
/// and plants, Art. 8.2, footnote), usually under one collector number. It carries the field notes. Its place is what
/// everyone may see; what only some may see stands in <see cref="ExactLocality"/>.
/// </summary>
public sealed partial class Gathering
{
    private readonly List<LocalityProtection> _protections = [];

    private Gathering()
    {
    }

    /// <summary>The key in the database, and the number in the gathering's address.</summary>
    public long Id { get; private set; }

    /// <summary>The accession that took it in.</summary>
    public long AccessionId { get; private set; }

    /// <summary>The act that took it in.</summary>
    public long ActId { get; private set; }

    /// <summary>The row of the batch it was read from.</summary>
    public long BatchRowId { get; private set; }

    /// <summary>
    /// The gathering in the register of which this is another record, because a curator kept its sheets as duplicates;
    /// null when there is none. It is the first of them, never one that is itself another's.
    /// </summary>
    public long? DuplicateOfId { get; private set; }

    /// <summary>The version of the signature by which duplicates are found; 0 until one was made.</summary>
    public int SignatureVersion { get; private set; }

    /// <summary>What was read from the row, and what was written there.</summary>
    public FieldNotes Notes { get; private set; } = null!;

    /// <summary>Where it grew, as everyone may know it.</summary>
    public PublicPlace Place { get; private set; } = null!;

    /// <summary>
    /// The county and state as they are compared, which no protection hides; empty when either is missing, null in a
    /// register that was not brought up yet. See <see cref="CountyName.KeyOf"/>.
    /// </summary>
    public string? CountyKey { get; private set; }

    /// <summary>How strongly its place is protected now; computed from the entries.</summary>
    public SensitivityCategory Protection { get; private set; } = SensitivityCategory.NotSensitive;

    /// <summary>Every decision to protect its place or to lift the protection, the oldest first.</summary>
    public IReadOnlyList<LocalityProtection> Protections => _protections;

    /// <summary>How many sheets of it are expected in the pile.</summary>
    public int SheetsExpected { get; private set; }

    /// <summary>How many of its sheets have a number; computed from the specimens.</summary>
    public int SheetsNumbered { get; private set; }

    /// <summary>Renewed by every verb, so that two people who change it at once cannot both save.</summary>
    public Guid Version { get; private set; }

    /// <summary>Takes a settled row into the register.</summary>
    /// <param name="accessionId">The accession.</param>
    /// <param name="actId">The act that takes it in.</param>
    /// <param name="batchRowId">The row.</param>
    /// <param name="row">What was read from the row.</param>
    public static Gathering TakeIn(long accessionId, long actId, long batchRowId, RowReading row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return new()
        {
            AccessionId = accessionId,
            ActId = actId,
            BatchRowId = batchRowId,
            Notes = row.Notes,
            Place = row.Place,
            CountyKey = CountyName.KeyOf(row.Place.StateProvince, row.Place.County),
            SheetsExpected = row.Sheets,
            Version = Guid.NewGuid(),
        };
    }

    /// <summary>Makes its sheets duplicates of those of another gathering.</summary>
    /// <param name="first">The other gathering, or the first of its duplicates.</param>
    /// <exception cref="ArgumentException">The other is a duplicate itself, or this very gathering.</exception>
    public void KeepAsDuplicateOf(Gathering first)
    {
        ArgumentNullException.ThrowIfNull(first);
        if (first.DuplicateOfId is not null || first == this)
        {
            throw new ArgumentException("Only the first of the duplicates holds them together.", nameof(first));
        }

        (DuplicateOfId, Version) = (first.Id, Guid.NewGuid());
    }

    /// <summary>Counts one more of its sheets as numbered, or says why there is none left to number.</summary>
    public Refusal? NumberSheet()
    {
        if (WhyNoSheetIsLeft() is { } refusal)
        {
            return refusal;
        }

        SheetsNumbered++;
        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>Why none of its sheets is left to number; null while there is one.</summary>
    public Refusal? WhyNoSheetIsLeft() => SheetsNumbered < SheetsExpected
        ? null
        : new(RefusalKind.Conflict, SheetsExpected == 1
            ? $"{Label} was listed with one sheet, and that sheet has its number. "
                + "If there is one more in the pile, add it to the count first."
            : $"All {SheetsExpected} sheets of {Label} have their numbers. "
                + "If there is one more in the pile, add it to the count first.");

    /// <summary>Counts one more sheet in the pile than the list promised.</summary>
    public void ExpectAnotherSheet()
    {
        SheetsExpected++;
        Version = Guid.NewGuid();
    }

    /// <summary>
    /// Protects its place, more or less strongly than before, or lifts the protection. What everyone may know is made
    /// anew from the exact place in the same act.
    /// </summary>
    /// <param name="decision">How sensitive the place is from now on, and when to look at it again.</param>
    /// <param name="held">The exact place that is kept apart already; null while nothing is.</param>
    /// <param name="act">The act: who, when and why; a reason is needed.</param>
    /// <returns>The exact place to be kept apart from now on, or why nothing was changed.</returns>
    /// <exception cref="InvalidOperationException">The place is protected and nothing is held.</exception>
    public Outcome<ExactLocality> Protect(LocalityProtection.Decision decision, ExactLocality? held, Act act)
    {
        if (act.Reason is null)
        {
            return new Refusal(RefusalKind.Invalid, "Write why: whoever reviews the decision must know.");
        }

        // Looked at again and kept until a later day is a decision too.
        var due = _protections.Count == 0 ? null : _protections[^1].ReviewOn;
        if (decision.Category == Protection
            && (decision.Category == SensitivityCategory.NotSensitive || decision.ReviewOn == due))
        {
            return new Refusal(RefusalKind.Conflict, $"The place of {Label} is protected in just this way already.");
        }

        if (held is null && Protection != SensitivityCategory.NotSensitive)
        {
            // Taking the generalised place for the exact one would lose the exact one for good.
            throw new InvalidOperationException("The place is protected, and its exact place was not given.");
        }

        var exact = held ?? ExactLocality.Of(this);
        _protections.Add(new LocalityProtection(act, decision));
        Protection = decision.Category;
        Place = exact.AsEveryoneMayKnow(Place, decision.Category);
        Version = Guid.NewGuid();
        return exact;
    }

    /// <summary>Collector and number as people say them: "J. R. Sandover 812".</summary>
    public string Label => string.IsNullOrEmpty(Notes.RecordNumber)
        ? Notes.RecordedBy
        : $"{Notes.RecordedBy} {Notes.RecordNumber}";
}
