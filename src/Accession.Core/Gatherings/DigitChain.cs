namespace Accession.Core.Gatherings;

/// <summary>
/// The digits that are the number: runs of digits joined by single signs, as "2031-014". Of several such chains in a
/// text the one is chosen that counts the gatherings; what stands before belongs to the prefix, what follows to the
/// suffix.
/// </summary>
/// <param name="Start">Where the digits begin.</param>
/// <param name="End">Where they end.</param>
internal readonly record struct DigitChain(int Start, int End)
{
    private const int LongestNumber = 120;

    /// <summary>Chooses the number in a text that holds at least one digit.</summary>
    public static DigitChain Choose(ReadOnlySpan<char> text)
    {
        var chosen = Next(text, 0);
        while (Next(text, chosen.End) is { End: > 0 } next)
        {
            // "31-C-77", "5K.6120", "2031-QT8": a code before the number. "4471K1", "44710v02": a part after it.
            var isCode = next.CountDigits(text) >= chosen.CountDigits(text)
                || NumberPiece.IsYear(text[chosen.Start..chosen.End])
                || text[chosen.End..next.Start].Contains('_');
            if (!isCode)
            {
                break;
            }

            chosen = next;
        }

        return chosen.WithoutCode(text);
    }

    /// <summary>
    /// The number without leading zeros and thousands marks. A last single digit after a stop or slash moves to the
    /// suffix ("1234.1", an inserted number); ".0" is what a spreadsheet adds and falls away.
    /// </summary>
    public string Clean(ReadOnlySpan<char> text, ref ReadOnlySpan<char> suffix, out bool isDoubtful)
    {
        isDoubtful = false;
        var digits = text[Start..End];
        var mark = digits.IndexOfAnyExceptInRange('0', '9');
        if (mark > 0 && mark == digits.Length - 2 && suffix.IsEmpty && digits[mark] is '.' or '/'
            && !NumberPiece.IsYear(digits[..mark]) && !IsDateCode(digits[..mark]) && (mark >= 3 || digits[mark] == '.'))
        {
            suffix = digits is [.., '.', '0'] ? default : digits[mark..];
            digits = digits[..mark];
        }

        Span<char> kept = stackalloc char[LongestNumber];
        var length = 0;
        for (var i = 0; i < Math.Min(digits.Length, LongestNumber); i++)
        {
            if (IsDropped(digits, i, ref isDoubtful))
            {
                continue;
            }

            if (digits[i] != ' ')
            {
                kept[length++] = digits[i];
            }
        }

        // Digits beyond any counter are kept whole, in one piece: never lossy.
        var clean = digits.Length > LongestNumber ? digits : kept[..length];
        var trimmed = clean.TrimStart('0');
        return trimmed.IsEmpty || !char.IsAsciiDigit(trimmed[0]) ? clean.ToString() : trimmed.ToString();
    }

    /// <summary>Whether the character is a mark of thousands, which carries no meaning.</summary>
    private static bool IsDropped(ReadOnlySpan<char> digits, int place, ref bool isDoubtful)
    {
        var c = digits[place];
        if (c is ',' or '\'')
        {
            return true;
        }

        if (c == ' ')
        {
            isDoubtful |= CollectorNumberReader.IsThousandsMark(digits, place);
            return true;
        }

        if (c != '.' || digits[..place].Contains('.') || NumberPiece.IsYear(digits[..place]))
        {
            return c == '.' && CollectorNumberReader.IsThousandsMark(digits, place);
        }

        var after = digits[(place + 1)..];
        var length = after.IndexOfAnyExceptInRange('0', '9') is var end and >= 0 ? end : after.Length;
        var isThousands = length >= 3 && place <= 3 && !digits[..place].ContainsAnyExceptInRange('0', '9');
        isDoubtful |= isThousands;
        return isThousands;
    }

    /// <summary>"QA770-25": digits that hang on the letters are a part of the code, unless they are a year.</summary>
    private DigitChain WithoutCode(ReadOnlySpan<char> text)
    {
        var chain = text[Start..End];
        var mark = chain.IndexOfAnyExceptInRange('0', '9');
        if (Start == 0 || mark < 0 || chain[mark] is not ('-' or '/' or '.'))
        {
            return this;
        }

        var isAttached = char.IsLetter(text[Start - 1]);
        var isBook = text[Start - 1] == '.' && Start > 1 && char.IsLetter(text[Start - 2]) && chain[mark] == '.';
        var isCode = (isAttached && !NumberPiece.IsYear(chain[..mark])) || isBook;
        var next = mark + 1 + chain[(mark + 1)..].IndexOfAnyInRange('0', '9');
        return isCode && mark < chain.Length - 1 ? new(Start + next, End) : this;
    }

    /// <summary>The next chain from a place on; the default value when there is none.</summary>
    private static DigitChain Next(ReadOnlySpan<char> text, int from)
    {
        var found = text[from..].IndexOfAnyInRange('0', '9');
        if (found < 0)
        {
            return default;
        }

        var start = from + found;
        var end = start;
        while (end < text.Length)
        {
            if (char.IsAsciiDigit(text[end]))
            {
                end++;
                continue;
            }

            var join = JoinLength(text, end);
            if (join == 0)
            {
                break;
            }

            end += join;
        }

        return new(start, end);
    }

    /// <summary>How long the sign is that joins digits with digits here; 0 when none does.</summary>
    private static int JoinLength(ReadOnlySpan<char> text, int place)
    {
        var c = text[place];
        if (place + 1 >= text.Length)
        {
            return 0;
        }

        var isBeforeDigit = char.IsAsciiDigit(text[place + 1]);
        if (c is '-' or '/' or '.' or '?')
        {
            return isBeforeDigit ? 1 : SpacedLength(text, place);
        }

        return c switch
        {
            ',' or '\'' => isBeforeDigit && CollectorNumberReader.IsThousandsMark(text, place) ? 1 : 0,
            ' ' when isBeforeDigit => CollectorNumberReader.IsThousandsMark(text, place) ? 1 : 0,
            ' ' => SpacedLength(text, place),
            _ => 0,
        };
    }

    /// <summary>A dash with spaces round it: "1234 - 1240".</summary>
    private static int SpacedLength(ReadOnlySpan<char> text, int place)
    {
        var i = place;
        var dashes = 0;
        while (i < text.Length && text[i] is ' ' or '-' && i - place < 4)
        {
            dashes += text[i] == '-' ? 1 : 0;
            i++;
        }

        return dashes == 1 && i < text.Length && char.IsAsciiDigit(text[i]) ? i - place : 0;
    }

    private int CountDigits(ReadOnlySpan<char> text)
    {
        var count = 0;
        foreach (var c in text[Start..End])
        {
            count += char.IsAsciiDigit(c) ? 1 : 0;
        }

        return count;
    }

    /// <summary>Six digits that can be a day: 260614 or 140626.</summary>
    private static bool IsDateCode(ReadOnlySpan<char> run)
    {
        if (run.Length != 6)
        {
            return false;
        }

        var month = ((run[2] - '0') * 10) + run[3] - '0';
        var first = ((run[0] - '0') * 10) + run[1] - '0';
        var last = ((run[4] - '0') * 10) + run[5] - '0';
        return month is >= 1 and <= 12 && (first is >= 1 and <= 31 || last is >= 1 and <= 31);
    }
}
