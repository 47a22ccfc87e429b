using System.Globalization;
using System.Text;
using Bogus;

namespace Accession.Server.Administering;

/// <summary>
/// A list of vouchers as an invented sender would write it: rows from a seed, the same at each start, so that a demo
/// can be
/// described and photographed.
/// </summary>
public sealed class DemoList
{
    /// <summary>The season of the demo's collecting. It is a fixed one, or the lists would differ from year to
    /// year.</summary>
    public const int Season = 2025;

    private readonly List<Row> _rows = [];

    /// <summary>One voucher, as its collector wrote it.</summary>
    public sealed record Row(
        string Collector, string Number, string Date, string County, string Locality, string Latitude, string Longitude,
        string Feet, string Habitat, string Name, string Family, string Remarks, string Sheets)
    {
        public const string Headings =
            "Collector,Coll. No.,Date coll.,State,County,Locality,Lat,Long,Elev (ft),Habitat,Species,Family,Notes,"
            + "Sheets";

        public string Line => string.Join(',', new[]
        {
            Collector, Number, Date, "Oregon", County, Locality, Latitude, Longitude, Feet, Habitat, Name, Family,
            Remarks, Sheets,
        }.Select(Quoted));

        private static string Quoted(string cell) =>
            cell.AsSpan().ContainsAny(",\"") ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell;
    }

    /// <summary>The rows, to be spoilt or corrected.</summary>
    public IList<Row> Rows => _rows;

    /// <summary>Makes the rows of one collector, in the order of a season.</summary>
    /// <param name="seed">The same seed gives the same rows.</param>
    /// <param name="collector">The collector and companions, as written.</param>
    /// <param name="number">How the collector writes the k-th number, from 0.</param>
    /// <param name="rows">How many.</param>
    public static DemoList Of(int seed, string collector, Func<int, string> number, int rows)
    {
        var chance = new Randomizer(seed);
        var list = new DemoList();
        var firstDay = new DateOnly(Season, 5, 3);
        for (var k = 0; k < rows; k++)
        {
            var day = firstDay.AddDays(k * 100 / rows);
            list._rows.Add(Found(chance, collector, number(k), day));
        }

        return list;
    }

    /// <summary>The file, to the byte.</summary>
    public byte[] ToCsv() => Encoding.UTF8.GetBytes(
        string.Concat(_rows.Select(row => row.Line).Prepend(Row.Headings).Select(line => line + "\r\n")));

    private static Row Found(Randomizer chance, string collector, string number, DateOnly day)
    {
        var habitat = chance.ArrayElement(DemoFlora.Habitats);
        var plant = chance.ArrayElement(habitat.Plants);
        var county = chance.ArrayElement(DemoPlaces.Counties);
        var meters = chance.Number(Math.Max(habitat.Lowest, county.Lowest), Math.Min(habitat.Highest, county.Highest));
        var direction = chance.ArrayElement(["N", "NE", "E", "SE", "S", "SW", "W", "NW"]);
        return new(
            collector,
            number,
            day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            county.Name,
            $"{chance.Number(1, 9)} km {direction} of {chance.ArrayElement(DemoPlaces.Landmarks)}",
            Degrees(chance.Double(county.South, county.North)),
            Degrees(chance.Double(county.West, county.East)),
            // To the nearest ten feet, as read from a map.
            (Math.Round(meters / 0.3048 / 10) * 10).ToString("#,0", CultureInfo.InvariantCulture),
            chance.ArrayElement(habitat.Texts),
            plant.Name,
            plant.Family,
            plant.Says,
            chance.Number(1, 5) == 1 ? "2" : "1");
    }

    private static string Degrees(double degrees) => degrees.ToString("0.00000", CultureInfo.InvariantCulture);
}
