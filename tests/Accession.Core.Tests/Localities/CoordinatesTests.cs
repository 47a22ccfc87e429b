using Accession.Core.Localities;

namespace Accession.Core.Tests.Localities;

/// <summary>
/// The place is invented and lies in Harney County, Oregon; its conversions agree with GeographicLib 2.1.2.
/// </summary>
public class CoordinatesTests
{
    [Theory]
    [InlineData("43.58642, -119.05417", 43.58642, -119.05417)]
    [InlineData("43,58642; -119,05417", 43.58642, -119.05417)]              // decimal commas
    [InlineData("43,58642, -119,05417", 43.58642, -119.05417)]
    [InlineData("43.58642,-119.05417", 43.58642, -119.05417)]
    [InlineData("43.58642 N 119.05417 W", 43.58642, -119.05417)]
    [InlineData("N43.58642 W119.05417", 43.58642, -119.05417)]
    [InlineData("W 119.05417, N 43.58642", 43.58642, -119.05417)]           // the letters decide the order
    [InlineData("\u2212119.05417 43.58642", 43.58642, -119.05417)]          // U+2212, and the size decides the order
    [InlineData("43.58642 -119.05417", 43.58642, -119.05417)]
    [InlineData("43.58642/-119.05417", 43.58642, -119.05417)]
    [InlineData("lat 43.58642 long -119.05417", 43.58642, -119.05417)]
    [InlineData("Longitude: -119.05417; Latitude: 43.58642", 43.58642, -119.05417)]
    [InlineData("+43.58642 -119.05417", 43.58642, -119.05417)]
    [InlineData("-43.58642 S, 11.5 E", -43.58642, 11.5)]                    // sign and letter say the same twice
    [InlineData(".5 N, .25 W", 0.5, -0.25)]
    [InlineData("43.58642°, -119.05417°", 43.58642, -119.05417)]
    [InlineData("43.5 norte, 119.05 oeste", 43.5, -119.05)]
    [InlineData("43.58642 119.05417", 43.58642, 119.05417)]                 // a lost minus is not put back here
    public void Reads_decimal_degrees(string verbatim, double latitude, double longitude) =>
        AssertPoint(verbatim, latitude, longitude);

    [Theory]
    [InlineData("43°35'11.1\"N 119°03'15.1\"W")]
    [InlineData("43 35 11.1 N, 119 3 15.1 W")]
    [InlineData("N43d35m11.1s W119d3m15.1s")]
    [InlineData("43d35m11.1sN 119d3m15.1sW")]
    [InlineData("43º35’11,1” N, 119º03’15,1” W")]
    [InlineData("43°35′11.1″N 119°03′15.1″W")]
    [InlineData("43°35'11.1''N 119°03'15.1''W")]
    [InlineData("43 35 11.1 -119 3 15.1")]
    [InlineData("43° 35' 11.1\" -119° 3' 15.1\"")]
    [InlineData("43:35:11.1 N 119:03:15.1 W")]
    [InlineData("N 43 35 11.1 W 119 3 15.1")]
    [InlineData("43 deg 35 min 11.1 sec N, 119 deg 3 min 15.1 sec W")]
    public void Reads_degrees_minutes_and_seconds(string verbatim)
    {
        AssertPoint(verbatim, 43.586417, -119.054194);
        Assert.Equal("0.1″", Coordinates.Read(verbatim).Value.Precision.ToString());
    }

    [Theory]
    [InlineData("43°35.185'N 119°03.252'W")]
    [InlineData("43 35.185 N 119 03.252 W")]
    [InlineData("43 35.185 -119 03.252")]
    [InlineData("43º35,185’N; 119º03,252’W")]
    public void Reads_degrees_and_decimal_minutes(string verbatim) => AssertPoint(verbatim, 43.586417, -119.054200);

