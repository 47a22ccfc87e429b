using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.Numbers;

/// <summary>
/// How the numbers of a series look: fixed characters and one run of noughts that stands for the running number,
/// such as <c>DEMO-H0000000</c>, or with the year, <c>YYYY.0000</c>. A number is stored and printed in this one form;
/// what people type or scan is read leniently.
/// </summary>
public sealed class NumberPattern
{
    private const string YearMark = "YYYY";

    private readonly string _before;
    private readonly string _after;
    private readonly int _width;

    private NumberPattern(string text, string before, int width, string after)
    {
        Text = text;
        _before = before;
        _width = width;
        _after = after;
    }

    /// <summary>The pattern as written.</summary>
    public string Text { get; }

    /// <summary>Whether the numbers begin again each year.</summary>
    public bool HasYear => _before.Contains(YearMark, StringComparison.Ordinal)
        || _after.Contains(YearMark, StringComparison.Ordinal);

    /// <summary>The largest running number that keeps the width.</summary>
    public long Largest => (long)Math.Pow(10, _width) - 1;

    /// <summary>Reads a pattern.</summary>
    /// <param name="text">Fixed characters (letters, digits, <c>- . / :</c>) round one run of 3 to 12 noughts.</param>
    /// <returns>The pattern, or where it goes wrong.</returns>
    public static Reading<NumberPattern> Read(string text)
    {
        var start = text.IndexOf('0', StringComparison.Ordinal);
        if (start < 0)
        {
            return Reading<NumberPattern>.Stopped(
                text, text.Length + 1,
                "A pattern needs a run of noughts where the number goes, such as DEMO-H0000000.");
        }

        var end = start;
        while (end < text.Length && text[end] == '0')
        {
            end++;
        }

        if (end - start is < 3 or > 12)
        {
            return Reading<NumberPattern>.Stopped(
                text, start + 1, "The run of noughts is 3 to 12 long; 7 or 8 last a herbarium for good.");
        }

        for (var i = 0; i < text.Length; i++)
        {
            // A nought after the run would make a second run, and nobody could say which one counts.
            if ((i < start || i >= end) && (text[i] == '0' || !IsFixed(text[i])))
            {
                return Reading<NumberPattern>.Stopped(
                    text, i + 1, "Round the noughts stand only letters, digits other than 0, and - . / :");
            }
        }

        return Reading<NumberPattern>.Of(text, new NumberPattern(text, text[..start], end - start, text[end..]));
    }

    /// <summary>Writes a number in the one form that is stored and printed.</summary>
    /// <param name="number">The running number, from 1.</param>
    /// <param name="year">The year, where the pattern has one.</param>
    public string Write(long number, int year) =>
        Dated(_before, year)
        + number.ToString(CultureInfo.InvariantCulture).PadLeft(_width, '0')
        + Dated(_after, year);

    /// <summary>
    /// The running number in a text that follows this pattern, whatever its case, spacing, stops and leading noughts;
    /// null when it does not follow it. Digits alone are enough only when they fill the whole width, as a barcode does:
    /// a shorter number may as well be a collector's.
    /// </summary>
    /// <param name="text">What was typed or scanned.</param>
    public long? NumberIn(string text)
    {
        var code = Squeeze(text);
        var before = Squeeze(_before);
        var after = Squeeze(_after);
        if (HasYear)
        {
            return null;
        }

        if (code.Length == _width && code.All(char.IsAsciiDigit))
        {
            return DigitsOf(code, 0, code.Length);
        }

        return before.Length + after.Length > 0
            && code.StartsWith(before, StringComparison.Ordinal)
            && code.EndsWith(after, StringComparison.Ordinal)
            ? DigitsOf(code, before.Length, code.Length - after.Length)
            : null;
    }

    /// <summary>
    /// The running number on a sheet that comes with its number, when that is a number of this pattern in whatever
    /// spelling; null when it is not. Without a letter it must follow the pattern to the letter: another herbarium's
    /// <c>0001234</c> is not ours, and <c>194227/9</c> is not 1942279.
    /// </summary>
    /// <param name="borne">The number as the sheet bears it.</param>
    public long? NumberBorneIn(string borne) =>
        !Squeeze(borne).All(char.IsAsciiDigit) || FollowsToTheLetter(borne) ? NumberIn(borne) : null;

    private bool FollowsToTheLetter(string borne) =>
        borne.Length > _before.Length + _after.Length
        && borne.StartsWith(_before, StringComparison.Ordinal)
        && borne.EndsWith(_after, StringComparison.Ordinal)
        && borne[_before.Length..^_after.Length].All(char.IsAsciiDigit);

