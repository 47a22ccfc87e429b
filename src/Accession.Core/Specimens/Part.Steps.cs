using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

public sealed partial class Part
{
    // In the order in which they came on record; a database need not give them so, and those of this act have no key.
    private IEnumerable<StepEntry> InOrder => _steps.OrderBy(entry => entry.Id == 0).ThenBy(entry => entry.Id);

    /// <summary>Whether a step is done or waived, and nothing has undone it since.</summary>
    /// <param name="step">The step.</param>
    public bool HasSettled(Step step) => LastOf(step) is { Mark: not StepMark.NeededAgain };

    /// <summary>Marks a step as done: mounted, labelled, photographed or filed; or says why it is not.</summary>
    /// <param name="step">The step. Numbers are scanned back and treatment is settled with the load, not here.</param>
    /// <param name="plan">The step plan it follows; null when it follows none.</param>
    /// <param name="act">The act of whoever did it.</param>
    public Refusal? Finish(Step step, StepPlan? plan, Act act)
    {
        if (step is Step.Numbered or Step.Treated)
        {
            return new(RefusalKind.Invalid, step == Step.Numbered
                ? "A number is proven at the numbering bench, by scanning it back."
                : "Treatment is settled with the freezer load, or waived by a curator.");
        }

        if (plan?.Find(step) is not { } planned)
        {
            return new(RefusalKind.Conflict, plan is null
                ? $"{Code} was here before its record, and no step is asked of it. Nothing was changed."
                : $"The step plan that {Code} follows asks for no such step. Nothing was changed.");
        }

        if (HasSettled(step))
        {
            return new(RefusalKind.Conflict, $"{Code} is {Said(step)} already. Nothing was changed.");
        }

        if (planned.MustPrecede.Where(before => !HasSettled(before)).ToList() is { Count: > 0 } late)
        {
            return new(RefusalKind.NotAllowed,
                $"{Code} is not {string.Join(", not ", late.Select(Said))} yet, and that comes before. "
                + (late.Contains(Step.Treated)
                    ? "Put it with what goes in the freezer."
                    : late.Contains(Step.Numbered)
                        ? "Take it to the numbering bench, and scan its number back there."
                        : "Do that first, then scan it here again."));
        }

        // The gate: a sheet that may not come in cannot lie in its cabinet.
        if (step == Step.Filed && Zone != Zone.CollectionRoom && WhyNotIn(Zone == Zone.Outside, act.At) is { } refusal)
        {
            return refusal;
        }

        _steps.Add(new StepEntry(act, step));
        Settle(plan);
        return null;
    }

    /// <summary>Takes back that a step was done, by an entry: it is to be done again.</summary>
    /// <param name="step">The step.</param>
    /// <param name="plan">The step plan it follows; null when it follows none.</param>
    /// <param name="act">The act that takes it back.</param>
    public Refusal? TakeBack(Step step, StepPlan? plan, Act act)
    {
        if (step is Step.Numbered or Step.Treated || LastOf(step) is not { Mark: StepMark.Done })
        {
            return new(RefusalKind.Conflict, $"{Code} is not {Said(step)}, so there is nothing to take back.");
        }

        _steps.Add(new StepEntry(act, step, StepMark.NeededAgain));
        Settle(plan);
        return null;
    }

    private StepEntry? LastOf(Step step) => InOrder.LastOrDefault(entry => entry.Step == step);

    private static string Said(Step step) => step switch
    {
        Step.Numbered => "scanned back",
        Step.Treated => "treated",
        Step.Mounted => "mounted",
        Step.Labelled => "labelled",
        Step.Imaged => "photographed",
        _ => "filed",
    };
}
