namespace Accession.Core.People;

/// <summary>A collector's number that slipped into the text of names: "N. Torvald 30877", "Brill No. 77".</summary>
internal static class TrailingNumber
{
    private const int LongestTail = 3;   // words after the digits that still belong to the number: "6192 b"

    private static readonly string[] Absences = [" s.n.", " s.n", " s. n.", " S.N.", " sn", ",s.n.", " sine numero"];

    /// <summary>Cuts the number, or the words for "without number", off the end of a piece.</summary>
    /// <param name="piece">The piece; afterwards without the number.</param>
    /// <returns>The number as written, without its sign; empty when there is none.</returns>
    public static string Cut(ref ReadOnlySpan<char> piece)
    {
        piece = WithoutStatedAbsence(piece);
        var digit = piece.IndexOfAnyInRange('0', '9');
        if (digit < 0)
        {
            return "";
        }

        var start = digit;
        while (start > 0 && !char.IsWhiteSpace(piece[start - 1]) && piece[start - 1] != ',')
        {
            start--;
        }

        var tail = piece[start..].Trim(" ,.#");
        var names = piece[..start].TrimEnd(" ,:#");
        var sign = LastWord(names);
        if (CollectorPhrases.IsNumberSign(sign) && (sign[^1] == '.' || char.IsLower(sign[0]) || sign[0] is 'N' or '№'))
        {
            names = names[..^sign.Length].TrimEnd(" ,:");
        }
        else if (IsYears(tail) || IsLifeDate(piece[start..]) || tail.Length > 16 || !IsShort(tail))
        {
            return "";
        }

        piece = names;
        return tail.ToString();
    }

    private static bool IsShort(ReadOnlySpan<char> tail)
    {
        var words = 0;
        foreach (var c in tail)
        {
            words += c == ' ' ? 1 : 0;
            if (c == ',')
            {
                return false;
            }
        }

        return words < LongestTail;
    }

    private static bool IsLifeDate(ReadOnlySpan<char> word) =>
        word.Length > 2 && word[1] == '.' && word[0] is 'b' or 'd';

    /// <summary>"1872-1925", "1900–", "1872": years of life.</summary>
    private static bool IsYears(ReadOnlySpan<char> tail)
    {
        var separator = tail.IndexOfAny('-', '–');
        return separator == 4 && tail[0] == '1' && tail.Length is 5 or 9;
    }

    private static ReadOnlySpan<char> LastWord(ReadOnlySpan<char> text)
    {
        var space = text.LastIndexOfAny(' ', ',');
        return text[(space + 1)..];
    }

    private static ReadOnlySpan<char> WithoutStatedAbsence(ReadOnlySpan<char> piece)
    {
        foreach (var ending in Absences)
        {
            if (piece.EndsWith(ending, StringComparison.Ordinal) && piece.Length > ending.Length)
            {
                return piece[..^ending.Length].TrimEnd(" ,");
            }
        }

        return piece;
    }
}
