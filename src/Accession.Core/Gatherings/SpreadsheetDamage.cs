using System.Collections.Frozen;

namespace Accession.Core.Gatherings;

/// <summary>
/// What a spreadsheet makes of a collector's number when it takes it for a date or for a large quantity. The number
/// that was typed cannot be had back, so the reading stops and says what to do.
/// </summary>
internal static class SpreadsheetDamage
{
    /// <summary>Months in English, Spanish, Portuguese, French, German and Italian, shortened or not.</summary>
    private static readonly FrozenSet<string> Months = """
        jan feb mar apr may jun jul aug sep sept oct nov dec january february march april june july august september
        october november december ene abr ago dic enero febrero marzo abril mayo junio julio agosto septiembre octubre
        noviembre diciembre fev mai set out dez janv févr avr juin juil août déc mär okt gen mag giu lug ott
        """.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> MonthSpans =
        Months.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>The sentence about the damage; null when there is none.</summary>
    public static string? In(ReadOnlySpan<char> text)
    {
        if (text.Length is < 4 or > 30)
        {
            return null;
        }

        if (IsDate(text))
        {
            return $"\"{text}\" is a date: a spreadsheet seems to have changed a number such as 3-17 into one. "
                + "Look at the label, and format the column as text.";
        }

        return IsPowerOfTen(text)
            ? $"\"{text}\" is a rounded power of ten: a spreadsheet seems to have shortened a long number. "
                + "Look at the label, and format the column as text."
            : null;
    }

    private static bool IsDate(ReadOnlySpan<char> text)
    {
        Span<Range> fields = stackalloc Range[5];
        text = WithoutMidnight(text);
        var separator = text.IndexOfAny("-/ .");
        if (separator < 1)
        {
            return false;
        }

        var sign = text[separator];
        var count = text.Split(fields, sign);
        if (count is < 2 or > 3)
        {
            return false;
        }

        var first = text[fields[0]];
        var second = text[fields[1]];
        var third = count == 3 ? text[fields[2]] : default;
        if (HasMonthName(first, second, count, third))
        {
            return sign != '.';
        }

        return count == 3 && IsNumericDate(first, second, third, sign);
    }

    private static ReadOnlySpan<char> WithoutMidnight(ReadOnlySpan<char> text)
    {
        var time = text.IndexOf(':');
        var space = time < 0 ? -1 : text[..time].LastIndexOfAny(' ', 'T');
        return space > 0 ? text[..space] : text;
    }

    /// <summary>"17-Mar", "Mar-17", "17-Mar-24".</summary>
    private static bool HasMonthName(
        ReadOnlySpan<char> first, ReadOnlySpan<char> second, int count, ReadOnlySpan<char> third)
    {
        var isDayFirst = IsUpTo(first, 31) && MonthSpans.Contains(second.TrimEnd('.'));
        var isMonthFirst = MonthSpans.Contains(first.TrimEnd('.')) && second.Length is 2 or 4 && AreDigits(second);
        return (isMonthFirst && count == 2)
            || (isDayFirst && (count == 2 || (third.Length is 2 or 4 && AreDigits(third))));
    }

    /// <summary>
    /// "12/06/2024", "2024-06-12", "12.06.2024"; with two digits of the year only between slashes, because
    /// "26-6-14" is how some collectors number.
    /// </summary>
    private static bool IsNumericDate(
        ReadOnlySpan<char> first, ReadOnlySpan<char> second, ReadOnlySpan<char> third, char sign)
    {
        var isYearFirst = IsYear(first)
            && second.Length == 2 && IsUpTo(second, 12)
            && third.Length == 2 && IsUpTo(third, 31);
        var isYearLast = (IsYear(third) || (sign == '/' && third.Length == 2 && AreDigits(third)))
            && ((IsUpTo(first, 31) && IsUpTo(second, 12)) || (IsUpTo(first, 12) && IsUpTo(second, 31)));
        return isYearFirst || isYearLast;
    }

    /// <summary>"1.23E+05", "2E+06", "1,2e5".</summary>
    private static bool IsPowerOfTen(ReadOnlySpan<char> text)
    {
        var e = text.IndexOfAny('E', 'e');
        if (e < 1 || e == text.Length - 1)
        {
            return false;
        }

        var mantissa = text[..e];
        var exponent = text[(e + 1)..];
        var hasSign = exponent[0] is '+' or '-';
        var point = mantissa.IndexOfAny('.', ',');
        return AreDigits(hasSign ? exponent[1..] : exponent)
            && (hasSign || point > 0)
            && (exponent[0] == '+' || point > 0)
            && (point < 0 ? AreDigits(mantissa) : AreDigits(mantissa[..point]) && AreDigits(mantissa[(point + 1)..]));
    }

    private static bool IsYear(ReadOnlySpan<char> text) => text.Length == 4 && text[0] is '1' or '2' && AreDigits(text);

    private static bool IsUpTo(ReadOnlySpan<char> text, int limit) =>
        text.Length is 1 or 2 && AreDigits(text)
        && int.Parse(text, provider: null) is var value && value > 0 && value <= limit;

    private static bool AreDigits(ReadOnlySpan<char> text) =>
        text.Length > 0 && !text.ContainsAnyExceptInRange('0', '9');
}
