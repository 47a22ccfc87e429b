using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>
/// A step was done on a part, or waived, or is needed again. Entries are added, never edited; of each step the last
/// one counts.
/// </summary>
public sealed class StepEntry
{
    private StepEntry()
    {
    }

    internal StepEntry(Act act, Step step, StepMark mark = StepMark.Done)
    {
        Act = act;
        Step = step;
        Mark = mark;
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The part.</summary>
    public long PartId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The step.</summary>
    public Step Step { get; private set; }

    /// <summary>What is said of it.</summary>
    public StepMark Mark { get; private set; }
}
