using Accession.Core.Outcomes;

namespace Accession.Core.People;

/// <summary>What a curator said of the years in which a person collected; the last that was said holds.</summary>
public sealed class PersonYears
{
    private PersonYears()
    {
    }

    internal PersonYears(CollectingYears years, Act act) =>
        (FirstYear, LastYear, Act) = (years.First, years.Last, act);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The person.</summary>
    public long PersonId { get; private set; }

    /// <summary>The first year; null where nothing is said.</summary>
    public int? FirstYear { get; private set; }

    /// <summary>The last year; null where nothing is said or they still collect.</summary>
    public int? LastYear { get; private set; }

    /// <summary>The act that said so: who, when, and how the curator knows.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that said so: who, when, and how the curator knows.</summary>
    public Act Act { get; private set; } = null!;
}

/// <summary>What a curator said of the way in which a person numbers; the last that was said holds.</summary>
public sealed class PersonHabit
{
    private PersonHabit()
    {
    }

    internal PersonHabit(NumberingHabit? habit, Act act) => (Habit, Act) = (habit, act);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The person.</summary>
    public long PersonId { get; private set; }

    /// <summary>The habit; null where it was said that none is known.</summary>
    public NumberingHabit? Habit { get; private set; }

    /// <summary>The act that said so: who, when, and how the curator knows.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that said so: who, when, and how the curator knows.</summary>
    public Act Act { get; private set; } = null!;
}

/// <summary>
/// That two persons on record are one, from one act to another. The spellings and the account that went over with it
/// ended with the act of the merging and began anew with it; they go back in the same way.
/// </summary>
public sealed class PersonMerge
{
    private PersonMerge()
    {
    }

    internal PersonMerge(long intoId, Act act) => (IntoId, Act) = (intoId, act);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The person that went over into the other.</summary>
    public long PersonId { get; private set; }

    /// <summary>The person that both are.</summary>
    public long IntoId { get; private set; }

    /// <summary>The act that said so: who, when, and how the curator knows.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that said so: who, when, and how the curator knows.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that took it back; null while it holds.</summary>
    public long? EndedActId { get; private set; }

    /// <summary>The act that took it back; null while it holds.</summary>
    public Act? EndedAct { get; private set; }

    internal void End(Act act) => EndedAct = act;
}
