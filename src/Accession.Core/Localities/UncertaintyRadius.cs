using Accession.Core.Outcomes;

namespace Accession.Core.Localities;

/// <summary>
/// The radius of the circle in which the true place lies, in metres: <c>dwc:coordinateUncertaintyInMeters</c>. It is
/// never 0; what is not known is left empty (Darwin Core).
/// </summary>
public readonly record struct UncertaintyRadius
{
    /// <summary>
    /// The greatest radius in metres: half of the equator, the whole Earth (TDWG data-quality core tests).
    /// </summary>
    public const int GreatestInMeters = 20_037_509;

    private readonly decimal _meters;

    private UncertaintyRadius(decimal meters) => _meters = meters;

    /// <summary>The radius in metres, more than 0. The default value is the whole Earth.</summary>
    public decimal Meters => _meters == 0 ? GreatestInMeters : _meters;

    /// <summary>A radius in metres.</summary>
    /// <param name="meters">More than 0, at most <see cref="GreatestInMeters"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is anything else.</exception>
    public static UncertaintyRadius OfMeters(decimal meters)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(meters);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(meters, GreatestInMeters);
        return new(meters);
    }

    /// <summary>Reads a radius as written: ±30 m, 100 ft, 0.5 km.</summary>
    /// <param name="verbatim">The text to the letter.</param>
    /// <param name="columnUnit">
    /// The unit that the heading of the column names; null when it names none. A unit in the text wins.
    /// </param>
    public static Reading<UncertaintyRadius> Read(string verbatim, LengthUnit? columnUnit = null)
    {
        ArgumentNullException.ThrowIfNull(verbatim);
        if (string.IsNullOrWhiteSpace(verbatim))
        {
            return Stopped(verbatim, 1, "No uncertainty is written.");
        }

        var scanner = new LengthScanner(verbatim);
        scanner.Scan();
        if (scanner.StoppedAt != 0)
        {
            return Stopped(verbatim, scanner.StoppedAt, scanner.StoppedBecause!);
        }

        if (scanner.Count == 2)
        {
            return Stopped(verbatim, scanner.SecondColumn, "An uncertainty is one radius, not a range.");
        }

        if (scanner.First == 0)
        {
            return Stopped(verbatim, scanner.FirstColumn,
                "An uncertainty is never 0; leave it empty if it is not known.");
        }

        if (scanner.First < 0)
        {
            return Stopped(verbatim, scanner.FirstColumn, "An uncertainty is a distance and cannot be negative.");
        }

        if ((scanner.FirstUnit ?? columnUnit) is not { } unit)
        {
            return Stopped(verbatim, verbatim.Length + 1, "Metres or feet? Write the unit, or name it in the heading.");
        }

        var meters = Math.Round(scanner.First * LengthScanner.MetresPer(unit), 1, MidpointRounding.AwayFromZero);
        return meters switch
        {
            > GreatestInMeters => Stopped(verbatim, scanner.FirstColumn, "The radius is larger than the Earth."),
            < 1 => Reading<UncertaintyRadius>.Of(verbatim, new(Math.Max(meters, 0.1m)),
                "Less than 1 m is finer than ordinary instruments measure."),
            _ => Reading<UncertaintyRadius>.Of(verbatim, new(meters)),
        };
    }

    private static Reading<UncertaintyRadius> Stopped(string verbatim, int column, string reason) =>
        Reading<UncertaintyRadius>.Stopped(verbatim, column, reason);
}
