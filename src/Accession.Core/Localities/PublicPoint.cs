namespace Accession.Core.Localities;

/// <summary>A point that everyone may see: generalised where the plant is protected, as held where it is not.</summary>
/// <remarks>Only <see cref="Blurring"/> makes one, and storage when it reads back what was published.</remarks>
public sealed record PublicPoint
{
    internal PublicPoint(decimal latitude, decimal longitude, double? uncertaintyInMeters, string? generalizations)
    {
        Latitude = latitude;
        Longitude = longitude;
        UncertaintyInMeters = uncertaintyInMeters;
        Generalizations = generalizations;
    }

    /// <summary>Degrees in WGS 84, north positive, as <c>dwc:decimalLatitude</c>.</summary>
    public decimal Latitude { get; }

    /// <summary>Degrees in WGS 84, east positive, as <c>dwc:decimalLongitude</c>.</summary>
    public decimal Longitude { get; }

    /// <summary>
    /// The radius in metres, as <c>dwc:coordinateUncertaintyInMeters</c>; it covers the whole cell of a generalised
    /// point. Null when the point is as held and its uncertainty is not known; never 0.
    /// </summary>
    public double? UncertaintyInMeters { get; }

    /// <summary>What was done to the point, as <c>dwc:dataGeneralizations</c>; null when it is as held.</summary>
    public string? Generalizations { get; }
}