    [Theory]
    [InlineData("43.58642", "-119.05417", 43.58642, -119.05417)]
    [InlineData("43,58642", "-119,05417", 43.58642, -119.05417)]
    [InlineData("43°35'11.1\"N", "119°03'15.1\"W", 43.586417, -119.054194)]
    [InlineData("43 35.185", "-119 03.252", 43.586417, -119.0542)]
    [InlineData("43.58642, -119.05417", "", 43.58642, -119.05417)]         // the pair stands in the first cell
    [InlineData("-33.5", "-70.5", -33.5, -70.5)]
    public void Reads_two_cells(string latitude, string longitude, double expectedLatitude, double expectedLongitude)
    {
        var reading = Coordinates.Read(latitude, longitude);
        Assert.True(reading.IsRead, reading.Unreadable?.Reason);
        Assert.Equal(expectedLatitude, (double)reading.Value.Latitude, 6);
        Assert.Equal(expectedLongitude, (double)reading.Value.Longitude, 6);
        Assert.Equal($"{latitude}; {longitude}", reading.Verbatim);
    }

    [Theory]
    [InlineData("43° 61' N, 119° 3' W", 5, "There are no 61 minutes; they end before 60.")]
    [InlineData("43° 35' 60\" N, 119° 3' W", 9, "There are no 60 seconds; they end before 60.")]
    [InlineData("43.5° 30' N, 119° 3' W", 7, "Only the last of degrees, minutes and seconds can have decimals.")]
    [InlineData("91.5 N, 119.05 W", 1, "There is no such latitude: it ends at 90 degrees.")]
    [InlineData("43.5 N, 190.05 W", 9, "There is no such longitude: it ends at 180 degrees.")]
    [InlineData("119.5, 120.5", 8, "There is no such latitude: it ends at 90 degrees.")]
    [InlineData("43.5 N, -119.05 E", 17, "The sign and the letter of the hemisphere contradict each other.")]
    [InlineData("-43.5 N, 119.05 E", 7, "The sign and the letter of the hemisphere contradict each other.")]
    [InlineData("43°35'N", 8, "There is a latitude but no longitude: half a pair is no place.")]
    [InlineData("ca. 43.6", 9, "There is a latitude but no longitude: half a pair is no place.")]
    [InlineData("43 35 N", 8, "There is a latitude but no longitude: half a pair is no place.")]
    [InlineData("119.05 W", 9, "There is a longitude but no latitude: half a pair is no place.")]
    [InlineData("43.5 N, 44.5 N", 9, "Both numbers are a latitude.")]
    [InlineData("43.5 N, 119.05 O", 16, "O can be west (oeste, ouest, ovest) or east (Ost); write W or E.")]
    [InlineData("43,58642,119,05417", 9,
        "Commas serve both as decimal sign and between the numbers; put a semicolon between them.")]
    [InlineData("lat 43.5 E, long 119.5 W", 10,
        "The letter of the hemisphere contradicts the word latitude or longitude.")]
    [InlineData("near the old well", 1, "\"near\" is not part of a coordinate.")]
    [InlineData("43°35''11.1 N 119°03'15.1'' W", 6, "Degrees, minutes and seconds stand in this order, each once.")]
    [InlineData("43.5, -119.5, 12", 5, "After the coordinate something stands that was not understood.")]
    [InlineData("N, W", 2, "A number of degrees is missing here.")]
    [InlineData("4358.5, -119.5", 1, "A number of this size is not in degrees.")]
    [InlineData("", 1, "No coordinates are written.")]
    public void Says_where_and_why_it_stopped(string verbatim, int column, string reason)
    {
        var reading = Coordinates.Read(verbatim);
        Assert.False(reading.IsRead);
        Assert.Equal(reason, reading.Unreadable.Reason);
        Assert.Equal(column, reading.Unreadable.Column);
    }

    [Theory]
    [InlineData("-119.05417", "43.58642", 1, "Latitude and longitude look swapped; check which cell is which.")]
    [InlineData("119.05 W", "43.58 N", 1, "Latitude and longitude look swapped; check which cell is which.")]
    [InlineData("43.5", "", 7, "There is a latitude but no longitude: half a pair is no place.")]
    [InlineData("", "-119.5", 1, "There is a longitude but no latitude: half a pair is no place.")]
    [InlineData("95.5", "-119.5", 1, "There is no such latitude: it ends at 90 degrees.")]
    [InlineData("43.5", "-219.5", 7, "There is no such longitude: it ends at 180 degrees.")]
    [InlineData("43.5", "119 61 W", 11, "There are no 61 minutes; they end before 60.")]
    [InlineData("43.5", "west", 11, "A number of degrees is missing here.")]
    [InlineData("", "", 1, "No coordinates are written.")]
    public void Says_what_is_wrong_with_two_cells(string latitude, string longitude, int column, string reason)
    {
        var reading = Coordinates.Read(latitude, longitude);
        Assert.False(reading.IsRead);
        Assert.Equal(reason, reading.Unreadable.Reason);
        Assert.Equal(column, reading.Unreadable.Column);
    }

