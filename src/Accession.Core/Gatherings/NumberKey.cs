using System.Text;

namespace Accession.Core.Gatherings;

/// <summary>The form in which two spellings of a collector's number are one.</summary>
internal static class NumberKey
{
    /// <summary>Prefix, runs of digits and suffix between bars.</summary>
    public static string Of(CollectorNumber number)
    {
        if (number.Number is null)
        {
            return "";   // the default value, which no reading gives
        }

        if (number.IsPlain)
        {
            return $"|{WithoutZeros(number.Number)}|";
        }

        var key = new StringBuilder(number.Prefix.Length + number.Number.Length + number.Suffix.Length + 4);
        if (!number.IsPrefixWords)
        {
            AddCapitals(key, number.Prefix);
        }

        key.Append('|');
        AddRuns(key, number.Number);
        AddCapitals(key, number.Suffix);
        return key.ToString();
    }

    private static void AddRuns(StringBuilder key, ReadOnlySpan<char> text)
    {
        while (text.IndexOfAnyInRange('0', '9') is var start and >= 0)
        {
            text = text[start..];
            var length = text.IndexOfAnyExceptInRange('0', '9');
            var run = length < 0 ? text : text[..length];
            key.Append(WithoutZeros(run)).Append('|');
            text = text[run.Length..];
        }
    }

    /// <summary>Letters, digits and fractions in capitals; runs of digits without leading zeros.</summary>
    private static void AddCapitals(StringBuilder key, string text)
    {
        var isInDigits = false;
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            var isDigit = char.IsAsciiDigit(c);
            var isLeadingZero = c == '0' && !isInDigits && i + 1 < text.Length && char.IsAsciiDigit(text[i + 1]);
            if (!isLeadingZero && (char.IsLetterOrDigit(c) || c is '½' or '¼' or '¾' or '?'))
            {
                key.Append(char.ToUpperInvariant(c));
            }

            isInDigits = isDigit && !isLeadingZero;
        }
    }

    private static ReadOnlySpan<char> WithoutZeros(ReadOnlySpan<char> run)
    {
        var trimmed = run.TrimStart('0');
        return trimmed.IsEmpty ? "0" : trimmed;
    }
}
