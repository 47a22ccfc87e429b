using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>
/// Which steps a kind of specimen needs, in the order in which they wait, and what must precede what. A plan is never
/// edited: a new edition is written, and parts keep the one they began with.
/// </summary>
public sealed class StepPlan
{
    private readonly List<PlannedStep> _steps = [];

    private StepPlan()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The kind of specimen: sheet.</summary>
    public string Kind { get; private set; } = "";

    /// <summary>Which edition for this kind, from 1; the highest counts for new parts.</summary>
    public int Edition { get; private set; }

    /// <summary>
    /// The series whose sheets follow it, rather than the plan of all sheets; null for the plan of all. A collection
    /// has a series of its own.
    /// </summary>
    public long? SeriesId { get; private set; }

    /// <summary>The act that wrote it; null for the plan that came with the program.</summary>
    public long? ActId { get; private set; }

    /// <summary>The act that wrote it.</summary>
    public Act? Act { get; private set; }

    /// <summary>Its steps, in the order in which they wait.</summary>
    public IReadOnlyList<PlannedStep> Steps => _steps;

    /// <summary>The kind whose plan a sheet follows.</summary>
    public const string Sheet = "sheet";

    /// <summary>What must precede a step when it is in the plan too. Common practice, no published source.</summary>
    /// <param name="step">The step.</param>
    public static IReadOnlyList<Step> Before(Step step) => step switch
    {
        Step.Labelled => [Step.Numbered],
        Step.Imaged => [Step.Numbered, Step.Mounted],
        Step.Filed => [Step.Numbered, Step.Treated, Step.Mounted, Step.Labelled],
        _ => [],
    };

    /// <summary>Writes an edition down.</summary>
    /// <param name="kind">The kind of specimen.</param>
    /// <param name="edition">Which edition it is.</param>
    /// <param name="steps">The steps in order, each with what must precede it.</param>
    /// <param name="act">The act; null for what comes with the program.</param>
    /// <param name="seriesId">The series whose sheets follow it; null for all sheets.</param>
    /// <returns>The plan, or why it cannot be followed.</returns>
    public static Outcome<StepPlan> Write(
        string kind, int edition, IReadOnlyList<(Step Step, IReadOnlyList<Step> After)> steps, Act? act,
        long? seriesId = null)
    {
        if (!steps.Any(one => one.Step == Step.Numbered) || !steps.Any(one => one.Step == Step.Treated))
        {
            return new Refusal(RefusalKind.Invalid, "Everything here is numbered and treated: keep both steps.");
        }

        var plan = new StepPlan { Kind = kind, Edition = edition, Act = act, SeriesId = seriesId };
        foreach (var (step, after) in steps)
        {
            if (plan._steps.Any(one => one.Step == step))
            {
                return new Refusal(RefusalKind.Invalid, $"{step} stands twice in the plan.");
            }

            // What is not planned at all cannot be waited for.
            var wanted = after.Where(one => steps.Any(planned => planned.Step == one)).ToList();
            var late = wanted.Where(one => plan._steps.All(earlier => earlier.Step != one)).ToList();
            if (late is [var first, ..])
            {
                return new Refusal(RefusalKind.Invalid, $"{first} must precede {step}: put it before in the plan.");
            }

            plan._steps.Add(new PlannedStep(plan._steps.Count + 1, step, wanted));
        }

        return plan;
    }

    /// <summary>The planned step; null when the plan does not ask for it.</summary>
    /// <param name="step">Which.</param>
    public PlannedStep? Find(Step step) => _steps.Find(one => one.Step == step);

    /// <summary>The first step that is neither done nor waived; null when nothing waits.</summary>
    /// <param name="entries">What was done, the oldest first.</param>
    public Step? Next(IEnumerable<StepEntry> entries)
    {
        var settled = entries.GroupBy(entry => entry.Step)
            .Where(of => of.Last().Mark != StepMark.NeededAgain)
            .Select(of => of.Key).ToHashSet();
        return _steps.OrderBy(one => one.Position).Where(one => !settled.Contains(one.Step))
            .Select(one => (Step?)one.Step).FirstOrDefault();
    }
}

/// <summary>A step of a plan.</summary>
public sealed class PlannedStep
{
    private PlannedStep()
    {
    }

    internal PlannedStep(int position, Step step, IReadOnlyList<Step> after) =>
        (Position, Step, After) = (position, step, string.Join(' ', after));

    /// <summary>The plan.</summary>
    public long PlanId { get; private set; }

    /// <summary>Where it stands in the plan, from 1.</summary>
    public int Position { get; private set; }

    /// <summary>The step.</summary>
    public Step Step { get; private set; }

    /// <summary>The steps that must be done or waived before, with blanks between them; often empty.</summary>
    public string After { get; private set; } = "";

    /// <summary>The steps that must be done or waived before.</summary>
    public IEnumerable<Step> MustPrecede => After.Split(' ', StringSplitOptions.RemoveEmptyEntries)
        .Select(Enum.Parse<Step>);
}
