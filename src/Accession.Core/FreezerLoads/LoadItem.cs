using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;

namespace Accession.Core.FreezerLoads;

/// <summary>
/// A line on the list of a load: a parcel, a bundle named by words, a part, or a part that lies in a parcel of the
/// list. Lines are added, never edited.
/// </summary>
public sealed class LoadItem
{
    /// <summary>The most characters that name a bundle.</summary>
    public const int LongestBundle = 200;

    private LoadItem()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The load.</summary>
    public long LoadId { get; private set; }

    /// <summary>The parcel; with a part, the parcel in which that lies.</summary>
    public long? ParcelId { get; private set; }

    /// <summary>The part.</summary>
    public long? PartId { get; private set; }

    /// <summary>What a bundle is called; empty for the others.</summary>
    public string Bundle { get; private set; } = "";

    /// <summary>The batch that a bundle is of; null where it is of an accession, or of neither.</summary>
    public long? BatchId { get; private set; }

    /// <summary>The act that put it on the list.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that put it on the list.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that took the line off the list before the lid was closed; null while it stands.</summary>
    public long? TakenOffActId { get; private set; }

    internal void TakeOff(Act act) => TakenOffActId = act.Id;

    internal static LoadItem Of(long loadId, Parcel parcel, Act act) =>
        new() { LoadId = loadId, ParcelId = parcel.Id, Act = act };

    internal static LoadItem Of(long loadId, Part part, long? parcelId, Act act) =>
        new() { LoadId = loadId, PartId = part.Id, ParcelId = parcelId, Act = act };

    internal static LoadItem Of(long loadId, string bundle, long? batchId, Act act) =>
        new() { LoadId = loadId, Bundle = bundle, BatchId = batchId, Act = act };
}
