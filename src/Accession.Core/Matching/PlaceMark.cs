using System.Runtime.InteropServices;
using Accession.Core.Localities;
using Accession.Core.Standards.Countries;

namespace Accession.Core.Matching;

/// <summary>What is compared of a place: 34 bytes. It counts as exact: a point stands in it.</summary>
[StructLayout(LayoutKind.Sequential, Pack = 1)]
internal readonly struct PlaceMark
{
    private const int NoPoint = int.MinValue;
    private const short NoElevation = short.MinValue;
    private const double UnitsPerDegree = 1e5;   // about a metre
    private const double MetersPerDegree = 111_195;   // of latitude, on the mean sphere
    private const ushort RegionOnly = ushort.MaxValue;
    private const int MetersPerUnit = 10;
    private const int LongestCountry = 60;   // letters; no name of a country has more

    private readonly int _latitude;
    private readonly int _longitude;
    private readonly ushort _uncertainty;
    private readonly short _elevation;

    private PlaceMark(PublicPlace place, PlaceWords words)
    {
        Country = RegionKey.OfCountry(place.CountryCode, place.Country);
        State = RegionKey.OfState(place.StateProvince);
        County = RegionKey.OfCounty(place.County.Length > 0 ? place.County : place.Municipality);
        Words = words;
        _elevation = place.MinimumElevationInMeters is { } height && Math.Abs(height) < short.MaxValue
            ? (short)Math.Round(height)
            : NoElevation;

        // 0, 0 is what a data base writes for nothing, and no land plant grows there.
        var isPoint = place.Latitude is not null && place.Longitude is not null
            && (place.Latitude, place.Longitude) is not (0, 0);
        _latitude = isPoint ? (int)Math.Round(place.Latitude!.Value * UnitsPerDegree) : NoPoint;
        _longitude = isPoint ? (int)Math.Round(place.Longitude!.Value * UnitsPerDegree) : NoPoint;
        _uncertainty = words.Count == 0 && place.Locality.Length > 0 ? RegionOnly : UncertaintyOf(place);
    }

    /// <summary>The country; 0 when missing.</summary>
    public ushort Country { get; }

    /// <summary>The state or province; 0 when missing.</summary>
    public ushort State { get; }

    /// <summary>The county, or the municipality where there is none; 0 when missing.</summary>
    public ushort County { get; }

    /// <summary>The words of the locality.</summary>
    public PlaceWords Words { get; }

    /// <summary>Whether there is a point.</summary>
    public bool HasPoint => _latitude != NoPoint;

    /// <summary>
    /// Whether the point has no words but those of the region: it then stands for the region and not for the place.
    /// </summary>
    public bool IsRegionOnly => _uncertainty == RegionOnly;

    /// <summary>The radius in which the true place lies, in metres; 0 when nobody said.</summary>
    public int UncertaintyInMeters => IsRegionOnly ? 0 : _uncertainty * MetersPerUnit;

    /// <summary>Whether there is an elevation.</summary>
    public bool HasElevation => _elevation != NoElevation;

    /// <summary>The lower elevation in metres.</summary>
    public int ElevationInMeters => _elevation;

    /// <summary>Latitude in degrees.</summary>
    public double Latitude => _latitude / UnitsPerDegree;

    /// <summary>Longitude in degrees.</summary>
    public double Longitude => _longitude / UnitsPerDegree;

    /// <summary>Reads a place as held.</summary>
    public static PlaceMark Of(PublicPlace place) => new(place, IsItsCountry(place)
        ? default
        : PlaceWords.Of(place.Locality, place.Country, place.StateProvince));

    /// <summary>The distance to another point along a great circle, in metres, on the mean sphere.</summary>
    public double MetersTo(in PlaceMark other)
    {
        if (_latitude == other._latitude && _longitude == other._longitude)
        {
            return 0;
        }

        const double EarthRadius = 6_371_008.8;   // the mean radius of the IUGG
        var (a, b) = (double.DegreesToRadians(Latitude), double.DegreesToRadians(other.Latitude));
        var halfHeight = Math.Sin((b - a) / 2);
        var halfWidth = Math.Sin(double.DegreesToRadians(other.Longitude - Longitude) / 2);
        var h = (halfHeight * halfHeight) + (Math.Cos(a) * Math.Cos(b) * halfWidth * halfWidth);
        return 2 * EarthRadius * Math.Asin(Math.Min(1, Math.Sqrt(h)));
    }

    private static bool IsItsCountry(PublicPlace place) =>
        place.CountryCode.Length > 0 && place.Locality.Length is > 0 and <= LongestCountry
        && CountryCode.Of(place.Locality) == place.CountryCode;

    // What was written to the tenth of a degree cannot be better than that, whatever radius stands beside it.
    private static ushort UncertaintyOf(PublicPlace place)
    {
        var fromPrecision = (place.CoordinatePrecision ?? 0) * MetersPerDegree / 2;
        var meters = Math.Max(place.UncertaintyInMeters ?? 0, fromPrecision > 100 ? fromPrecision : 0);
        return (ushort)Math.Min(Math.Ceiling(meters / MetersPerUnit), RegionOnly - 1);
    }
}
