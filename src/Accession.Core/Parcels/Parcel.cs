using System.Globalization;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;

namespace Accession.Core.Parcels;

/// <summary>
/// What came through the door, tagged at once and frozen unopened. Sheets numbered out of it after it was cleared
/// inherit that; what is laid in later does not.
/// </summary>
public sealed class Parcel
{
    private readonly List<ParcelClearance> _clearances = [];
    private readonly List<ParcelPlaceEntry> _places = [];

    private Parcel()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The year of its tag.</summary>
    public int Year { get; private set; }

    /// <summary>Its running number in that year, without gaps.</summary>
    public int Number { get; private set; }

    /// <summary>What stands on its tag: Q2026-0014. Also its barcode and its address.</summary>
    public string Tag { get; private set; } = "";

    /// <summary>The source whose lists may tell what is in it; null when it is none we know.</summary>
    public long? SourceId { get; private set; }

    /// <summary>Who sent or brought it.</summary>
    public string FromWhom { get; private set; } = "";

    /// <summary>The day it came.</summary>
    public DateOnly CameOn { get; private set; }

    /// <summary>
    /// The beginning of that day, in UTC. What is in the parcel came from outside then; the hour was not written down.
    /// </summary>
    public DateTime CameAt { get; private set; }

    /// <summary>Who carried it; empty when nobody wrote it.</summary>
    public string Carrier { get; private set; } = "";

    /// <summary>How many boxes.</summary>
    public int Boxes { get; private set; }

    /// <summary>How many bundles.</summary>
    public int Bundles { get; private set; }

    /// <summary>How it arrived; empty when nothing was noticed.</summary>
    public string Condition { get; private set; } = "";

    /// <summary>
    /// Where it stood when it was tagged, in words; empty where a place was chosen. See <see cref="PlaceId"/>.
    /// </summary>
    public string Standing { get; private set; } = "";

    /// <summary>The place where it stands; null while that is known in words only.</summary>
    public long? PlaceId { get; private set; }

    /// <summary>Where it stood, the oldest first.</summary>
    public IReadOnlyList<ParcelPlaceEntry> Places => _places;

    /// <summary>The act of tagging.</summary>
    public long ActId { get; private set; }

    /// <summary>The act of tagging.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The load whose list it stands on and that is not settled; null when it is on none.</summary>
    public long? LoadId { get; private set; }

    /// <summary>When it was last cleared, in UTC; null while it is untreated.</summary>
    public DateTime? ClearedAt { get; private set; }

    /// <summary>By what it was cleared.</summary>
    public ClearedBy? ClearedBy { get; private set; }

    /// <summary>From when on it may be opened, in UTC.</summary>
    public DateTime? MayOpenFrom { get; private set; }

    /// <summary>What cleared it, the oldest first.</summary>
    public IReadOnlyList<ParcelClearance> Clearances => _clearances;

    /// <summary>Renewed by every verb, so that two people who change it at once cannot both save.</summary>
    public Guid Version { get; private set; }

    /// <summary>Tags a parcel at the door.</summary>
    /// <param name="number">The year and the number that were taken for it.</param>
    /// <param name="sourceId">The source, where it is known.</param>
    /// <param name="details">What is written down; there is no reason against it.</param>
    /// <param name="cameAt">The beginning of the day it came, in UTC.</param>
    /// <param name="act">The act of tagging.</param>
    public static Parcel Receive(
        (int Year, int Number) number, long? sourceId, ParcelDetails details, DateTime cameAt, Act act)
    {
        ArgumentNullException.ThrowIfNull(details);
        return new()
        {
            Year = number.Year,
            Number = number.Number,
            Tag = string.Create(CultureInfo.InvariantCulture, $"Q{number.Year}-{number.Number:0000}"),
            SourceId = sourceId,
            FromWhom = details.FromWhom,
            CameOn = details.CameOn!.Value,
            CameAt = cameAt,
            Carrier = details.Carrier,
            Boxes = details.Boxes,
            Bundles = details.Bundles,
            Condition = details.Condition,
            Standing = details.Standing,
            Act = act,
            Version = Guid.NewGuid(),
        };
    }

    /// <summary>A tag as it was typed or scanned: small letters and blanks carry no meaning.</summary>
    /// <param name="typed">What was typed.</param>
    public static string TagIn(string? typed) =>
        string.Concat((typed ?? "").Where(one => !char.IsWhiteSpace(one))).ToUpperInvariant();

    /// <summary>Reads a tag: its year and its number.</summary>
    /// <param name="typed">What was typed or scanned.</param>
    /// <param name="year">The year of the tag.</param>
    /// <param name="number">Its number in that year.</param>
    public static bool TryReadTag(string? typed, out int year, out int number)
    {
        (year, number) = (0, 0);
        return TagIn(typed) is ['Q', .. var rest]
            && rest.Split('-') is [{ Length: 4 } of, { Length: >= 4 and <= 9 } which]
            && int.TryParse(of, NumberStyles.None, CultureInfo.InvariantCulture, out year)
            && int.TryParse(which, NumberStyles.None, CultureInfo.InvariantCulture, out number) && number > 0;
    }

    /// <summary>
    /// Puts it in a place. Untreated it stands in quarantine; to the collection room it goes when it was cleared and
    /// may be opened. What goes outside unopened goes back to its sender, and what was opened goes as sheets.
    /// </summary>
    /// <param name="place">The place.</param>
    /// <param name="act">The act: who, when and why. Its time is what the gate looks at.</param>
    public Refusal? Stand(Place place, Act act)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (LoadId is not null)
        {
            return new(RefusalKind.Conflict,
                $"Parcel {Tag} stands on the list of a freezer load that is not settled. It stays until that is.");
        }

        if (PlaceId == place.Id)
        {
            return new(RefusalKind.Conflict, $"Parcel {Tag} stands in {place.Name} already.");
        }

        if (place.Zone == Zone.Outside)
        {
            return new(RefusalKind.NotAllowed,
                $"{place.Name} is outside. A parcel stands in quarantine until it is open.");
        }

        if (place.Zone == Zone.CollectionRoom && (ClearedAt is null || act.At < MayOpenFrom))
        {
            return new(RefusalKind.NotAllowed, ClearedAt is null
                ? $"Parcel {Tag} is untreated, and nothing goes to the collection room untreated."
                : $"Parcel {Tag} is sealed still, to get as warm as the room.");
        }

        _places.Add(new ParcelPlaceEntry(place, act));
        (PlaceId, Version) = (place.Id, Guid.NewGuid());
        return null;
    }

    /// <summary>Puts it on the list of a load, or says why it cannot be there.</summary>
    internal Refusal? GoOnLoad(long loadId)
    {
        if (LoadId is not null)
        {
            return new(RefusalKind.Conflict, $"Parcel {Tag} stands on the list of a load that is not settled.");
        }

        (LoadId, Version) = (loadId, Guid.NewGuid());
        return null;
    }

    /// <summary>That load is settled; on the list of a later one it stays.</summary>
    internal void ComeOffLoad(long loadId) => (LoadId, Version) = (LoadId == loadId ? null : LoadId, Guid.NewGuid());

    /// <summary>Clears it: sheets that are numbered out of it from now on inherit this.</summary>
    internal void Clear(Clearance clearance, Act act)
    {
        _clearances.Add(new ParcelClearance(clearance, act));
        if (ClearedAt is null || clearance.At >= ClearedAt)
        {
            (ClearedAt, ClearedBy, MayOpenFrom) = (clearance.At, clearance.By, clearance.MayOpenFrom);
        }

        Version = Guid.NewGuid();
    }
}
