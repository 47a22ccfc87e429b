using Accession.Core.Outcomes;

namespace Accession.Core.People;

public sealed partial class Person
{
    private readonly List<PersonYears> _yearsStated = [];
    private readonly List<PersonHabit> _habitsStated = [];

    /// <summary>Everything that was ever said of the years, the oldest first.</summary>
    public IReadOnlyList<PersonYears> YearsStated => _yearsStated;

    /// <summary>Everything that was ever said of the way of numbering, the oldest first.</summary>
    public IReadOnlyList<PersonHabit> HabitsStated => _habitsStated;

    /// <summary>The first year of collecting; null where nothing is said. Computed from the entries.</summary>
    public int? FirstYear { get; private set; }

    /// <summary>The last year of collecting; null where nothing is said. Computed from the entries.</summary>
    public int? LastYear { get; private set; }

    /// <summary>How the person numbers; null where nothing is said. Computed from the entries.</summary>
    public NumberingHabit? Habit { get; private set; }

    /// <summary>In which years the person collected.</summary>
    public CollectingYears Years => new(FirstYear, LastYear);

    /// <summary>Says in which years the person collected; any year takes back what was said before.</summary>
    /// <param name="years">The years.</param>
    /// <param name="act">The act: who, when, and how the curator knows.</param>
    public Refusal? Collected(CollectingYears years, Act act)
    {
        if (years == Years)
        {
            return new(RefusalKind.Conflict, $"The years of {Name} are these already: {years}.");
        }

        State(years, act);
        return null;
    }

    /// <summary>Says how the person numbers; null takes back what was said before.</summary>
    /// <param name="habit">The habit.</param>
    /// <param name="act">The act: who, when, and how the curator knows.</param>
    public Refusal? Numbers(NumberingHabit? habit, Act act)
    {
        if (habit == Habit)
        {
            return new(RefusalKind.Conflict, $"That is said of {Name} already.");
        }

        Habit = habit;
        _habitsStated.Add(new PersonHabit(habit, act));
        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>
    /// Says that something was decided in the light of this person, so that whoever changes them at once comes second.
    /// </summary>
    public void LookedAt() => Version = Guid.NewGuid();

    private void State(CollectingYears years, Act act)
    {
        (FirstYear, LastYear) = (years.First, years.Last);
        _yearsStated.Add(new PersonYears(years, act));
        Version = Guid.NewGuid();
    }
}
