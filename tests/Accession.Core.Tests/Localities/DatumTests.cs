using Accession.Core.Localities;

namespace Accession.Core.Tests.Localities;

public class DatumTests
{
    [Theory]
    [InlineData("WGS84", "WGS84")]
    [InlineData("WGS 84", "WGS84")]
    [InlineData("wgs-1984", "WGS84")]
    [InlineData("World Geodetic System 1984", "WGS84")]
    [InlineData("EPSG:4326", "WGS84")]
    [InlineData("NAD 27", "NAD27")]
    [InlineData("EPSG 4267", "NAD27")]
    [InlineData("North American Datum 1927", "NAD27")]
    [InlineData("NAD83", "NAD83")]
    [InlineData("epsg:4269", "NAD83")]
    public void Reads_the_three_usual_ones(string verbatim, string name)
    {
        var reading = Datum.Read(verbatim);
        Assert.Equal(name, reading.Value.Name);
        Assert.Null(reading.Question);
    }

    [Fact]
    public void Keeps_another_one_as_written_and_says_so()
    {
        var reading = Datum.Read(" Potsdam Datum ");
        Assert.Equal("Potsdam Datum", reading.Value.Name);
        Assert.Contains("not converted", reading.Question, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("not recorded")]
    [InlineData("unknown")]
    public void An_unknown_datum_is_no_datum(string verbatim) => Assert.False(Datum.Read(verbatim).IsRead);
}
