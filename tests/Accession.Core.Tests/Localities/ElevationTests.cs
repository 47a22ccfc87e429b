using Accession.Core.Localities;

namespace Accession.Core.Tests.Localities;

public class ElevationTests
{
    [Theory]
    [InlineData("4,120 ft", 1255.8, 1255.8, LengthUnit.Foot)]
    [InlineData("4120'", 1255.8, 1255.8, LengthUnit.Foot)]
    [InlineData("1256 m", 1256, 1256, LengthUnit.Metre)]
    [InlineData("1256m", 1256, 1256, LengthUnit.Metre)]
    [InlineData("1,256 m", 1256, 1256, LengthUnit.Metre)]
    [InlineData("1 256 m", 1256, 1256, LengthUnit.Metre)]
    [InlineData("12,5 m", 12.5, 12.5, LengthUnit.Metre)]            // a comma before other than three digits is decimal
    [InlineData("4100-4200 feet", 1249.7, 1280.2, LengthUnit.Foot)]
    [InlineData("4100 ft to 4200 ft", 1249.7, 1280.2, LengthUnit.Foot)]
    [InlineData("1200–1300 m", 1200, 1300, LengthUnit.Metre)]
    [InlineData("1200 a 1300 m", 1200, 1300, LengthUnit.Metre)]
    [InlineData("1200 m.s.n.m.", 1200, 1200, LengthUnit.Metre)]
    [InlineData("1200 msnm", 1200, 1200, LengthUnit.Metre)]
    [InlineData("1200 m a.s.l.", 1200, 1200, LengthUnit.Metre)]
    [InlineData("1200 m above sea level", 1200, 1200, LengthUnit.Metre)]
    [InlineData("Elev. 1200 m", 1200, 1200, LengthUnit.Metre)]
    [InlineData("alt.: 1200 mètres", 1200, 1200, LengthUnit.Metre)]
    [InlineData("-60 m", -60, -60, LengthUnit.Metre)]
    [InlineData("0 m", 0, 0, LengthUnit.Metre)]
    public void Reads(string verbatim, double minimum, double maximum, LengthUnit unit)
    {
        var reading = Elevation.Read(verbatim);
        Assert.True(reading.IsRead, reading.Unreadable?.Reason);
        Assert.Equal((minimum, maximum, unit),
            ((double)reading.Value.MinimumInMeters, (double)reading.Value.MaximumInMeters, reading.Value.Unit));
        Assert.Null(reading.Question);
    }

    [Theory]
    [InlineData("1256", LengthUnit.Metre, 1256, null)]
    [InlineData("4120", LengthUnit.Foot, 1255.8, null)]
    [InlineData("4120 ft", LengthUnit.Metre, 1255.8, "not that of the column")]
    [InlineData("ca. 1200", LengthUnit.Metre, 1200, "approximate")]
    [InlineData("~1200 m", null, 1200, "approximate")]
    public void Takes_the_unit_of_the_column_where_the_text_has_none(
        string verbatim, LengthUnit? columnUnit, double meters, string? about)
    {
        var reading = Elevation.Read(verbatim, columnUnit);
        Assert.Equal(meters, (double)reading.Value.MinimumInMeters);
        Assert.Equal(about is not null, reading.Question?.Contains(about!, StringComparison.Ordinal) ?? false);
    }

    [Theory]
    [InlineData("4120", 5, "Metres or feet? Write the unit, or name it in the heading.")]
    [InlineData("1,2 km", 1, "Elevations are read in metres or feet only.")]
    [InlineData("41200 ft", 1, "12557.8 m cannot be right: land lies between -500 and 9000 m. Check the unit.")]
    [InlineData("-900 m", 2, "-900 m cannot be right: land lies between -500 and 9000 m. Check the unit.")]
    [InlineData("1200-12000 m", 6, "12000 m cannot be right: land lies between -500 and 9000 m. Check the unit.")]
    [InlineData("1300-1200 m", 6, "The upper end of the range lies below the lower one.")]
    [InlineData("1200 m - 4100 ft", 10, "The two ends of the range have different units.")]
    [InlineData("1.250 m", 2, "The point can stand before thousands or before decimals; write the number without it.")]
    [InlineData("1200 1300 m", 6, "There is a number too many.")]
    [InlineData("valley floor", 1, "\"valley\" is not part of a height or distance.")]
    [InlineData("alt.", 5, "There is no number.")]
    [InlineData("1200 m?", 7, "The sign \"?\" does not belong in a height or distance.")]
    [InlineData("", 1, "No elevation is written.")]
    public void Says_where_and_why_it_stopped(string verbatim, int column, string reason)
    {
        var reading = Elevation.Read(verbatim);
        Assert.False(reading.IsRead);
        Assert.Equal(reason, reading.Unreadable.Reason);
        Assert.Equal(column, reading.Unreadable.Column);
    }

    [Theory]
    [InlineData(1256, 1256, "1,256 m")]
    [InlineData(1249.7, 1280.2, "1,249.7–1,280.2 m")]
    public void Shows_metres(double minimum, double maximum, string expected) =>
        Assert.Equal(expected, Elevation.OfMeters((decimal)minimum, (decimal)maximum).ForPeople());
}
