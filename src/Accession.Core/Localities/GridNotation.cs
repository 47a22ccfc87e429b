namespace Accession.Core.Localities;

/// <summary>Recognises places written otherwise than in degrees, so that the reason can say so.</summary>
internal static class GridNotation
{
    /// <summary>The name of the notation; null when it is none that we know.</summary>
    public static string? Recognise(ReadOnlySpan<char> text)
    {
        Span<char> packed = stackalloc char[40];
        var length = Pack(text, packed);
        var sign = packed[..length];
        if (IsTownship(sign))
        {
            return "township, range and section";
        }

        if (IsMgrs(sign))
        {
            return "MGRS";
        }

        if (sign.Contains("UTM", StringComparison.Ordinal) || sign.Contains("ZONE", StringComparison.Ordinal)
            || LongNumbers(text) >= 2)
        {
            return "UTM";
        }

        return IsQuarterDegree(sign) ? "a quarter-degree cell" : null;
    }

    /// <summary>Letters and digits only, in capitals; what does not fit is left out.</summary>
    private static int Pack(ReadOnlySpan<char> text, Span<char> packed)
    {
        var length = 0;
        foreach (var c in text)
        {
            if (char.IsAsciiLetterOrDigit(c) && length < packed.Length)
            {
                packed[length++] = char.ToUpperInvariant(c);
            }
        }

        return length;
    }

    /// <summary>T23S R30E, or 23S 30E 14 with the section behind.</summary>
    private static bool IsTownship(ReadOnlySpan<char> sign)
    {
        var at = sign is ['T', ..] ? 1 : 0;
        if (!SkipDigits(sign, ref at, 1, 2) || !Skip(sign, ref at, "NS"))
        {
            return false;
        }

        Skip(sign, ref at, "R");
        return SkipDigits(sign, ref at, 1, 2) && Skip(sign, ref at, "EW");
    }

    /// <summary>11T LJ 34167 27989: zone, band, square of two letters, an even number of digits.</summary>
    private static bool IsMgrs(ReadOnlySpan<char> sign)
    {
        var at = 0;
        return SkipDigits(sign, ref at, 1, 2)
            && Skip(sign, ref at, "CDEFGHJKLMNPQRSTUVWX")
            && Skip(sign, ref at, "ABCDEFGHJKLMNPQRSTUVWXYZ")
            && Skip(sign, ref at, "ABCDEFGHJKLMNPQRSTUV")
            && (sign.Length - at) % 2 == 0
            && SkipDigits(sign, ref at, 0, 10)
            && at == sign.Length;
    }

    /// <summary>3218CB or E032S18CB.</summary>
    private static bool IsQuarterDegree(ReadOnlySpan<char> sign)
    {
        var at = 0;
        if (Skip(sign, ref at, "EW"))
        {
            return SkipDigits(sign, ref at, 3, 3) && Skip(sign, ref at, "NS") && SkipDigits(sign, ref at, 2, 2);
        }

        return SkipDigits(sign, ref at, 4, 4) && Skip(sign, ref at, "ABCD") && Skip(sign, ref at, "ABCD")
            && at == sign.Length;
    }

    /// <summary>How many numbers have the six or seven digits of metres in a grid.</summary>
    private static int LongNumbers(ReadOnlySpan<char> text)
    {
        var (numbers, digits) = (0, 0);
        var isDecimal = false;
        foreach (var c in text)
        {
            if (char.IsAsciiDigit(c))
            {
                digits++;
                numbers += digits == 6 && !isDecimal ? 1 : 0;
                continue;
            }

            isDecimal = c is '.' or ',';
            digits = 0;
        }

        return numbers;
    }

    private static bool Skip(ReadOnlySpan<char> sign, ref int at, string oneOf)
    {
        if (at >= sign.Length || !oneOf.Contains(sign[at], StringComparison.Ordinal))
        {
            return false;
        }

        at++;
        return true;
    }

    private static bool SkipDigits(ReadOnlySpan<char> sign, ref int at, int fewest, int most)
    {
        var start = at;
        while (at < sign.Length && at - start < most && char.IsAsciiDigit(sign[at]))
        {
            at++;
        }

        return at - start >= fewest;
    }
}
