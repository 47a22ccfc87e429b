using System.Globalization;
using Accession.Server.Administering;

namespace Accession.Server.Tests.Administering;

/// <summary>The demo's lists are the same at each start, and their places lie where they say.</summary>
public sealed class DemoListTests
{
    [Fact]
    public void The_same_seed_gives_the_same_bytes()
    {
        Assert.Equal(DemoLists.Volunteers().List.ToCsv(), DemoLists.Volunteers().List.ToCsv());
        Assert.NotEqual(DemoLists.Volunteers().List.ToCsv(), DemoLists.Settled().List.ToCsv());
    }

    // The borders of the counties are far outside the rectangles: from memory, to a tenth of a degree, no published source.
    [Fact]
    public void Every_point_lies_in_the_rectangle_of_its_county_and_every_elevation_is_usual_there()
    {
        var counties = DemoPlaces.Counties.ToDictionary(county => county.Name);
        Assert.All(DemoLists.HalfNumbered().List.Rows.Concat(DemoLists.Numbered().List.Rows), row =>
        {
            var county = counties[row.County];
            Assert.InRange(Number(row.Latitude), county.South, county.North);
            Assert.InRange(Number(row.Longitude), county.West, county.East);
            var meters = Number(row.Feet) * 0.3048;
            Assert.InRange(meters, county.Lowest - 2, county.Highest + 2);   // rounded to ten feet
        });
    }

    private static double Number(string text) =>
        double.Parse(text, NumberStyles.Float | NumberStyles.AllowThousands, CultureInfo.InvariantCulture);
}
