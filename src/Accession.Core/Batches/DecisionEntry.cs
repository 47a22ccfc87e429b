using Accession.Core.Outcomes;

namespace Accession.Core.Batches;

/// <summary>A decision about a row's finding, or that one was taken back. Entries are added, never edited.</summary>
public sealed class DecisionEntry
{
    private DecisionEntry()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The row.</summary>
    public long RowId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>What was decided; null when the decision before was taken back.</summary>
    public RowDecision? Decision { get; private set; }

    /// <summary>The gathering the row was found with; null when it was a row.</summary>
    public long? GatheringId { get; private set; }

    /// <summary>The earlier row it was found with; null when it was a gathering.</summary>
    public long? OtherRowId { get; private set; }

    internal static DecisionEntry Of(BatchRow row, RowDecision? decision, FoundWith with, Act act) => new()
    {
        RowId = row.Id,
        Act = act,
        Decision = decision,
        GatheringId = with.GatheringId,
        OtherRowId = with.RowId,
    };
}
