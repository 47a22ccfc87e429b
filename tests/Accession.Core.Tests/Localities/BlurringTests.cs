using System.Globalization;
using Accession.Core.Localities;

namespace Accession.Core.Tests.Localities;

/// <summary>
/// Chapman 2020, Current Best Practices for Generalizing Sensitive Species Occurrence Data. Cells and radii were
/// computed with GeographicLib 2.1.2.
/// </summary>
public class BlurringTests
{
    private static readonly ExactPoint Spring = Coordinates.Read("43.58642, -119.05417").Value;

    [Theory]
    [InlineData(SensitivityCategory.Extreme, "43.5", "-119.5", 68_807)]
    [InlineData(SensitivityCategory.High, "43.55", "-119.05", 6_870)]
    [InlineData(SensitivityCategory.Medium, "43.585", "-119.055", 687)]
    [InlineData(SensitivityCategory.Low, "43.5865", "-119.0545", 69)]
    public void Publishes_the_centre_of_the_cell(
        SensitivityCategory category, string latitude, string longitude, double radius)
    {
        var point = Blurring.Of(Spring, category);
        Assert.Equal((latitude, longitude), (Text(point.Latitude), Text(point.Longitude)));
        // Ours is rounded up to whole metres.
        Assert.InRange(point.UncertaintyInMeters!.Value, radius, radius + 1);
    }

    [Theory]
    [InlineData(0, 78_452, 7_845, 785, 78.5)]
    [InlineData(30, 73_481, 7_348, 735, 73.5)]
    [InlineData(45, 68_131, 6_813, 681, 68.1)]
    [InlineData(60, 62_302, 6_230, 623, 62.3)]
    public void The_radius_is_half_the_diagonal_of_the_cell(
        int latitude, double extreme, double high, double medium, double low)
    {
        // The table is computed at the latitude itself, a published cell begins there and is measured to its farthest
        // corner: for 1 degree that is up to 0.6 % away, for the smaller cells less than 0.1 %.
        var point = new ExactPoint(latitude, 10m, CoordinatePrecision.Degree, 0.001);
        Assert.Equal(extreme, Radius(point, SensitivityCategory.Extreme), extreme * 0.006);
        Assert.Equal(high, Radius(point, SensitivityCategory.High), (high * 0.001) + 1);
        Assert.Equal(medium, Radius(point, SensitivityCategory.Medium), 1.5);
        Assert.Equal(low, Radius(point, SensitivityCategory.Low), 1.5);
    }

    [Fact]
    public void Adds_the_uncertainty_of_the_point_itself()
    {
        var cell = Radius(Spring, SensitivityCategory.Medium);
        Assert.Equal(cell + 30, Radius(Spring.WithUncertainty(30), SensitivityCategory.Medium));
    }

    [Fact]
    public void A_point_written_more_coarsely_than_the_cell_keeps_its_own_unit()
    {
        var coarse = Coordinates.Read("43.5, -119.5").Value;
        Assert.True(Radius(coarse, SensitivityCategory.Medium) > 13_000);   // 0.1 degrees are 13.7 km there
    }

    /// <summary>Cutting decimals off would move west and south into the next cell; binary fractions drift.</summary>
    [Theory]
    [InlineData("-43.58642", "119.05417", SensitivityCategory.High, "-43.55", "119.05")]
    [InlineData("-0.01", "-0.01", SensitivityCategory.Extreme, "-0.5", "-0.5")]
    [InlineData("43.3", "-119.3", SensitivityCategory.High, "43.35", "-119.25")]      // on the edge: its own cell
    [InlineData("0.3", "0.7", SensitivityCategory.High, "0.35", "0.75")]              // 0.3 / 0.1 is 2.9999… in binary
    [InlineData("4.35", "4.35", SensitivityCategory.Medium, "4.355", "4.355")]
    [InlineData("90", "0", SensitivityCategory.Extreme, "89.5", "0.5")]               // the pole has no cell above it
    [InlineData("-90", "180", SensitivityCategory.Extreme, "-89.5", "-179.5")]        // 180 east is 180 west
    public void Counts_cells_from_their_southern_and_western_edge(
        string latitude, string longitude, SensitivityCategory category,
        string expectedLatitude, string expectedLongitude)
    {
        var point = Blurring.Of(Coordinates.Read(latitude, longitude).Value, category);
        Assert.Equal((expectedLatitude, expectedLongitude), (Text(point.Latitude), Text(point.Longitude)));
    }

    [Fact]
    public void All_points_of_a_cell_look_alike_to_the_last_digit()
    {
        var random = new Random(1753);
        var published = Enumerable.Range(0, 2_000)
            .Select(_ => new ExactPoint(
                43.5m + (random.Next(100_000) / 1_000_000m),
                -119.1m + (random.Next(100_000) / 1_000_000m),
                CoordinatePrecision.OfDegrees(0.000001m),
                30))
            .Select(point => Blurring.Of(point, SensitivityCategory.High))
            .Distinct();
        Assert.Single(published);
    }

    [Fact]
    public void The_true_place_lies_inside_the_published_circle_everywhere_on_earth()
    {
        var random = new Random(1735);
        for (var i = 0; i < 20_000; i++)
        {
            var exact = new ExactPoint(
                random.Next(-90_000_000, 90_000_001) / 1_000_000m,
                random.Next(-180_000_000, 180_000_001) / 1_000_000m,
                CoordinatePrecision.OfDegrees(0.000001m));
            var category = (SensitivityCategory)random.Next(1, 5);
            var point = Blurring.Of(exact, category);
            var distance = Wgs84.Distance(
                (double)exact.Latitude, (double)exact.Longitude, (double)point.Latitude, (double)point.Longitude);
            Assert.True(distance <= point.UncertaintyInMeters, $"A point in category {category} left its circle.");
        }
    }

    [Fact]
    public void Says_what_was_done_with_both_precisions()
    {
        Assert.Equal("Coordinates, held to 0.00001°, were generalised to the centre of a cell of 0.1°; "
            + "the uncertainty covers the whole cell.", Blurring.Of(Spring, SensitivityCategory.High).Generalizations);
        Assert.Null(Blurring.Of(Spring, SensitivityCategory.NotSensitive).Generalizations);
    }

    [Fact]
    public void A_plant_that_needs_no_protection_is_published_as_held()
    {
        var point = Blurring.Of(Spring.WithUncertainty(12.5), SensitivityCategory.NotSensitive);
        Assert.Equal(("43.58642", "-119.05417"), (Text(point.Latitude), Text(point.Longitude)));
        Assert.Equal(12.5, point.UncertaintyInMeters);
        Assert.Null(Blurring.Of(Spring, SensitivityCategory.NotSensitive).UncertaintyInMeters);
    }

    [Theory]
    [InlineData(default(SensitivityCategory))]
    [InlineData((SensitivityCategory)9)]
    public void A_forgotten_category_publishes_nothing(SensitivityCategory category) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Blurring.Of(Spring, category));

    private static double Radius(ExactPoint point, SensitivityCategory category) =>
        Blurring.Of(point, category).UncertaintyInMeters!.Value;

    private static string Text(decimal value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
