using Accession.Core.Outcomes;

namespace Accession.Core.Numbers;

/// <summary>
/// A named range of pre-printed barcodes. Each of its numbers is unused until it is scanned from a sheet; the counter
/// of the series steps over the range, so no number can come from both.
/// </summary>
public sealed class Roll
{
    private Roll()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The series whose numbers are printed on it.</summary>
    public long SeriesId { get; private set; }

    /// <summary>The series whose numbers are printed on it.</summary>
    public NumberSeries Series { get; private set; } = null!;

    /// <summary>What people call it, such as "printer's roll 3".</summary>
    public string Name { get; private set; } = "";

    /// <summary>The first number on it.</summary>
    public long First { get; private set; }

    /// <summary>The last number on it.</summary>
    public long Last { get; private set; }

    /// <summary>The act that registered it.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that registered it.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Registers a roll, or says why its range cannot be.</summary>
    /// <param name="series">The series whose numbers are printed on it.</param>
    /// <param name="name">What people call it.</param>
    /// <param name="first">The first number on it.</param>
    /// <param name="last">The last number on it; at most 1,000,000 numbers in all.</param>
    /// <param name="others">The rolls of the series that are registered already.</param>
    /// <param name="act">The act of registering.</param>
    public static Outcome<Roll> Register(
        NumberSeries series, string name, long first, long last, IReadOnlyList<Roll> others, Act act)
    {
        var pattern = series.Pattern;
        string Range(long from, long to) => $"{pattern.Write(from, 0)} to {pattern.Write(to, 0)}";

        if (series.Use != SeriesUse.Specimens)
        {
            return new Refusal(RefusalKind.Invalid, $"{series.Name} numbers lots, not sheets: it has no barcodes.");
        }

        if (first < 1 || last < first || last > pattern.Largest || last - first >= 1_000_000)
        {
            return new Refusal(RefusalKind.Invalid,
                $"The numbers on a roll run upwards from 1 to at most {pattern.Largest}, a million at most.");
        }

        if (first < series.Next)
        {
            return new Refusal(RefusalKind.Conflict,
                $"{Range(first, Math.Min(last, series.Next - 1))} may be on sheets already: the series has issued "
                + $"numbers up to {pattern.Write(series.Next - 1, 0)}. A roll begins after that.");
        }

        if (others.FirstOrDefault(o => o.First <= last && first <= o.Last) is { } taken)
        {
            return new Refusal(RefusalKind.Conflict,
                $"{Range(Math.Max(first, taken.First), Math.Min(last, taken.Last))} stands on the roll "
                + $"\"{taken.Name}\" already.");
        }

        return new Roll { Series = series, SeriesId = series.Id, Name = name, First = first, Last = last, Act = act };
    }

    // The series has made sure that nothing else has these numbers.
    internal static Roll FromPaper(NumberSeries series, string name, long first, long last, Act act) =>
        new() { Series = series, SeriesId = series.Id, Name = name, First = first, Last = last, Act = act };

    /// <summary>Whether a number is printed on this roll.</summary>
    /// <param name="number">The running number.</param>
    public bool Contains(long number) => number >= First && number <= Last;
}
