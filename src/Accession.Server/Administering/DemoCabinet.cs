using System.Globalization;
using System.Text;
using Bogus;

namespace Accession.Server.Administering;

/// <summary>
/// The old herbarium of a school that the demo's station took over: sheets that bear their numbers, of people who
/// collected one after the other through most of a century and wrote their names in more than one way.
/// </summary>
public static class DemoCabinet
{
    /// <summary>Whose holdings they were.</summary>
    public const string Source = "Lantern Rock Academy, its old herbarium";

    /// <summary>The list, as the school's last teacher typed it.</summary>
    public const string FileName = "lantern-rock-academy.csv";

    private const string Headings =
        "Catalog No.,Collector,Coll. No.,Date coll.,State,County,Locality,Habitat,Species,Family,Det. by,Det. date";

    /// <summary>Everybody who collected for it.</summary>
    public static DemoCollector[] Collectors { get; } =
    [
        new("Augustin Fairlamb", ["A. Fairlamb", "Aug. Fairlamb", "Fairlamb, A."], 1926, 1941, 90, Numbering.Running),
        new("Cordelia Stroud", ["C. Stroud", "Cordelia Stroud"], 1934, 1952, 84, Numbering.Yearly),
        new("Leander Huxtable", ["L. Huxtable"], 1947, 1966, 96, Numbering.Running),
        new("Rosa Pellow", ["R. Pellow & E. Pellow", "Rosa Pellow"], 1958, 1971, 60, Numbering.Running),
        new("Ines Marchbanks", ["I. Marchbanks", "Ines Marchbanks"], 1969, 1988, 72, Numbering.Yearly),
        new("Lantern Rock summer class", ["Lantern Rock summer class"], 1975, 1998, 38, Numbering.None),
    ];

    /// <summary>
    /// Names under which plants of the demo lay in old cabinets, and those of today. Which name a flora accepts is the
    /// flora's opinion; these are from memory.
    /// </summary>
    public static IReadOnlyDictionary<string, string> OldNames { get; } = new Dictionary<string, string>
    {
        ["Pseudoroegneria spicata (Pursh) Á.Löve"] = "Agropyron spicatum (Pursh) Scribn. & J.G.Sm.",
        ["Elymus elymoides (Raf.) Swezey"] = "Sitanion hystrix (Nutt.) J.G.Sm.",
        ["Leymus cinereus (Scribn. & Merr.) Á.Löve"] = "Elymus cinereus Scribn. & Merr.",
        ["Achnatherum hymenoides (Roem. & Schult.) Barkworth"] =
            "Oryzopsis hymenoides (Roem. & Schult.) Ricker ex Piper",
        ["Ericameria nauseosa (Pall. ex Pursh) G.L.Nesom & G.I.Baird"] =
            "Chrysothamnus nauseosus (Pall. ex Pursh) Britton",
    };

    /// <summary>How a collector numbers.</summary>
    public enum Numbering
    {
        /// <summary>One run for life.</summary>
        Running,

        /// <summary>From 1 again each year, behind the year.</summary>
        Yearly,

        /// <summary>Not at all.</summary>
        None,
    }

    /// <summary>Somebody who collected, invented.</summary>
    public sealed record DemoCollector(
        string Name, string[] Spellings, int From, int Until, int Sheets, Numbering Numbering);

    /// <summary>The number on the k-th sheet, from 1.</summary>
    public static string Number(int sheet) => string.Create(CultureInfo.InvariantCulture, $"LRA-{sheet:0000}");

    /// <summary>The file, the same to the byte each time.</summary>
    public static byte[] ToCsv()
    {
        var chance = new Randomizer(20);
        var lines = new StringBuilder(Headings).Append("\r\n");
        var sheet = 0;
        foreach (var collector in Collectors)
        {
            foreach (var line in LinesOf(collector, chance))
            {
                sheet++;
                // Two slips of the one who stamped the numbers: each stands on two sheets.
                var number = Number(sheet is 118 or 301 ? sheet - 1 : sheet);
                lines.Append(number).Append(',').Append(line).Append("\r\n");
            }
        }

        return Encoding.UTF8.GetBytes(lines.ToString());
    }

    private static IEnumerable<string> LinesOf(DemoCollector collector, Randomizer chance)
    {
        var (year, ofTheYear) = (collector.From, 0);
        for (var k = 0; k < collector.Sheets; k++)
        {
            var now = collector.From + (k * (collector.Until - collector.From + 1) / collector.Sheets);
            (year, ofTheYear) = now == year ? (year, ofTheYear + 1) : (now, 1);
            var habitat = chance.ArrayElement(DemoFlora.Habitats);
            var plant = chance.ArrayElement(habitat.Plants);
            var named = chance.Number(1, 3) == 1;
            yield return string.Join(',', new[]
            {
                chance.ArrayElement(collector.Spellings),
                collector.Numbering switch
                {
                    Numbering.Running => $"{100 + (k * 3) + chance.Number(0, 2)}",
                    Numbering.Yearly => string.Create(CultureInfo.InvariantCulture, $"{year % 100:00}-{ofTheYear}"),
                    _ => "s.n.",
                },
                Day(year, chance),
                "Oregon",
                chance.ArrayElement(DemoPlaces.Counties).Name,
                $"{chance.Number(1, 6)} mi {chance.ArrayElement(["N", "E", "S", "W"])} of "
                    + chance.ArrayElement(DemoPlaces.Landmarks),
                chance.ArrayElement(habitat.Texts),
                OldNames.GetValueOrDefault(plant.Name, plant.Name),
                plant.Family,
                named ? collector.Name : "",
                named ? string.Create(CultureInfo.InvariantCulture, $"{year + chance.Number(0, 4)}") : "",
            }.Select(Quoted));
        }
    }

    // As on labels of the time: a day, a month, now and then a year alone.
    private static string Day(int year, Randomizer chance)
    {
        var day = new DateOnly(year, chance.Number(4, 9), chance.Number(1, 28));
        return chance.Number(1, 12) switch
        {
            1 => $"{year}",
            2 or 3 => day.ToString("MMM yyyy", CultureInfo.InvariantCulture),
            _ => day.ToString("d MMM yyyy", CultureInfo.InvariantCulture),
        };
    }

    private static string Quoted(string cell) => cell.Contains(',') ? $"\"{cell}\"" : cell;
}
