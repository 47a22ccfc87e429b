using Accession.Core.Outcomes;

namespace Accession.Core.Localities;

/// <summary>
/// Reads written coordinates in degrees: decimals with a point or a comma, degrees with minutes and seconds, letters or
/// signs for the hemisphere. The result is exact and can only be published through <see cref="Blurring"/>; the verbatim
/// text of the reading is just as exact and must be treated alike. The datum is read apart from it
/// (<see cref="Datum"/>), and nothing is shifted.
/// </summary>
public static class Coordinates
{
    /// <summary>
    /// Reads a pair from one text. Which half is the latitude follows from the letters N, S, E and W or the words
    /// latitude and longitude, then from the size (more than 90 can only be a longitude), and else the latitude stands
    /// first.
    /// </summary>
    /// <param name="verbatim">The text to the letter.</param>
    public static Reading<ExactPoint> Read(string verbatim)
    {
        ArgumentNullException.ThrowIfNull(verbatim);
        if (string.IsNullOrWhiteSpace(verbatim))
        {
            return Reading<ExactPoint>.Stopped(verbatim, 1, "No coordinates are written.");
        }

        Span<CoordinateToken> buffer = stackalloc CoordinateToken[CoordinateScanner.MostTokens];
        var scanner = new CoordinateScanner(verbatim, buffer);
        scanner.Scan();
        var problem = ReadHalves(scanner, verbatim.Length + 1, out var first, out var second)
            ?? Settle(ref first, ref second);
        return problem is null
            ? Point(verbatim, first, second, scanner.IsApproximate)
            : Stopped(verbatim, verbatim, problem);
    }

    /// <summary>
    /// Reads a pair from two cells of a list. A pair that looks swapped is not read: the headings and the numbers
    /// contradict each other, and a person has to say which are right.
    /// </summary>
    /// <param name="latitude">The cell of the latitude, to the letter.</param>
    /// <param name="longitude">The cell of the longitude, to the letter.</param>
    /// <returns>A reading whose verbatim is both cells with a semicolon and a space between.</returns>
    public static Reading<ExactPoint> Read(string latitude, string longitude)
    {
        ArgumentNullException.ThrowIfNull(latitude);
        ArgumentNullException.ThrowIfNull(longitude);
        var verbatim = $"{latitude}; {longitude}";
        var longitudeFrom = latitude.Length + 2;
        if (Missing(latitude, longitude) is { } missing)
        {
            // Some lists have the whole pair in the first cell.
            var pair = Read(latitude);
            return pair.IsRead
                ? Reading<ExactPoint>.Of(verbatim, pair.Value, pair.Question)
                : Reading<ExactPoint>.Stopped(verbatim, missing.Column, missing.Reason);
        }

        var problem = ReadCell(latitude, 0, out var north, out var isNorthApproximate);
        if (problem is not null)
        {
            return Stopped(verbatim, latitude, problem);
        }

        problem = ReadCell(longitude, longitudeFrom, out var east, out var isEastApproximate);
        if (problem is not null)
        {
            return Stopped(verbatim, longitude, problem);
        }

        problem = SwappedCells(north, east) ?? OffTheEarth(north, east);
        return problem is null
            ? Point(verbatim, north, east, isNorthApproximate || isEastApproximate)
            : Reading<ExactPoint>.Stopped(verbatim, problem.Column, problem.Reason);
    }

    private static Unreadable? Missing(string latitude, string longitude)
    {
        var (noLatitude, noLongitude) = (string.IsNullOrWhiteSpace(latitude), string.IsNullOrWhiteSpace(longitude));
        return (noLatitude, noLongitude) switch
        {
            (true, true) => new(1, "No coordinates are written."),
            (true, false) => new(1, "There is a longitude but no latitude: half a pair is no place."),
            (false, true) => new(latitude.Length + 3, "There is a latitude but no longitude: half a pair is no place."),
            _ => null,
        };
    }

    private static Unreadable? ReadCell(string cell, int columnsBefore, out Angle angle, out bool isApproximate)
    {
        Span<CoordinateToken> buffer = stackalloc CoordinateToken[CoordinateScanner.MostTokens];
        var scanner = new CoordinateScanner(cell, buffer, columnsBefore);
        scanner.Scan();
        isApproximate = scanner.IsApproximate;
        angle = default;
        return scanner.StoppedAt != 0
            ? new(scanner.StoppedAt, scanner.StoppedBecause!)
            : Angle.Read(scanner.Tokens, cell.Length + 1 + columnsBefore, out angle);
    }

    private static Unreadable? ReadHalves(
        scoped in CoordinateScanner scanner, int end, out Angle first, out Angle second)
    {
        (first, second) = (default, default);
        if (scanner.StoppedAt != 0)
        {
            return new(scanner.StoppedAt, scanner.StoppedBecause!);
        }

        var tokens = scanner.Tokens;
        var split = SplitOf(tokens);
        if (split <= 0 || split >= tokens.Length)
        {
            return OnlyOne(tokens, end);
        }

        var tail = tokens[split].Mark == CoordinateMark.Separator ? tokens[(split + 1)..] : tokens[split..];
        return Angle.Read(tokens[..split], tokens[split].Column, out first) ?? Angle.Read(tail, end, out second);
    }

    private static Unreadable OnlyOne(ReadOnlySpan<CoordinateToken> tokens, int end)
    {
        if (Angle.Read(tokens, end, out var alone) is { } problem)
        {
            return problem;
        }

        var (has, lacks) = alone.Axis == CoordinateMark.Longitude || Math.Abs(alone.Degrees) > 90
            ? ("longitude", "latitude")
            : ("latitude", "longitude");
        return new(end, $"There is a {has} but no {lacks}: half a pair is no place.");
    }

