using System.Globalization;
using Accession.Core.Localities;

namespace Accession.Server.Shared;

/// <summary>The place of a gathering as it stands on labels.</summary>
internal static class LabelPlace
{
    /// <summary>County, state and country, as far as they are known.</summary>
    public static string Region(PublicPlace place) => string.Join(
        ", ", new[] { place.County, place.StateProvince, place.Country }.Where(text => text.Length > 0));

    /// <summary>The point with its radius and datum; null when there is none.</summary>
    public static string? Point(PublicPlace place) =>
        place is { Latitude: { } latitude, Longitude: { } longitude }
            ? string.Create(CultureInfo.InvariantCulture, $"{latitude:0.######}, {longitude:0.######}")
                + (place.UncertaintyInMeters is { } radius
                    ? string.Create(CultureInfo.InvariantCulture, $" ± {radius:#,0} m")
                    : "")
                + (place.GeodeticDatum.Length > 0 ? $" ({place.GeodeticDatum})" : "")
            : null;

    /// <summary>The elevation; null when it is not known.</summary>
    public static string? Elevation(PublicPlace place) =>
        place is { MinimumElevationInMeters: { } low, MaximumElevationInMeters: { } high }
            ? Core.Localities.Elevation.OfMeters((decimal)low, (decimal)high).ForPeople()
            : null;
}
