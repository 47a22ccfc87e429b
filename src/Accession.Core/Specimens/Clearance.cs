using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>By what something may come to the collection room.</summary>
public enum ClearedBy
{
    /// <summary>A trace of temperatures proved that pests are dead. Nothing makes such a verdict yet.</summary>
    Verdict,

    /// <summary>
    /// A dated rule of the institution for loads without a logger. It proves nothing and is shown as that.
    /// </summary>
    HouseRule,

    /// <summary>A curator let it in, with a reason.</summary>
    Waiver,
}

/// <summary>That something was cleared, and by what.</summary>
/// <param name="At">When the cold ended that counts; of a waiver without a load, when it was given. In UTC.</param>
/// <param name="By">By what.</param>
/// <param name="MayOpenFrom">From when on it may be opened, in UTC; not before <paramref name="At"/>.</param>
/// <param name="LoadId">The freezer load; null for a waiver without one.</param>
/// <param name="HouseRuleId">The house rule, where it was one.</param>
/// <param name="ParcelId">The parcel from which it is inherited, or in which it lay; null for the thing itself.</param>
public sealed record Clearance(
    DateTime At, ClearedBy By, DateTime MayOpenFrom, long? LoadId, long? HouseRuleId, long? ParcelId = null);

/// <summary>A part was cleared. Entries are added, never edited.</summary>
public sealed class ClearanceEntry
{
    private ClearanceEntry()
    {
    }

    internal ClearanceEntry(Clearance clearance, Act act)
    {
        (At, By, MayOpenFrom, LoadId, HouseRuleId, ParcelId) = (clearance.At, clearance.By, clearance.MayOpenFrom,
            clearance.LoadId, clearance.HouseRuleId, clearance.ParcelId);
        Act = act;
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The part.</summary>
    public long PartId { get; private set; }

    /// <summary>The act: who, when and why. Of what is inherited, the act of numbering.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>When the cold ended that counts, in UTC.</summary>
    public DateTime At { get; private set; }

    /// <summary>By what.</summary>
    public ClearedBy By { get; private set; }

    /// <summary>From when on it may be opened, in UTC.</summary>
    public DateTime MayOpenFrom { get; private set; }

    /// <summary>The load; null for a waiver without one, and for what is inherited from such.</summary>
    public long? LoadId { get; private set; }

    /// <summary>The house rule, where it was one.</summary>
    public long? HouseRuleId { get; private set; }

    /// <summary>The parcel it lay in; null when the part itself stood on the list.</summary>
    public long? ParcelId { get; private set; }
}