    /// <summary>Where the second half begins; 0 when that cannot be told.</summary>
    private static int SplitOf(ReadOnlySpan<CoordinateToken> tokens)
    {
        if (Second(tokens, t => t.Mark == CoordinateMark.Separator, out var separator) == 0 && separator > 0)
        {
            return separator;
        }

        var byHemisphere = Second(tokens, t => t.IsHemisphere, out var firstHemisphere);
        if (byHemisphere > 0)
        {
            var standsBefore = IndexOfNumber(tokens, 1) > firstHemisphere;
            return standsBefore ? byHemisphere : firstHemisphere + 1;
        }

        var byLabel = Second(tokens, t => t.IsLabel, out _);
        if (byLabel > 0)
        {
            return byLabel;
        }

        var byDegree = Second(tokens, t => t.Mark == CoordinateMark.Degree, out _);
        if (byDegree >= 2)
        {
            return tokens[byDegree - 2].IsSign ? byDegree - 2 : byDegree - 1;
        }

        for (var i = IndexOfNumber(tokens, 1) + 1; i > 0 && i < tokens.Length; i++)
        {
            if (tokens[i].IsSign)
            {
                return i;
            }
        }

        return HalfOfBareNumbers(tokens);
    }

    /// <summary>
    /// Four bare numbers are two and two; a single letter or sign of degrees among them says otherwise.
    /// </summary>
    private static int HalfOfBareNumbers(ReadOnlySpan<CoordinateToken> tokens)
    {
        var numbers = 0;
        foreach (var token in tokens)
        {
            if (token.IsHemisphere || token.Mark is >= CoordinateMark.Degree and <= CoordinateMark.Second)
            {
                return 0;
            }

            numbers += token.Mark == CoordinateMark.Number ? 1 : 0;
        }

        return numbers % 2 == 0 ? Math.Max(IndexOfNumber(tokens, (numbers / 2) + 1), 0) : 0;
    }

    private static int Second(ReadOnlySpan<CoordinateToken> tokens, Func<CoordinateToken, bool> wanted, out int first)
    {
        first = -1;
        for (var i = 0; i < tokens.Length; i++)
        {
            if (!wanted(tokens[i]))
            {
                continue;
            }

            if (first >= 0)
            {
                return i;
            }

            first = i;
        }

        return 0;
    }

    private static int IndexOfNumber(ReadOnlySpan<CoordinateToken> tokens, int ordinal)
    {
        for (var i = 0; i < tokens.Length; i++)
        {
            if (tokens[i].Mark == CoordinateMark.Number && --ordinal == 0)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>Puts the latitude first.</summary>
    private static Unreadable? Settle(ref Angle first, ref Angle second)
    {
        if (first.Axis is { } axis && axis == second.Axis)
        {
            return new(second.Column, $"Both numbers are a {Name(axis)}.");
        }

        var isLongitudeFirst = first.Axis == CoordinateMark.Longitude || second.Axis == CoordinateMark.Latitude
            || (first.Axis is null && second.Axis is null && Math.Abs(first.Degrees) > 90);
        if (isLongitudeFirst)
        {
            (first, second) = (second, first);
        }

        return OffTheEarth(first, second);
    }

    private static Unreadable? SwappedCells(in Angle latitude, in Angle longitude)
    {
        var lettersSaySo = latitude.Axis == CoordinateMark.Longitude || longitude.Axis == CoordinateMark.Latitude;
        var sizesSaySo = Math.Abs(latitude.Degrees) is > 90 and <= 180 && Math.Abs(longitude.Degrees) <= 90;
        return lettersSaySo || sizesSaySo
            ? new(latitude.Column, "Latitude and longitude look swapped; check which cell is which.")
            : null;
    }

    private static Unreadable? OffTheEarth(in Angle latitude, in Angle longitude)
    {
        if (Math.Abs(latitude.Degrees) > 90)
        {
            return new(latitude.Column, "There is no such latitude: it ends at 90 degrees.");
        }

        return Math.Abs(longitude.Degrees) > 180
            ? new(longitude.Column, "There is no such longitude: it ends at 180 degrees.")
            : null;
    }

    private static Reading<ExactPoint> Point(string verbatim, in Angle latitude, in Angle longitude, bool isApproximate)
    {
        var precision = Angle.PrecisionOf(latitude, longitude, out var zerosPromiseMore);
        var point = new ExactPoint(latitude.Degrees, longitude.Degrees, precision);
        var question = (point.Latitude, point.Longitude) switch
        {
            (0, 0) => "0, 0 lies in the sea off Africa; it usually stands for a place that is not known.",
            _ when isApproximate => "The coordinates are marked as approximate.",
            _ when zerosPromiseMore => $"Both numbers end in zeros; taken as written to {precision} only.",
            _ => null,
        };
        return Reading<ExactPoint>.Of(verbatim, point, question);
    }

    /// <summary>The reason, or a better one if the text is written in another system.</summary>
    private static Reading<ExactPoint> Stopped(string verbatim, string text, Unreadable problem) =>
        GridNotation.Recognise(text) is { } notation
            ? Reading<ExactPoint>.Stopped(verbatim, 1, $"Not read yet: written as {notation}; kept as written.")
            : Reading<ExactPoint>.Stopped(verbatim, problem.Column, problem.Reason);

    private static string Name(CoordinateMark axis) => axis == CoordinateMark.Latitude ? "latitude" : "longitude";
}
