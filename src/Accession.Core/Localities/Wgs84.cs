namespace Accession.Core.Localities;

/// <summary>The ellipsoid of WGS 84: a = 6,378,137 m, 1/f = 298.257223563 (EPSG 7030).</summary>
internal static class Wgs84
{
    private const double EquatorialRadius = 6_378_137.0;
    private const double Flattening = 1 / 298.257223563;
    private const double EccentricitySquared = Flattening * (2 - Flattening);

    /// <summary>Metres of one degree northward at a latitude, by the meridional radius of curvature.</summary>
    public static double MetresPerDegreeOfLatitude(double latitude)
    {
        var w = 1 - (EccentricitySquared * Square(Math.Sin(Radians(latitude))));
        return Radians(EquatorialRadius * (1 - EccentricitySquared) / (w * Math.Sqrt(w)));
    }

    /// <summary>Metres of one degree eastward at a latitude, by the radius of the parallel.</summary>
    public static double MetresPerDegreeOfLongitude(double latitude) =>
        Radians(RadiusAcross(latitude) * Math.Cos(Radians(latitude)));

    /// <summary>
    /// The distance over ground of two points at most some hundred kilometres apart, in metres: the straight line
    /// through the ellipsoid, bent to an arc. Good to a decimetre at 100 km.
    /// </summary>
    public static double Distance(double latitude1, double longitude1, double latitude2, double longitude2)
    {
        var (x1, y1, z1) = Cartesian(latitude1, longitude1);
        var (x2, y2, z2) = Cartesian(latitude2, longitude2);
        var line = Math.Sqrt(Square(x1 - x2) + Square(y1 - y2) + Square(z1 - z2));
        const double MeanRadius = 6_371_008.8;
        return 2 * MeanRadius * Math.Asin(Math.Min(1, line / (2 * MeanRadius)));
    }

    private static (double X, double Y, double Z) Cartesian(double latitude, double longitude)
    {
        var (phi, lambda) = (Radians(latitude), Radians(longitude));
        var n = RadiusAcross(latitude);
        return (n * Math.Cos(phi) * Math.Cos(lambda),
            n * Math.Cos(phi) * Math.Sin(lambda),
            n * (1 - EccentricitySquared) * Math.Sin(phi));
    }

    private static double RadiusAcross(double latitude) =>
        EquatorialRadius / Math.Sqrt(1 - (EccentricitySquared * Square(Math.Sin(Radians(latitude)))));

    private static double Radians(double degrees) => degrees * Math.PI / 180;

    private static double Square(double value) => value * value;
}
