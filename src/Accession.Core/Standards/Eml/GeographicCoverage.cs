namespace Accession.Core.Standards.Eml;

/// <summary>Where the specimens of a data set come from.</summary>
/// <param name="Description">The region in words; never blank.</param>
/// <param name="Box">
/// The box that holds the public coordinates; null when not known. The standard demands a box, so the whole world is
/// written then. Never compute it from exact places: one protected specimen at the edge would show its own.
/// </param>
public sealed record GeographicCoverage(string Description, BoundingBox? Box = null);

/// <summary>A box in decimal degrees, WGS 84.</summary>
/// <param name="West">The western edge, -180 to 180. Greater than the eastern one when the box crosses 180°.</param>
/// <param name="East">The eastern edge, -180 to 180.</param>
/// <param name="South">The southern edge, -90 to 90.</param>
/// <param name="North">The northern edge, -90 to 90, not south of the southern one.</param>
public sealed record BoundingBox(decimal West, decimal East, decimal South, decimal North)
{
    /// <summary>The whole world.</summary>
    public static BoundingBox World { get; } = new(-180, 180, -90, 90);

    /// <summary>Whether the edges are on the globe and the northern one is not south of the southern one.</summary>
    public bool IsPossible =>
        Math.Abs(West) <= 180 && Math.Abs(East) <= 180 && South >= -90 && South <= North && North <= 90;
}