    /// <summary>
    /// The running number when digits alone were typed, such as <c>1234</c>, for those who ask after a sheet; null
    /// when it does not fit this pattern. It says nothing of the series, so no sheet is ever numbered by it.
    /// </summary>
    /// <param name="text">What was typed.</param>
    public long? BareNumberIn(string text)
    {
        var digits = text.Trim();
        return HasYear || !digits.All(char.IsAsciiDigit) ? null : DigitsOf(digits, 0, digits.Length);
    }

    /// <summary>
    /// The number that somebody read on paper as the highest of this series, with its year where the pattern has one;
    /// digits alone are enough where it has none. Null when the text does not follow the pattern.
    /// </summary>
    /// <param name="text">What was typed or scanned.</param>
    public PaperNumber? PaperNumberIn(string text)
    {
        if (!HasYear)
        {
            return (NumberIn(text) ?? BareNumberIn(text)) is { } number ? new PaperNumber(0, number) : null;
        }

        // The year stands at one place of the pattern, so only one year can make the text follow it.
        var code = Squeeze(text);
        foreach (var year in Enumerable.Range(0, Math.Max(0, code.Length - 3)).Select(i => code.Substring(i, 4))
            .Where(four => four.All(char.IsAsciiDigit)).Select(four => int.Parse(four, CultureInfo.InvariantCulture)))
        {
            var (before, after) = (Squeeze(Dated(_before, year)), Squeeze(Dated(_after, year)));
            if (code.Length > before.Length + after.Length
                && code.StartsWith(before, StringComparison.Ordinal) && code.EndsWith(after, StringComparison.Ordinal)
                && DigitsOf(code, before.Length, code.Length - after.Length) is { } running)
            {
                return new PaperNumber(year, running);
            }
        }

        return null;
    }

    /// <summary>
    /// The two numbers in a text in which two codes of this pattern ran together, as happens when a scanner sends
    /// no line end; null when it is not that.
    /// </summary>
    /// <param name="text">What was scanned.</param>
    public (long First, long Second)? JoinedNumbersIn(string text)
    {
        var code = Squeeze(text);
        return Halves(Squeeze(_before).Length + _width + Squeeze(_after).Length) ?? Halves(_width);

        (long, long)? Halves(int length) =>
            code.Length == 2 * length && NumberIn(code[..length]) is { } first && NumberIn(code[length..]) is { } second
                ? (first, second)
                : null;
    }

    /// <summary>
    /// Whether some text could be read as a number of either pattern, so that one series would shadow the other.
    /// </summary>
    /// <param name="other">The pattern of another series.</param>
    public bool ReadsLike(NumberPattern other)
    {
        var (before, after) = (Squeeze(Dated(_before, 0)), Squeeze(Dated(_after, 0)));
        var (otherBefore, otherAfter) = (Squeeze(Dated(other._before, 0)), Squeeze(Dated(other._after, 0)));
        return (Extends(before, otherBefore) || Extends(otherBefore, before))
            && (ExtendsBackwards(after, otherAfter) || ExtendsBackwards(otherAfter, after));
    }

    // Digits that one pattern fixes are part of the running number of the other.
    private static bool Extends(string longer, string shorter) =>
        longer.StartsWith(shorter, StringComparison.Ordinal) && longer[shorter.Length..].All(char.IsAsciiDigit);

    private static bool ExtendsBackwards(string longer, string shorter) =>
        longer.EndsWith(shorter, StringComparison.Ordinal) && longer[..^shorter.Length].All(char.IsAsciiDigit);

    private long? DigitsOf(string code, int start, int end)
    {
        var digits = end > start ? code[start..end] : "";
        var fits = digits.Length is > 0 and <= 18 && digits.TrimStart('0').Length <= _width
            && digits.All(char.IsAsciiDigit);
        return fits ? long.Parse(digits, CultureInfo.InvariantCulture) : null;
    }

    private static bool IsFixed(char character) =>
        char.IsAsciiLetterOrDigit(character) || character is '-' or '.' or '/' or ':';

    private static string Dated(string text, int year) =>
        text.Replace(YearMark, year.ToString("0000", CultureInfo.InvariantCulture), StringComparison.Ordinal);

    // A scanner on a foreign keyboard layout sends ß or ' where the hyphen should be.
    private static string Squeeze(string text) =>
        string.Concat(text.Where(char.IsAsciiLetterOrDigit)).ToUpperInvariant();
}
