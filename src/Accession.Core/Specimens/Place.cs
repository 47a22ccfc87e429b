using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>What lies between the door and the cabinets.</summary>
public enum Zone
{
    /// <summary>Where untreated things stand, apart from the collection.</summary>
    Quarantine,

    /// <summary>Where the cabinets are. Nothing comes in untreated.</summary>
    CollectionRoom,

    /// <summary>
    /// Anywhere else: offices, exhibits, another house. What was there is treated before it comes back.
    /// </summary>
    Outside,
}

/// <summary>Where a part can stand. Every place lies in one zone for good.</summary>
public sealed class Place
{
    /// <summary>The most characters of its name.</summary>
    public const int LongestName = 200;

    private Place()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>Its name: building, room, cabinet; no two have the same.</summary>
    public string Name { get; private set; } = "";

    /// <summary>The zone it lies in.</summary>
    public Zone Zone { get; private set; }

    /// <summary>The act that wrote it down.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that wrote it down.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Writes a place down.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="zone">The zone it lies in; null when nobody chose one.</param>
    /// <param name="act">The act.</param>
    public static Outcome<Place> Named(string? name, Zone? zone, Act act)
    {
        var tidy = string.Join(' ', (name ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return tidy.Length is 0 or > LongestName
            ? new Refusal(RefusalKind.Invalid, $"Give the place a name of at most {LongestName} characters.")
            : zone is null
                ? new Refusal(RefusalKind.Invalid, "Choose the zone in which the place lies.")
                : new Place { Name = tidy, Zone = zone.Value, Act = act };
    }
}

/// <summary>From an act on, a part stands in a place. Entries are added, never edited.</summary>
public sealed class PlaceEntry
{
    private PlaceEntry()
    {
    }

    internal PlaceEntry(Place place, bool crossedOutside, Act act) =>
        (PlaceId, CrossedOutside, Act) = (place.Id, crossedOutside, act);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The part.</summary>
    public long PartId { get; private set; }

    /// <summary>The place.</summary>
    public long PlaceId { get; private set; }

    /// <summary>Whether it went outside or came from there: what cleared it before counts no more.</summary>
    public bool CrossedOutside { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that took it back, since it never went there; null while it counts.</summary>
    public long? TakenBackActId { get; private set; }

    internal void TakeBack(Act act) => TakenBackActId = act.Id;
}
