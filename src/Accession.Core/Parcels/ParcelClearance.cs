using Accession.Core.Outcomes;
using Accession.Core.Specimens;

namespace Accession.Core.Parcels;

/// <summary>A parcel was cleared. Entries are added, never edited.</summary>
public sealed class ParcelClearance
{
    private ParcelClearance()
    {
    }

    internal ParcelClearance(Clearance clearance, Act act)
    {
        (At, By, MayOpenFrom, LoadId, HouseRuleId) =
            (clearance.At, clearance.By, clearance.MayOpenFrom, clearance.LoadId, clearance.HouseRuleId);
        Act = act;
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The parcel.</summary>
    public long ParcelId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>When the cold ended that counts, in UTC.</summary>
    public DateTime At { get; private set; }

    /// <summary>By what.</summary>
    public ClearedBy By { get; private set; }

    /// <summary>From when on it may be opened, in UTC.</summary>
    public DateTime MayOpenFrom { get; private set; }

    /// <summary>The load; null for a waiver without one.</summary>
    public long? LoadId { get; private set; }

    /// <summary>The house rule, where it was one.</summary>
    public long? HouseRuleId { get; private set; }
}
