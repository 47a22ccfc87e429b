using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.Localities;

/// <summary>One half of a written pair: degrees, perhaps with minutes and seconds, and its side of the Earth.</summary>
internal readonly record struct Angle
{
    private const int SecondsPerDegree = 3600;

    /// <summary>The size without its sign, in seconds; exact, as thirds and sixtieths of a degree are not.</summary>
    private decimal Seconds { get; init; }

    /// <summary>How many numbers it was written with: 1 degrees, 2 and minutes, 3 and seconds.</summary>
    private int Parts { get; init; }

    /// <summary>How many decimals the last of them has.</summary>
    private int Decimals { get; init; }

    private bool IsNegative { get; init; }

    private bool EndsInZero { get; init; }

    /// <summary>The axis that a letter or a label says; null when nothing is said.</summary>
    public CoordinateMark? Axis { get; private init; }

    /// <summary>Where it begins in the text, from 1.</summary>
    public int Column { get; private init; }

    /// <summary>Signed degrees; minutes and seconds to eight decimals, a millimetre.</summary>
    public decimal Degrees
    {
        get
        {
            var size = Parts == 1 ? Seconds / SecondsPerDegree : Math.Round(Seconds / SecondsPerDegree, 8);
            return IsNegative ? -size : size;
        }
    }

    /// <summary>Reads one half.</summary>
    public static Unreadable? Read(ReadOnlySpan<CoordinateToken> tokens, int end, out Angle angle)
    {
        angle = default;
        var cursor = new Cursor(tokens, end);
        var column = cursor.Column;
        var label = cursor.TakeIf(t => t.IsLabel);
        var before = cursor.TakeIf(t => t.IsHemisphere);
        var sign = cursor.TakeIf(t => t.IsSign);
        if (ReadNumbers(ref cursor, ref angle) is { } problem)
        {
            return problem;
        }

        var after = cursor.TakeIf(t => t.IsHemisphere);
        if (!cursor.IsAtEnd)
        {
            return new(cursor.Column, "After the coordinate something stands that was not understood.");
        }

        if (before is not null && after is not null)
        {
            return new(after.Value.Column, "The letter of the hemisphere stands before and after the number.");
        }

        angle = angle with
        {
            Axis = AxisOf(before ?? after) ?? label?.Mark,
            Column = column,
            IsNegative = (before ?? after)?.Mark is CoordinateMark.South or CoordinateMark.West
                || sign?.Mark is CoordinateMark.Minus,
        };
        return Contradiction(sign, before ?? after, label);
    }

    private static Unreadable? ReadNumbers(ref Cursor cursor, ref Angle angle)
    {
        var (seconds, parts, decimals, last) = (0m, 0, 0, 0m);
        for (; parts < 3 && cursor.TakeIf(t => t.Mark == CoordinateMark.Number) is { } number; parts++)
        {
            if (decimals > 0)
            {
                return new(number.Column, "Only the last of degrees, minutes and seconds can have decimals.");
            }

            if (parts > 0 && number.Value >= 60)
            {
                return new(number.Column, string.Create(CultureInfo.InvariantCulture,
                    $"There are no {number.Value} {(parts == 1 ? "minutes" : "seconds")}; they end before 60."));
            }

            if (number.Value >= 1000)
            {
                return new(number.Column, "A number of this size is not in degrees.");
            }

            var unit = cursor.TakeIf(t => t.Mark is >= CoordinateMark.Degree and <= CoordinateMark.Second);
            if (unit is { } mark && mark.Mark != CoordinateMark.Degree + parts)
            {
                return new(mark.Column, "Degrees, minutes and seconds stand in this order, each once.");
            }

            (decimals, last) = (number.Decimals, number.Value);
            seconds += number.Value * (parts switch { 0 => SecondsPerDegree, 1 => 60, _ => 1 });
        }

        angle = angle with
        {
            Seconds = seconds,
            Parts = parts,
            Decimals = decimals,
            EndsInZero = EndsIn0(last, decimals, parts),
        };
        return parts == 0 ? new(cursor.Column, "A number of degrees is missing here.") : null;
    }

    /// <summary>
    /// The unit of a pair: the finer of its halves. Where both end in zeros that a coarser unit would not need, the
    /// zeros prove nothing, and the coarsest unit that fits both counts (10.00000, -123.50000 is half a degree).
    /// </summary>
    public static CoordinatePrecision PrecisionOf(in Angle one, in Angle other, out bool zerosPromiseMore)
    {
        var written = one.Unit.Degrees <= other.Unit.Degrees ? one.Unit : other.Unit;
        zerosPromiseMore = false;
        if (!one.EndsInZero || !other.EndsInZero || one.Parts != other.Parts)
        {
            return written;
        }

        ReadOnlySpan<CoordinatePrecision> coarse =
        [
            CoordinatePrecision.Degree, CoordinatePrecision.OfDegrees(0.5m), CoordinatePrecision.Minute,
        ];
        foreach (var unit in one.Parts == 1 ? coarse[..2] : coarse[..one.Parts])
        {
            if (one.Fits(unit) && other.Fits(unit))
            {
                zerosPromiseMore = unit.Degrees > written.Degrees;
                return unit;
            }
        }

        for (var decimals = one.Parts == 1 ? 1 : 0; decimals < Math.Max(one.Decimals, other.Decimals); decimals++)
        {
            var unit = UnitOf(one.Parts).WithDecimals(decimals);
            if (one.Fits(unit) && other.Fits(unit))
            {
                zerosPromiseMore = true;
                return unit;
            }
        }

        return written;
    }

    private CoordinatePrecision Unit => UnitOf(Parts).WithDecimals(Decimals);

    private static CoordinatePrecision UnitOf(int parts) => parts switch
    {
        1 => CoordinatePrecision.Degree,
        2 => CoordinatePrecision.Minute,
        _ => CoordinatePrecision.Second,
    };

    // The unit in seconds is a decimal fraction again, but for the rounding of sixtieths far behind the point.
    private bool Fits(CoordinatePrecision unit) =>
        Seconds % Math.Round(unit.Degrees * SecondsPerDegree, 14) == 0;

    private static bool EndsIn0(decimal last, int decimals, int parts)
    {
        if (decimals == 0)
        {
            return parts > 1 && last == 0;
        }

        return Math.Round(last, decimals - 1) == last;
    }

    private static CoordinateMark? AxisOf(CoordinateToken? hemisphere) => hemisphere?.Mark switch
    {
        CoordinateMark.North or CoordinateMark.South => CoordinateMark.Latitude,
        CoordinateMark.East or CoordinateMark.West => CoordinateMark.Longitude,
        _ => null,
    };

    private static Unreadable? Contradiction(CoordinateToken? sign, CoordinateToken? hemisphere, CoordinateToken? label)
    {
        if (hemisphere is not { } letter)
        {
            return null;
        }

        if (label is { } named && named.Mark != AxisOf(letter))
        {
            return new(letter.Column, "The letter of the hemisphere contradicts the word latitude or longitude.");
        }

        var isPositive = letter.Mark is CoordinateMark.North or CoordinateMark.East;
        return sign is { } written && written.Mark == CoordinateMark.Minus == isPositive
            ? new(letter.Column, "The sign and the letter of the hemisphere contradict each other.")
            : null;
    }

    private ref struct Cursor(ReadOnlySpan<CoordinateToken> tokens, int end)
    {
        private readonly ReadOnlySpan<CoordinateToken> _tokens = tokens;
        private int _at;

        public readonly bool IsAtEnd => _at == _tokens.Length;

        public readonly int Column => IsAtEnd ? end : _tokens[_at].Column;

        public CoordinateToken? TakeIf(Func<CoordinateToken, bool> wanted) =>
            !IsAtEnd && wanted(_tokens[_at]) ? _tokens[_at++] : null;
    }
}
