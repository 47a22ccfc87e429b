using System.Globalization;

namespace Accession.Core.Localities;

/// <summary>
/// Turns an exact point into one that may be published (Chapman 2020). The point is moved to the centre of the cell of
/// a fixed geographic grid: always the same cell, so that asking often tells nothing more, and never a random one,
/// which would be false data.
/// </summary>
public static class Blurring
{
    /// <summary>
    /// The sentence for <c>dwc:informationWithheld</c> where the decision is to publish no point at all, as for
    /// category 1; a hidden place is replaced by a reason and never left blank.
    /// </summary>
    public const string Withheld =
        "The coordinates are withheld because the plant could be harmed if its place were known; ask the herbarium.";

    /// <summary>The point that everyone may see.</summary>
    /// <param name="point">The exact point.</param>
    /// <param name="category">
    /// The strongest protection that any of the gathering's names or the curator asks for.
    /// </param>
    /// <returns>
    /// For the categories 1 to 4 the centre of a cell of 1°, 0.1°, 0.01° or 0.001°, with a radius that reaches its
    /// farthest corner and, if it is known, the uncertainty of the exact point beyond that, rounded up to whole metres.
    /// For plants that need no protection the point as held.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The category is none of the five.</exception>
    public static PublicPoint Of(ExactPoint point, SensitivityCategory category)
    {
        ArgumentNullException.ThrowIfNull(point);
        if (category == SensitivityCategory.NotSensitive)
        {
            return point.AsHeld();
        }

        var cell = CellOf(category);
        // A cell begins at its southern and western edge. Floor, because cutting the decimals off goes the wrong way
        // south of the equator and west of Greenwich; System.Decimal, because 0.1 is not a binary fraction.
        var south = Math.Min(Math.Floor(point.Latitude / cell) * cell, 90 - cell);
        var west = point.Longitude == 180 ? -180 : Math.Floor(point.Longitude / cell) * cell;
        var latitude = south + (cell / 2);
        var longitude = west + (cell / 2);
        var radius = Math.Ceiling(HalfDiagonal(south, latitude, cell) + OwnUncertainty(point, latitude, cell));
        return new(latitude, longitude, radius, Describe(point, cell));
    }

    /// <summary>The edge of the published cell in degrees.</summary>
    /// <param name="category">One of the categories 1 to 4.</param>
    /// <exception cref="ArgumentOutOfRangeException">A category whose points are not moved to a cell.</exception>
    public static decimal CellOf(SensitivityCategory category) => category switch
    {
        SensitivityCategory.Extreme => 1m,
        SensitivityCategory.High => 0.1m,
        SensitivityCategory.Medium => 0.01m,
        SensitivityCategory.Low => 0.001m,
        _ => throw new ArgumentOutOfRangeException(nameof(category), category, "This category has no cell."),
    };

    /// <summary>
    /// From the centre to the farthest corner: on either half of the Earth that nearer to the equator.
    /// </summary>
    /// <remarks>Measured at the cell, never at the exact point, whose latitude the radius would give away.</remarks>
    private static double HalfDiagonal(decimal south, decimal centre, decimal cell)
    {
        var corner = centre >= 0 ? south : south + cell;
        return Wgs84.Distance((double)centre, (double)(cell / 2), (double)corner, 0);
    }

    /// <summary>
    /// What the exact point itself is unsure of. If nobody knows, the cell covers it, unless the point was written to
    /// a coarser unit than the cell: then that unit counts, again measured at the cell.
    /// </summary>
    private static double OwnUncertainty(ExactPoint point, decimal centre, decimal cell) =>
        point.UncertaintyInMeters
        ?? (point.Precision.Degrees > cell ? point.Precision.UncertaintyInMeters((double)centre) : 0);

    private static string Describe(ExactPoint point, decimal cell)
    {
        var to = cell.ToString(CultureInfo.InvariantCulture);
        return point.Precision.Degrees < cell
            ? $"Coordinates, held to {point.Precision}, were generalised to the centre of a cell of {to}°; "
                + "the uncertainty covers the whole cell."
            : $"Coordinates, held to {point.Precision}, are given as the centre of a cell of {to}°.";
    }
}
