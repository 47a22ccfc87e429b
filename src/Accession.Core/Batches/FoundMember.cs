using Accession.Core.Matching;

namespace Accession.Core.Batches;

/// <summary>
/// One of those that a row was found with, and why. It is made anew whenever the row is looked for again.
/// </summary>
public sealed class FoundMember
{
    private FoundMember()
    {
    }

    /// <summary>The key in the database; the closest member of a row has the lowest.</summary>
    public long Id { get; private set; }

    /// <summary>The row.</summary>
    public long RowId { get; private set; }

    /// <summary>The gathering it was found with; null when it is a row.</summary>
    public long? GatheringId { get; private set; }

    /// <summary>The earlier row it was found with; null when it is a gathering.</summary>
    public long? OtherRowId { get; private set; }

    /// <summary>The evidence, as <see cref="Matching.Evidence.Packed"/> gave it.</summary>
    public long Evidence { get; private set; }

    /// <summary>A member of a row's finding.</summary>
    /// <param name="rowId">The row.</param>
    /// <param name="with">The gathering or earlier row.</param>
    /// <param name="evidence">Why.</param>
    public static FoundMember Of(long rowId, FoundWith with, Evidence evidence) => new()
    {
        RowId = rowId,
        GatheringId = with.GatheringId,
        OtherRowId = with.RowId,
        Evidence = evidence.Packed,
    };
}
