using System.Globalization;

namespace Accession.Core.Matching;

/// <summary>Compares collectors' numbers.</summary>
internal static class NumberComparison
{
    private const uint FirstYear = 1700 + 1;   // the mark of a run is its value plus one
    private const uint LastYear = 2100 + 1;

    /// <summary>How the numbers of two gatherings stand to each other: the nearest of all.</summary>
    public static FieldEvidence Between(in NumbersMark one, in NumbersMark other)
    {
        if (one.Count == 0 || other.Count == 0)
        {
            return new(Agreement.Missing, one.Count + other.Count == 0 ? Slip.NoNumbers : Slip.NumberLost);
        }

        var nearest = Numbers(one.First, other.First, one.Flags | other.Flags);
        if (one.Count + other.Count > 2)
        {
            nearest = Nearer(nearest, one.Second, other.First);
            nearest = Nearer(nearest, one.First, other.Second);
            nearest = Nearer(nearest, one.Second, other.Second);
        }

        var isDoubted = ((one.Flags | other.Flags) & NumberFlags.Uncertain) != 0;
        return isDoubted && nearest.Agreement == Agreement.Same ? new(Agreement.Same, Slip.NumberDoubted) : nearest;
    }

    /// <summary>Whether both are of one run of numbers, and near: others of the same outing.</summary>
    public static bool AreNeighbours(NumberMark one, NumberMark other)
    {
        const uint Farthest = 50;   // more gatherings than that are hardly made in a day; a judgement
        return one.IsPresent && other.IsPresent && one.Prefix == other.Prefix && one.Before == other.Before
            && one.Run != other.Run
            && Math.Max(one.Run, other.Run) - Math.Min(one.Run, other.Run) <= Farthest;
    }

    private static FieldEvidence Nearer(FieldEvidence nearest, NumberMark one, NumberMark other)
    {
        if (!one.IsPresent || !other.IsPresent || nearest.Agreement == Agreement.Same)
        {
            return nearest;
        }

        var now = Numbers(one, other, 0);
        return now.Agreement == Agreement.Same || nearest.Agreement == Agreement.Contradicts ? now : nearest;
    }

    private static FieldEvidence Numbers(NumberMark one, NumberMark other, NumberFlags flags)
    {
        if (one.Run != other.Run || one.Before != other.Before)
        {
            return Unequal(one, other);
        }

        var isSuffixNothing = (flags & NumberFlags.SuffixIsInitials) != 0 && (one.Suffix == 0 || other.Suffix == 0);
        if (one.Suffix != other.Suffix && !isSuffixNothing)
        {
            return one.Suffix == 0 || other.Suffix == 0
                ? new(Agreement.Near, Slip.SuffixOnOneSide)
                : new(Agreement.Contradicts, Slip.OtherSuffix);
        }

        var isPrefixNothing = (flags & NumberFlags.PrefixIsInitials) != 0 && (one.Prefix == 0 || other.Prefix == 0);
        return one.Prefix == other.Prefix || isPrefixNothing
            ? new(Agreement.Same)
            : one.Prefix == 0 || other.Prefix == 0 ? new(Agreement.Near, Slip.PrefixOnOneSide)
            : new(Agreement.Contradicts, Slip.OtherPrefix);
    }

    private static FieldEvidence Unequal(NumberMark one, NumberMark other)
    {
        if (one.Run == other.Run)
        {
            var (series, plain) = one.Before != 0 ? (one, other) : (other, one);
            return plain.Before == 0 && IsYear(series.Before)
                ? new(Agreement.Near, Slip.YearOfSeries)
                : new(Agreement.Contradicts, Slip.OtherNumber);
        }

        return one.Before == other.Before && one.Prefix == other.Prefix && one.Suffix == other.Suffix
            ? ByDigits(one.Run - 1, other.Run - 1)
            : new(Agreement.Contradicts, Slip.OtherNumber);
    }

    // 2031, or 31 as people write it.
    private static bool IsYear(uint run) => run is (>= FirstYear and <= LastYear) or (> 1 and <= 100);

    private static FieldEvidence ByDigits(uint one, uint other)
    {
        Span<char> a = stackalloc char[10];
        Span<char> b = stackalloc char[10];
        one.TryFormat(a, out var n, provider: CultureInfo.InvariantCulture);
        other.TryFormat(b, out var m, provider: CultureInfo.InvariantCulture);
        return !Digits.AreOneOff(a[..n], b[..m])
            ? new(Agreement.Contradicts, Slip.OtherNumber)
            : new(Agreement.Near, n == m ? Slip.NumberDigit : Slip.DigitLost);
    }
}
