using Accession.Core.Gatherings;

namespace Accession.Core.Localities;

/// <summary>
/// The exact place of a gathering whose place is protected. It stands in a table of its own and has nothing that a page
/// could print: only storage reads it, on behalf of a person who may see it.
/// </summary>
public sealed class ExactLocality
{
    private const string Notice =
        "Locality, habitat, elevation and remarks are withheld because the plant could be harmed if its place were "
        + "known; ask the herbarium.";

    private ExactLocality()
    {
    }

    /// <summary>The gathering.</summary>
    public long GatheringId { get; private set; }

    internal Gathering Gathering { get; private set; } = null!;

    internal string Municipality { get; private set; } = "";

    internal string Locality { get; private set; } = "";

    internal string Habitat { get; private set; } = "";

    internal string Remarks { get; private set; } = "";

    internal string CoordinatesVerbatim { get; private set; } = "";

    internal double? Latitude { get; private set; }

    internal double? Longitude { get; private set; }

    internal double? CoordinatePrecision { get; private set; }

    internal double? UncertaintyInMeters { get; private set; }

    internal string ElevationVerbatim { get; private set; } = "";

    internal double? MinimumElevationInMeters { get; private set; }

    internal double? MaximumElevationInMeters { get; private set; }

    internal static ExactLocality Of(Gathering gathering)
    {
        var exact = new ExactLocality { Gathering = gathering };
        exact.Hold(gathering.Place);
        return exact;
    }

    /// <summary>Holds a corrected place from now on, and says what everyone may know of it.</summary>
    /// <param name="place">The place as exactly as it is known.</param>
    /// <param name="category">How sensitive it is.</param>
    internal PublicPlace Take(PublicPlace place, SensitivityCategory category)
    {
        Hold(place);
        return AsEveryoneMayKnow(place, category);
    }

    /// <summary>What everyone may know of this place under a category.</summary>
    /// <param name="place">What stays as it is: country, state, county.</param>
    /// <param name="category">How sensitive the place is.</param>
    internal PublicPlace AsEveryoneMayKnow(PublicPlace place, SensitivityCategory category) =>
        category == SensitivityCategory.NotSensitive ? InFull(place) : Generalised(place, category);

    private void Hold(PublicPlace place)
    {
        Municipality = place.Municipality;
        Locality = place.Locality;
        Habitat = place.Habitat;
        Remarks = place.Remarks;
        CoordinatesVerbatim = place.CoordinatesVerbatim;
        Latitude = place.Latitude;
        Longitude = place.Longitude;
        CoordinatePrecision = place.CoordinatePrecision;
        UncertaintyInMeters = place.UncertaintyInMeters;
        ElevationVerbatim = place.ElevationVerbatim;
        MinimumElevationInMeters = place.MinimumElevationInMeters;
        MaximumElevationInMeters = place.MaximumElevationInMeters;
    }

    private PublicPlace InFull(PublicPlace place) => place with
    {
        Municipality = Municipality,
        Locality = Locality,
        Habitat = Habitat,
        Remarks = Remarks,
        CoordinatesVerbatim = CoordinatesVerbatim,
        Latitude = Latitude,
        Longitude = Longitude,
        CoordinatePrecision = CoordinatePrecision,
        UncertaintyInMeters = UncertaintyInMeters,
        ElevationVerbatim = ElevationVerbatim,
        MinimumElevationInMeters = MinimumElevationInMeters,
        MaximumElevationInMeters = MaximumElevationInMeters,
        DataGeneralizations = "",
        InformationWithheld = "",
    };

    private PublicPlace Generalised(PublicPlace place, SensitivityCategory category)
    {
        // An extremely sensitive place is not shown on any grid: the county is all there is.
        var point = category == SensitivityCategory.Extreme ? null : Point();
        var blurred = point is null ? null : Blurring.Of(point, category);
        return place with
        {
            Municipality = "",
            Locality = "",
            Habitat = "",
            Remarks = "",
            CoordinatesVerbatim = "",
            Latitude = (double?)blurred?.Latitude,
            Longitude = (double?)blurred?.Longitude,
            CoordinatePrecision = blurred is null ? null : (double)Blurring.CellOf(category),
            UncertaintyInMeters = blurred?.UncertaintyInMeters,
            ElevationVerbatim = "",
            MinimumElevationInMeters = null,
            MaximumElevationInMeters = null,
            DataGeneralizations = blurred?.Generalizations ?? "",
            InformationWithheld = category == SensitivityCategory.Extreme && Latitude is not null
                ? $"{Blurring.Withheld} {Notice}"
                : Notice,
        };
    }

    private ExactPoint? Point() => Latitude is { } latitude && Longitude is { } longitude
        ? new ExactPoint(
            (decimal)latitude,
            (decimal)longitude,
            Localities.CoordinatePrecision.OfDegrees((decimal)(CoordinatePrecision ?? 1)),
            UncertaintyInMeters)
        : null;
}
