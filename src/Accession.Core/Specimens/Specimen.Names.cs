using Accession.Core.Determinations;
using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

public sealed partial class Specimen
{
    private readonly List<NameChoice> _choices = [];
    private readonly List<FiledAsEntry> _filings = [];

    /// <summary>Every time a curator let an opinion count or kept it beside, the oldest first.</summary>
    public IReadOnlyList<NameChoice> Choices => _choices;

    /// <summary>
    /// The opinion whose name counts, where a curator chose one; null while it is the first of all.
    /// </summary>
    public long? CurrentDeterminationId { get; private set; }

    /// <summary>The name under which it lies in the cabinet; empty while nobody said.</summary>
    public string FiledAs { get; private set; } = "";

    /// <summary>Every name under which it lay, the oldest first.</summary>
    public IReadOnlyList<FiledAsEntry> Filings => _filings;

    /// <summary>
    /// Whether it lies under a name that no longer counts, and is to be moved to another folder.
    /// </summary>
    public bool IsToRefile => FiledAs.Length > 0 && FiledAs != CurrentName;

    /// <summary>Puts an opinion on record. It changes no name by itself: see <see cref="Choose"/>.</summary>
    /// <param name="opinion">What the slip says.</param>
    /// <param name="act">The act that records it.</param>
    /// <remarks>The gathering is loaded: the new name is one of the words by which the sheet is found.</remarks>
    /// <returns>The determination, or why it is not recorded: just this is on record already, or it denies a
    /// name of a sheet that has none.</returns>
    public Outcome<Determination> Record(Opinion opinion, Act act)
    {
        var determination = Determination.Of(opinion, act);
        if (_determinations.Find(determination.SaysTheSameAs) is { } earlier)
        {
            return new Refusal(RefusalKind.Conflict,
                $"Just this opinion of {earlier.IdentifiedBy} stands on record already.");
        }

        if (opinion.Kind == DeterminationKind.Rejection && _determinations.Count == 0)
        {
            return new Refusal(RefusalKind.Conflict,
                $"{CatalogNumber} was never named, so there is no name to deny. Name it as far as it can be named.");
        }

        _determinations.Add(determination);
        TellWords();
        return determination;
    }

    /// <summary>Lets an opinion count from now on, or keeps it beside the name that counts.</summary>
    /// <param name="determinationId">The opinion, stored before.</param>
    /// <param name="counts">Whether its name is the current one from now on.</param>
    /// <param name="act">The act: who, when and why.</param>
    public Refusal? Choose(long determinationId, bool counts, Act act)
    {
        if (_determinations.Find(d => d.Id == determinationId) is not { } chosen)
        {
            return new(RefusalKind.NotFound, $"That opinion is not one of {CatalogNumber}.");
        }

        if (counts && chosen.Kind == DeterminationKind.Rejection)
        {
            return new(RefusalKind.Conflict,
                $"Who said that it is not {chosen.Name} gave no other name, so there is none that could count. Name "
                + "the sheet as far as it can be named, such as by its genus.");
        }

        var current = CurrentDeterminationId ?? _determinations.Min(d => d.Id);
        if (current == determinationId && !chosen.Waits)
        {
            return new(RefusalKind.Conflict, counts
                ? $"The name of that opinion counts for {CatalogNumber} already."
                : "This is the name that counts. Let another one count instead.");
        }

        _choices.Add(new NameChoice(determinationId, counts, act));
        chosen.Decided();
        if (counts)
        {
            (CurrentDeterminationId, CurrentName) = (determinationId, chosen.Name);
        }

        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>Says under which name it lies in the cabinet.</summary>
    /// <param name="name">The name on the folder, to the letter.</param>
    /// <param name="act">The act: who and when.</param>
    public Refusal? FileAs(string? name, Act act)
    {
        var tidy = name?.Trim() ?? "";
        if (tidy.Length is 0 or > Opinion.Longest)
        {
            return new(RefusalKind.Invalid, "Write the name on the folder in which it lies.");
        }

        if (tidy == FiledAs)
        {
            return new(RefusalKind.Conflict, $"{CatalogNumber} lies under {tidy} already.");
        }

        _filings.Add(new FiledAsEntry(tidy, act));
        (FiledAs, Version) = (tidy, Guid.NewGuid());
        return null;
    }
}
