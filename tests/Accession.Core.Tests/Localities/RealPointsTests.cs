using System.Globalization;
using Accession.Core.Localities;
using Accession.Tests;

namespace Accession.Core.Tests.Localities;

/// <summary>Reads the coordinates of 10,734 published rows of herbarium sheets (Darwin Core) in place.</summary>
public class RealPointsTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData("occurrences-malus.tsv")]
    [InlineData("occurrences-vaccinium.tsv")]
    public void Published_decimal_coordinates_are_read_as_they_stand(string file)
    {
        var lines = File.ReadLines(ReferenceData.Require("samples", file)).Select(line => line.Split('\t')).ToList();
        var latitude = Array.IndexOf(lines[0], "decimalLatitude");
        var longitude = Array.IndexOf(lines[0], "decimalLongitude");
        var asked = 0;
        foreach (var row in lines.Skip(1))
        {
            var reading = Coordinates.Read(row[latitude], row[longitude]);
            Assert.True(reading.IsRead);
            Assert.Equal(decimal.Parse(row[latitude], CultureInfo.InvariantCulture), reading.Value.Latitude);
            Assert.Equal(decimal.Parse(row[longitude], CultureInfo.InvariantCulture), reading.Value.Longitude);
            asked += reading.Question is null ? 0 : 1;
        }

        output.WriteLine($"{lines.Count - 1} pairs read, {asked} of them with a question.");
    }
}
