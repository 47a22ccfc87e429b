using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>A step was done on a part. Entries are added, never edited.</summary>
public sealed class StepEntry
{
    private StepEntry()
    {
    }

    internal StepEntry(Act act, Step step)
    {
        Act = act;
        Step = step;
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The part.</summary>
    public long PartId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The step that was done.</summary>
    public Step Step { get; private set; }
}