    [Theory]
    [InlineData("11T 334167 4827989", "UTM")]
    [InlineData("UTM 11 334167mE 4827989mN", "UTM")]
    [InlineData("Zone 11N E334167 N4827989", "UTM")]
    [InlineData("11TLJ3416727989", "MGRS")]
    [InlineData("11T LJ 34167 27989", "MGRS")]
    [InlineData("T23S R30E Sec. 14 NE¼ SW¼, W.M.", "township, range and section")]
    [InlineData("T 23 S, R 30 E, S14, NESW", "township, range and section")]
    [InlineData("23S 30E 14", "township, range and section")]
    [InlineData("3218CB", "a quarter-degree cell")]
    [InlineData("E032S18CB", "a quarter-degree cell")]
    public void Keeps_other_notations_as_written(string verbatim, string notation) => Assert.Equal(
        $"Not read yet: written as {notation}; kept as written.", Coordinates.Read(verbatim).Unreadable!.Reason);

    [Theory]
    [InlineData("0, 0", "sea off Africa")]
    [InlineData("0.0000 N, 0.0000 E", "sea off Africa")]
    [InlineData("ca. 43.58 N, 119.05 W", "approximate")]
    [InlineData("10.00000, -123.50000", "to 0.5° only")]
    public void Reads_with_a_question(string verbatim, string about) =>
        Assert.Contains(about, Coordinates.Read(verbatim).Question, StringComparison.Ordinal);

    /// <summary>
    /// Rows marked with the guide are from Chapman and Wieczorek 2020, Georeferencing Best Practices.
    /// </summary>
    [Theory]
    [InlineData("43.58642, -119.05417", "0.00001°", "0.00001")]
    [InlineData("43.5, -119.05417", "0.00001°", "0.00001")]     // a spreadsheet dropped the zeros of one half
    [InlineData("10.27, -123.6", "0.01°", "0.01")]                          // the guide
    [InlineData("10.00000, -123.50000", "0.5°", "0.5")]         // the guide: zeros in both are false precision
    [InlineData("10.5, -123.5", "0.1°", "0.1")]                             // no zeros to distrust
    [InlineData("43.580, -119.050", "0.01°", "0.01")]
    [InlineData("44, -119", "1°", "1")]
    [InlineData("43°35'11\"N 119°03'15\"W", "1″", "0.000278")]              // Darwin Core prints 0.000278 for a second
    [InlineData("43°35'N 119°03'W", "1′", "0.01667")]                       // and 0.01667 for a minute
    [InlineData("43°35'00\"N 119°03'00\"W", "1′", "0.01667")]
    [InlineData("43°35'00\"N 119°03'15\"W", "1″", "0.000278")]
    [InlineData("43°30'00\"N 119°00'00\"W", "0.5°", "0.5")]
    [InlineData("43°35.185'N 119°03.252'W", "0.001′", "0.0000167")]
    [InlineData("43°35.180'N 119°03.250'W", "0.01′", "0.000167")]
    public void Knows_the_unit_to_which_a_pair_was_written(string verbatim, string people, string darwinCore)
    {
        var precision = Coordinates.Read(verbatim).Value.Precision;
        Assert.Equal(people, precision.ToString());
        Assert.Equal(darwinCore, precision.ToDarwinCore());
    }

    private static void AssertPoint(string verbatim, double latitude, double longitude)
    {
        var reading = Coordinates.Read(verbatim);
        Assert.True(reading.IsRead, reading.Unreadable?.Reason);
        Assert.Equal(latitude, (double)reading.Value.Latitude, 6);
        Assert.Equal(longitude, (double)reading.Value.Longitude, 6);
    }
}
