using System.Globalization;
using System.Text;
using Accession.Core.People;

namespace Accession.Server.Tracking;

/// <summary>
/// Numbers against dates as a drawing that prints: each number a dot, years along, numbers up. The same stands beside
/// it as a table, year by year.
/// </summary>
public sealed class NumberPlot
{
    /// <summary>The drawing's size in its own units, with room for the words at its edges.</summary>
    public const int Width = 640;

    public const int Height = 260;

    public const int Left = 56;

    public const int Bottom = 232;

    private const int Right = 628;
    private const int Top = 12;

    // More dots than these lie on each other, and every one is bytes.
    private const int MostDots = 1500;

    private NumberPlot(
        string dots, int highest, IReadOnlyList<(double At, int Year)> years, IReadOnlyList<OfYear> table) =>
        (Dots, Highest, Years, Table) = (dots, highest, years, table);

    /// <summary>The dots as one path of strokes without length.</summary>
    public string Dots { get; }

    /// <summary>The highest number, at the top of the scale.</summary>
    public int Highest { get; }

    /// <summary>Where each year that is written along the bottom begins.</summary>
    public IReadOnlyList<(double At, int Year)> Years { get; }

    /// <summary>The same in figures.</summary>
    public IReadOnlyList<OfYear> Table { get; }

    /// <summary>The numbers of one year.</summary>
    public sealed record OfYear(int Year, int Numbers, int Lowest, int Highest);

    /// <summary>Draws numbers; null where none can be read.</summary>
    public static NumberPlot? Of(IReadOnlyList<DatedNumber> numbers)
    {
        var read = numbers.Select(one => (one.Day, Serial: NumberingRuns.SerialOf(one)))
            .Where(one => one.Serial is not null).Select(one => (one.Day, Serial: one.Serial!.Value))
            .OrderBy(one => one.Day).ThenBy(one => one.Serial).ToList();
        if (read.Count == 0)
        {
            return null;
        }

        var (first, last) = (read[0].Day.Year, read[^1].Day.Year + 1);
        var highest = Math.Max(1, read.Max(one => one.Serial));
        double Along(double year) => Left + ((Right - Left) * (year - first) / (last - first));
        var dots = new StringBuilder();
        var each = Math.Max(1, (read.Count + MostDots - 1) / MostDots);
        foreach (var (day, serial) in read.Where((_, at) => at % each == 0))
        {
            var along = Along(day.Year + ((day.DayOfYear - 1) / 366.0));
            var up = Bottom - ((double)(Bottom - Top) * serial / highest);
            dots.Append(CultureInfo.InvariantCulture, $"M{along:0.#} {up:0.#}h0");
        }

        var step = Math.Max(1, (last - first + 7) / 8);
        return new(
            dots.ToString(),
            highest,
            [.. Enumerable.Range(first, last - first).Where(year => (year - first) % step == 0)
                .Select(year => (Along(year), year))],
            [.. read.GroupBy(one => one.Day.Year).Select(year => new OfYear(
                year.Key, year.Count(), year.Min(one => one.Serial), year.Max(one => one.Serial)))]);
    }
}
