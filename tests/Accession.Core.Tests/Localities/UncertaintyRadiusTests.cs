using Accession.Core.Localities;

namespace Accession.Core.Tests.Localities;

public class UncertaintyRadiusTests
{
    [Theory]
    [InlineData("±30 m", null, 30)]
    [InlineData("+/- 30 m", null, 30)]
    [InlineData("30 m", null, 30)]
    [InlineData("30", LengthUnit.Metre, 30)]
    [InlineData("100 ft", null, 30.5)]
    [InlineData("0.5 km", null, 500)]
    [InlineData("1 mi", null, 1609.3)]
    [InlineData("1,200 m", null, 1200)]
    public void Reads(string verbatim, LengthUnit? columnUnit, double meters) =>
        Assert.Equal(meters, (double)UncertaintyRadius.Read(verbatim, columnUnit).Value.Meters);

    [Theory]
    [InlineData("0", 1, "An uncertainty is never 0; leave it empty if it is not known.")]    // Darwin Core says so
    [InlineData("±0 m", 2, "An uncertainty is never 0; leave it empty if it is not known.")]
    [InlineData("-5 m", 2, "An uncertainty is a distance and cannot be negative.")]
    [InlineData("30", 3, "Metres or feet? Write the unit, or name it in the heading.")]
    [InlineData("10-30 m", 4, "An uncertainty is one radius, not a range.")]
    [InlineData("30000 km", 1, "The radius is larger than the Earth.")]
    [InlineData("", 1, "No uncertainty is written.")]
    public void Says_where_and_why_it_stopped(string verbatim, int column, string reason)
    {
        var reading = UncertaintyRadius.Read(verbatim);
        Assert.Equal(reason, reading.Unreadable!.Reason);
        Assert.Equal(column, reading.Unreadable.Column);
    }

    [Fact]
    public void Asks_about_less_than_a_metre() =>
        Assert.Contains("finer", UncertaintyRadius.Read("0.01 m").Question, StringComparison.Ordinal);
}
