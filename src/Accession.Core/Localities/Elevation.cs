using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.Localities;

/// <summary>
/// A height above sea level, or a stretch of heights, in metres, with the unit in which it was written. Feet are
/// converted by 0.3048 and kept to 0.1 m, which is finer than any height on a label.
/// </summary>
public readonly record struct Elevation
{
    /// <summary>The lowest height that is read, in metres: no land lies lower than some 430 m below the sea.</summary>
    public const int LowestInMeters = -500;

    /// <summary>The greatest height that is read, in metres: no mountain reaches it.</summary>
    public const int HighestInMeters = 9000;

    private Elevation(decimal minimum, decimal maximum, LengthUnit unit)
    {
        MinimumInMeters = minimum;
        MaximumInMeters = maximum;
        Unit = unit;
    }

    /// <summary>The lower end in metres, to 0.1 m, as <c>dwc:minimumElevationInMeters</c>.</summary>
    public decimal MinimumInMeters { get; }

    /// <summary>
    /// The upper end in metres, to 0.1 m, as <c>dwc:maximumElevationInMeters</c>; the lower one if there is no range.
    /// </summary>
    public decimal MaximumInMeters { get; }

    /// <summary>The unit in which it was written, or that of the column: metres or feet.</summary>
    public LengthUnit Unit { get; }

    /// <summary>A height in metres that was stored.</summary>
    /// <param name="minimum">The lower end in metres.</param>
    /// <param name="maximum">The upper end in metres, not below the lower.</param>
    /// <param name="unit">The unit in which it was written.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ends are the wrong way round.</exception>
    public static Elevation OfMeters(decimal minimum, decimal maximum, LengthUnit unit = LengthUnit.Metre)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(maximum, minimum);
        return new(minimum, maximum, unit);
    }

    /// <summary>Reads a height as written: 4,120 ft, ca. 1200 m, 4100-4200 feet.</summary>
    /// <param name="verbatim">The text to the letter.</param>
    /// <param name="columnUnit">
    /// The unit that the heading of the column names; null when it names none. A unit in the text wins.
    /// </param>
    public static Reading<Elevation> Read(string verbatim, LengthUnit? columnUnit = null)
    {
        ArgumentNullException.ThrowIfNull(verbatim);
        if (string.IsNullOrWhiteSpace(verbatim))
        {
            return Stopped(verbatim, 1, "No elevation is written.");
        }

        var scanner = new LengthScanner(verbatim);
        scanner.Scan();
        if (scanner.StoppedAt != 0)
        {
            return Stopped(verbatim, scanner.StoppedAt, scanner.StoppedBecause!);
        }

        if (scanner is { FirstUnit: { } first, SecondUnit: { } second } && first != second)
        {
            return Stopped(verbatim, scanner.SecondColumn, "The two ends of the range have different units.");
        }

        var written = scanner.SecondUnit ?? scanner.FirstUnit;
        if ((written ?? columnUnit) is not { } unit)
        {
            return Stopped(verbatim, verbatim.Length + 1, "Metres or feet? Write the unit, or name it in the heading.");
        }

        return unit is LengthUnit.Metre or LengthUnit.Foot
            ? Check(verbatim, scanner, unit, written is not null && columnUnit is not null && written != columnUnit)
            : Stopped(verbatim, scanner.FirstColumn, "Elevations are read in metres or feet only.");
    }

    /// <summary>The height for people: 1,256 m, 1,250–1,280 m.</summary>
    public string ForPeople()
    {
        var minimum = MinimumInMeters.ToString("#,0.#", CultureInfo.InvariantCulture);
        return MinimumInMeters == MaximumInMeters
            ? $"{minimum} m"
            : $"{minimum}–{MaximumInMeters.ToString("#,0.#", CultureInfo.InvariantCulture)} m";
    }

    private static Reading<Elevation> Check(
        string verbatim, in LengthScanner scanner, LengthUnit unit, bool againstColumn)
    {
        var minimum = InMeters(scanner.First, unit);
        var maximum = scanner.Count == 2 ? InMeters(scanner.Second, unit) : minimum;
        if (OutOfRange(minimum) is { } tooFar)
        {
            return Stopped(verbatim, scanner.FirstColumn, tooFar);
        }

        if (OutOfRange(maximum) is { } tooFarAbove)
        {
            return Stopped(verbatim, scanner.SecondColumn, tooFarAbove);
        }

        if (maximum < minimum)
        {
            return Stopped(verbatim, scanner.SecondColumn, "The upper end of the range lies below the lower one.");
        }

        var question = againstColumn ? "The unit is not that of the column; the one beside the number was taken."
            : scanner.IsApproximate ? "The elevation is marked as approximate."
            : null;
        return Reading<Elevation>.Of(verbatim, new(minimum, maximum, unit), question);
    }

    private static string? OutOfRange(decimal meters)
    {
        if (meters is >= LowestInMeters and <= HighestInMeters)
        {
            return null;
        }

        var written = meters.ToString("0.#", CultureInfo.InvariantCulture);
        return $"{written} m cannot be right: land lies between {LowestInMeters} and {HighestInMeters} m. "
            + "Check the unit.";
    }

    private static decimal InMeters(decimal value, LengthUnit unit) =>
        Math.Round(value * LengthScanner.MetresPer(unit), 1, MidpointRounding.AwayFromZero);

    private static Reading<Elevation> Stopped(string verbatim, int column, string reason) =>
        Reading<Elevation>.Stopped(verbatim, column, reason);
}
