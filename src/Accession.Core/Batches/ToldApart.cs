using Accession.Core.Outcomes;

namespace Accession.Core.Batches;

/// <summary>
/// That a row and what it was found with are different gatherings. It is remembered, and never asked again.
/// </summary>
public sealed class ToldApart
{
    private ToldApart()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The row.</summary>
    public long RowId { get; private set; }

    /// <summary>The gathering it is not; null when it is a row.</summary>
    public long? GatheringId { get; private set; }

    /// <summary>The earlier row it does not belong with; null when it is a gathering.</summary>
    public long? OtherRowId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that took it back; null while it holds.</summary>
    public long? TakenBackActId { get; private set; }

    /// <summary>The act that took it back; null while it holds.</summary>
    public Act? TakenBackAct { get; private set; }

    /// <summary>Takes it back, so that both may be found to belong together again.</summary>
    /// <param name="act">The act: who and when.</param>
    public void TakeBack(Act act) => TakenBackAct = act;

    /// <summary>Remembers that both are different.</summary>
    /// <param name="rowId">The row.</param>
    /// <param name="with">What it was found with.</param>
    /// <param name="act">The act: who and when.</param>
    public static ToldApart Of(long rowId, FoundWith with, Act act) =>
        new() { RowId = rowId, GatheringId = with.GatheringId, OtherRowId = with.RowId, Act = act };
}
