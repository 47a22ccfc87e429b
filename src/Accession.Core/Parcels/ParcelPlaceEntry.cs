using Accession.Core.Outcomes;
using Accession.Core.Specimens;

namespace Accession.Core.Parcels;

/// <summary>From an act on, a parcel stands in a place. Entries are added, never edited.</summary>
public sealed class ParcelPlaceEntry
{
    private ParcelPlaceEntry()
    {
    }

    internal ParcelPlaceEntry(Place place, Act act) => (PlaceId, Act) = (place.Id, act);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The parcel.</summary>
    public long ParcelId { get; private set; }

    /// <summary>The place.</summary>
    public long PlaceId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;
}
