namespace Accession.Server.Administering;

/// <summary>
/// Where the demo's plants were found. The counties are real; each has a rectangle that lies well inside it (read off a
/// map, to a tenth of a degree). Springs, ranches and rims are invented and stand in no county.
/// </summary>
public static class DemoPlaces
{
    /// <summary>A county of Oregon, a rectangle inside it in decimal degrees, and metres that are usual
    /// there.</summary>
    public sealed record County(
        string Name, double South, double North, double West, double East, int Lowest, int Highest);

    public static County Harney { get; } = new("Harney", 42.6, 43.6, -119.3, -118.5, 1250, 1900);

    public static County[] Counties { get; } =
    [
        Harney,
        new("Malheur", 42.5, 43.8, -117.9, -117.3, 1000, 1700),
        new("Lake", 42.4, 43.3, -120.7, -120.0, 1310, 1900),
        new("Grant", 44.2, 44.6, -119.3, -118.7, 1000, 1800),
        new("Baker", 44.5, 44.9, -118.0, -117.5, 1000, 1800),
        new("Wallowa", 45.4, 45.8, -117.5, -117.0, 1100, 1900),
    ];

    public static string[] Landmarks { get; } =
    [
        "Three Lanterns Spring", "Old Thimble Ranch", "Candlestick Rim", "Drowsy Creek crossing", "Brass Kettle Flat",
        "Lame Heron Lake", "Pepperpot Butte", "Sorrel Gate", "Wicket Meadow", "Number Nine corral",
        "Dry Lakes Field Station",
        "Half Moon windmill",
    ];
}
