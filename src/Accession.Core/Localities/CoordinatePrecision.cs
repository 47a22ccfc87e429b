using System.Globalization;

namespace Accession.Core.Localities;

/// <summary>
/// The unit to which coordinates were written: a degree, a minute, a tenth of a second, 0.0001 of a degree. It is that
/// of the source, before any conversion: seconds stay seconds when they are stored as decimals.
/// </summary>
public readonly record struct CoordinatePrecision
{
    private readonly decimal _degrees;

    private CoordinatePrecision(decimal degrees) => _degrees = degrees;

    /// <summary>One degree.</summary>
    public static CoordinatePrecision Degree { get; } = new(1m);

    /// <summary>One minute, 1/60 of a degree.</summary>
    public static CoordinatePrecision Minute { get; } = new(1m / 60);

    /// <summary>One second, 1/3600 of a degree.</summary>
    public static CoordinatePrecision Second { get; } = new(1m / 3600);

    /// <summary>The unit in degrees, more than 0 and at most 1. The default value counts as one degree.</summary>
    public decimal Degrees => _degrees == 0 ? 1 : _degrees;

    /// <summary>A unit in degrees.</summary>
    /// <param name="degrees">More than 0, at most 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is anything else.</exception>
    public static CoordinatePrecision OfDegrees(decimal degrees)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(degrees);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(degrees, 1m);
        return new(degrees);
    }

    /// <summary>
    /// The unit divided by ten as often as there are decimals behind it: 3 decimals of a minute are 0.001′.
    /// </summary>
    /// <param name="decimals">How many decimals the last number has, 0 to 12; more count as 12.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative number.</exception>
    public CoordinatePrecision WithDecimals(int decimals)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(decimals);
        return new(Degrees * new decimal(1, 0, 0, false, (byte)Math.Min(decimals, 12)));
    }

    /// <summary>
    /// How far the true point can lie from the written one because of this unit alone: the diagonal of one whole unit
    /// of latitude and longitude, in metres. Wieczorek, Guo and Hijmans 2004, equation 1, on WGS 84.
    /// </summary>
    /// <param name="latitude">The latitude in degrees; north and south are alike.</param>
    public double UncertaintyInMeters(double latitude)
    {
        var north = (double)Degrees * Wgs84.MetresPerDegreeOfLatitude(latitude);
        var east = (double)Degrees * Wgs84.MetresPerDegreeOfLongitude(latitude);
        return Math.Sqrt((north * north) + (east * east));
    }

    /// <summary>
    /// The value for <c>dwc:coordinatePrecision</c>, in degrees: 0.00001, 0.000278 for a second, 0.01667 for a minute
    /// (the roundings that Darwin Core prints).
    /// </summary>
    public string ToDarwinCore()
    {
        if (this == Minute)
        {
            return "0.01667";
        }

        var places = 2;
        for (var rest = Degrees; rest < 1; rest *= 10)
        {
            places++;
        }

        return Math.Round(Degrees, Math.Min(places, 28)).ToString("0.#################", CultureInfo.InvariantCulture);
    }

    /// <summary>The unit for people: 1°, 0.001′, 0.1″, 0.00001°.</summary>
    public override string ToString()
    {
        var (unit, sign) = (Degrees, "°");
        if (!IsDecimal(Degrees))
        {
            (unit, sign) = IsDecimal(Math.Round(Degrees * 60, 14)) ? (Degrees * 60, "′") : (Degrees * 3600, "″");
        }

        return Math.Round(unit, 14).ToString("0.##############", CultureInfo.InvariantCulture) + sign;
    }

    private static bool IsDecimal(decimal unit) => Math.Round(unit, 12) == unit;
}
