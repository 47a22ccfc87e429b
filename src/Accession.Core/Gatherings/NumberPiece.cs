using System.Buffers;

namespace Accession.Core.Gatherings;

/// <summary>One number of a list, taken apart; or a range written with a dash.</summary>
internal sealed class NumberPiece
{
    /// <summary>The number; two for a range; none when the text holds no digits.</summary>
    public List<CollectorNumber> Numbers { get; } = new(1);

    /// <summary>What stood before a missing number.</summary>
    public string Prefix { get; private set; } = "";

    /// <summary>Whether the text says s.n.</summary>
    public bool IsStatedAbsent { get; private set; }

    /// <summary>Whether the numbers are the ends of a range.</summary>
    public bool IsRange { get; private set; }

    /// <summary>Whether the number is doubted in the text.</summary>
    public bool IsUncertain { get; private set; }

    /// <summary>A doubt about the reading; null when there is none.</summary>
    public string? Question { get; private set; }

    private const int LargestRange = 50;   // more numbers than that are hardly on one label; a judgement

    private static readonly SearchValues<char> Mistakable = SearchValues.Create("0123456789lIO");
    private static readonly SearchValues<char> Edges = SearchValues.Create(" ,;:*");

    /// <summary>Reads the text of one number.</summary>
    public static NumberPiece Read(ReadOnlySpan<char> text)
    {
        var piece = new NumberPiece();
        text = piece.WithoutDoubts(TrimEdges(text));
        text = NumberSign.Cut(text);
        if (StatedAbsence.Begins(text) || StatedAbsence.IsAll(text))
        {
            piece.IsStatedAbsent = true;
            return piece;
        }

        if (text.IndexOfAnyInRange('0', '9') < 0)
        {
            piece.IsStatedAbsent = StatedAbsence.CutFromEnd(ref text);
            piece.Prefix = HasLetter(text) ? text.Trim().ToString() : "";
            return piece;
        }

        piece.TakeApart(text);
        return piece;
    }

    /// <summary>Whether the digits are a year in which somebody may have collected.</summary>
    public static bool IsYear(ReadOnlySpan<char> run) =>
        run.Length == 4 && (run.StartsWith("20") || run.StartsWith("19") || run.StartsWith("18"))
        && !run.ContainsAnyExceptInRange('0', '9');

    private static ReadOnlySpan<char> TrimEdges(ReadOnlySpan<char> text)
    {
        while (!text.IsEmpty && Edges.Contains(text[0]))
        {
            text = text[1..];
        }

        while (!text.IsEmpty && (Edges.Contains(text[^1]) || text[^1] == '.'))
        {
            text = text[..^1];
        }

        return text;
    }

    /// <summary>Takes off what says that the number is doubted, and brackets round all of it.</summary>
    private ReadOnlySpan<char> WithoutDoubts(ReadOnlySpan<char> text)
    {
        var before = -1;
        while (text.Length > 1 && text.Length != before)
        {
            before = text.Length;
            if (text[0] is '[' or '(' && text[1..^1].IndexOfAny("()[]") < 0 && text[^1] is ']' or ')')
            {
                IsUncertain |= text[0] == '[';
                text = text[1..^1].Trim();
                continue;
            }

            foreach (var doubt in (ReadOnlySpan<string>)["?", "(?)", "[?]", "(sic)", "[sic]", "(sic!)", "[!]", "(!)"])
            {
                if (text.EndsWith(doubt, StringComparison.Ordinal) && text.Length > doubt.Length)
                {
                    IsUncertain = true;
                    text = text[..^doubt.Length].TrimEnd();
                }
            }

            foreach (var open in (ReadOnlySpan<string>)[" ff", " ff.", " et seq", " et seq."])
            {
                if (text.EndsWith(open, StringComparison.Ordinal))
                {
                    IsRange = true;
                    text = text[..^open.Length].TrimEnd();
                }
            }
        }

        return text;
    }

    private void TakeApart(ReadOnlySpan<char> text)
    {
        if (IsMistyped(text))
        {
            IsUncertain = true;
            Question = $"\"{text}\" was read with 1 for l or I and 0 for O; is that right?";
            var digits = text.ToString().Replace('l', '1').Replace('I', '1').Replace('O', '0').TrimStart('0');
            Numbers.Add(new("", digits, ""));
            return;
        }

        var bracket = NumberSuffix.CutBracket(ref text);
        var chain = DigitChain.Choose(text);
        var prefix = NumberSign.CutFromBeginning(NumberSign.CutFromEnd(text[..chain.Start]));
        var suffixText = text[chain.End..];
        var suffix = NumberSuffix.Clean(suffixText);
        if (prefix.IsEmpty && suffixText.Length > 0 && suffixText[^1] == '/' && suffix.Length is 1 or 2)
        {
            prefix = suffix;   // "4471 P/": the letter of the series after the number
            suffix = default;
        }

        var number = chain.Clean(text, ref suffix, out var isDoubtful);
        if (isDoubtful)
        {
            Question = $"\"{text}\" was read as {number}; is the mark one of thousands?";
        }

        var suffixWords = bracket.Length == 0 || suffix.IsEmpty ? $"{suffix}{bracket}" : $"{suffix} {bracket}";
        var isWords = PrefixWords.Are(prefix);
        var prefixText = prefix.ToString();
        if (suffixWords.Length == 0 && IsRangeOf(number, out var dash))
        {
            IsRange = true;
            Numbers.Add(new(prefixText, number[..dash], "") { IsPrefixWords = isWords });
            Numbers.Add(new(prefixText, number[(dash + 1)..], "") { IsPrefixWords = isWords });
            return;
        }

        IsUncertain |= number.Contains('?', StringComparison.Ordinal);
        Numbers.Add(new(prefixText, number, suffixWords) { IsPrefixWords = isWords });
    }

    /// <summary>"1234-1240": as many digits on both sides, rising, and near.</summary>
    private static bool IsRangeOf(string number, out int dash)
    {
        dash = number.IndexOf('-', StringComparison.Ordinal);
        if (dash is < 3 or > 9 || number.Length != (2 * dash) + 1)
        {
            return false;
        }

        return int.TryParse(number.AsSpan(0, dash), out var from)
            && int.TryParse(number.AsSpan(dash + 1), out var to)
            && to > from && to - from <= LargestRange;
    }

    /// <summary>"8l2", "8I2": digits at both ends and letters between that are mistaken for digits.</summary>
    private static bool IsMistyped(ReadOnlySpan<char> text) =>
        text.IndexOfAny("lIO") > 0
        && char.IsAsciiDigit(text[0]) && char.IsAsciiDigit(text[^1])
        && !text.ContainsAnyExcept(Mistakable);

    private static bool HasLetter(ReadOnlySpan<char> text)
    {
        foreach (var c in text)
        {
            if (char.IsLetter(c))
            {
                return true;
            }
        }

        return false;
    }
}
