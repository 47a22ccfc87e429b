using Accession.Core.Batches;
using Accession.Core.Outcomes;

namespace Accession.Core.Parcels;

/// <summary>
/// Sheets of a batch came in a parcel. A batch may have come in several, and a parcel may hold sheets of several.
/// </summary>
public sealed class ParcelOfBatch
{
    private ParcelOfBatch()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The batch.</summary>
    public long BatchId { get; private set; }

    /// <summary>The parcel.</summary>
    public long ParcelId { get; private set; }

    /// <summary>The act of tying.</summary>
    public long ActId { get; private set; }

    /// <summary>The act of tying.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that took it back; null while it holds.</summary>
    public long? UntiedActId { get; private set; }

    /// <summary>The act that took it back.</summary>
    public Act? UntiedAct { get; private set; }

    /// <summary>Ties a batch to a parcel.</summary>
    /// <param name="batch">The batch.</param>
    /// <param name="parcel">The parcel.</param>
    /// <param name="act">The act.</param>
    public static ParcelOfBatch Tie(Batch batch, Parcel parcel, Act act) =>
        new() { BatchId = batch.Id, ParcelId = parcel.Id, Act = act };

    /// <summary>Takes the tie back: it was the wrong parcel. What was numbered keeps what it has.</summary>
    /// <param name="act">The act.</param>
    public Refusal? Untie(Act act)
    {
        if (UntiedAct is not null || UntiedActId is not null)
        {
            return new(RefusalKind.Conflict, "The batch and the parcel are not tied any more.");
        }

        UntiedAct = act;
        return null;
    }
}
