using System.Globalization;
using Accession.Core.Localities;

namespace Accession.Core.Tests.Localities;

public class CoordinatePrecisionTests
{
    /// <summary>
    /// Computed with GeographicLib 2.1.2's ellipsoid by Wieczorek, Guo and Hijmans 2004, equation 1; they agree with
    /// the table printed in Chapman and Wieczorek 2020, which rounds up. The 60° row of 0.01° is printed as 1,246 and
    /// 1,247.
    /// </summary>
    [Theory]
    [InlineData("1", 0, 156_903, 146_962, 137_422, 136_261, 124_605, 112_109)]
    [InlineData("0.1", 0, 15_690, 14_696, 13_742, 13_626, 12_460, 11_211)]
    [InlineData("0.01", 0, 1_569, 1_470, 1_374, 1_363, 1_246, 1_121)]
    [InlineData("0.001", 1, 157, 147, 137.4, 136.3, 124.6, 112.1)]
    [InlineData("0.0001", 1, 15.7, 14.7, 13.74, 13.63, 12.46, 11.21)]
    [InlineData("0.00001", 2, 1.57, 1.47, 1.37, 1.36, 1.25, 1.12)]
    [InlineData("1′", 0, 2_615, 2_449, 2_290, 2_271, 2_077, 1_868)]
    [InlineData("0.1′", 1, 261.5, 244.9, 229.0, 227.1, 207.7, 186.8)]
    [InlineData("0.001′", 1, 2.6, 2.4, 2.29, 2.27, 2.08, 1.87)]
    [InlineData("1″", 1, 43.6, 40.8, 38.2, 37.8, 34.6, 31.1)]
    [InlineData("0.1″", 1, 4.4, 4.1, 3.8, 3.8, 3.5, 3.1)]
    public void Agrees_with_the_published_table(
        string unit, int decimals, double at0, double at30, double at43, double at45, double at60, double at85)
    {
        var precision = Parse(unit);
        var tolerance = decimals == 0 ? 1 : decimals == 1 ? 0.5 : 0.01;
        (double Latitude, double Expected)[] table =
            [(0, at0), (30, at30), (43.5, at43), (45, at45), (60, at60), (85, at85)];
        Assert.All(table, row => Assert.Equal(
            row.Expected, precision.UncertaintyInMeters(row.Latitude), unit == "0.001′" ? 0.05 : tolerance));
        Assert.Equal(precision.UncertaintyInMeters(43.5), precision.UncertaintyInMeters(-43.5), 9);
    }

    [Fact]
    public void Agrees_with_the_worked_example_of_the_guide() =>
        // Chapman and Wieczorek 2020: 10.27, -123.6 to 0.01 degrees, u = 1,556.8 m; to half a degree 77.87 km.
        Assert.Multiple(
            () => Assert.Equal(1556.8, CoordinatePrecision.OfDegrees(0.01m).UncertaintyInMeters(10.27), 0.1),
            () => Assert.Equal(77_870, CoordinatePrecision.OfDegrees(0.5m).UncertaintyInMeters(10.0), 10.0));

    [Fact]
    public void An_exact_point_knows_the_uncertainty_of_its_own_unit() =>
        Assert.Equal(1.37, Coordinates.Read("43.58642, -119.05417").Value.UncertaintyFromPrecision(), 0.01);

    private static CoordinatePrecision Parse(string unit)
    {
        var number = decimal.Parse(unit.TrimEnd('′', '″'), CultureInfo.InvariantCulture);
        return unit[^1] switch
        {
            '′' => CoordinatePrecision.OfDegrees(number / 60),
            '″' => CoordinatePrecision.OfDegrees(number / 3600),
            _ => CoordinatePrecision.OfDegrees(number),
        };
    }
}
