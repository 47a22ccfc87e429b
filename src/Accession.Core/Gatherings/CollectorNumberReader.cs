using Accession.Core.Outcomes;

namespace Accession.Core.Gatherings;

/// <summary>Reads a text of collectors' numbers: damage first, then absence, then one number after another.</summary>
internal static class CollectorNumberReader
{
    private static readonly string[] RangeWords = [" to ", " a ", " à ", " au ", " até ", " thru ", " through "];
    private static readonly string[] JoiningWords = [" and ", " et ", " y ", " e ", " und "];

    /// <summary>The reading of the whole text.</summary>
    public static Reading<CollectorNumbers> Read(string verbatim)
    {
        var text = NumberText.Plain(verbatim);
        if (text.Length == 0)
        {
            const string blank = "No number was written; write s.n. if there is none.";
            return Reading<CollectorNumbers>.Stopped(verbatim, 1, blank);
        }

        if (text[0] != '0' && !text.AsSpan().ContainsAnyExceptInRange('0', '9'))
        {
            return Reading<CollectorNumbers>.Of(verbatim, new([new("", text, "")]));   // nearly all of them
        }

        if (SpreadsheetDamage.In(text) is { } damage)
        {
            return Reading<CollectorNumbers>.Stopped(verbatim, 1, damage);
        }

        if (StatedAbsence.IsAll(text))
        {
            var doubt = text.Trim('0').Length == 0 ? "Is 0 a number, or does it mean that there is none?" : null;
            var none = doubt is null ? CollectorNumbers.None : new([]) { IsUncertain = true };
            return Reading<CollectorNumbers>.Of(verbatim, none, doubt);
        }

        return Several(verbatim, text);
    }

    private static Reading<CollectorNumbers> Several(string verbatim, string text)
    {
        var numbers = new List<CollectorNumber>(1);
        var pieces = new List<NumberPiece>(1);
        var isRange = false;
        var rest = text.AsSpan();
        while (!rest.IsEmpty)
        {
            var length = PieceLength(rest, out var signLength, out var isRangeWord);
            pieces.Add(NumberPiece.Read(rest[..length]));
            isRange |= isRangeWord;
            rest = rest[Math.Min(rest.Length, length + signLength)..];
        }

        foreach (var piece in pieces)
        {
            numbers.AddRange(piece.Numbers);
        }

        if (numbers.Count == 0 && !pieces.Exists(p => p.IsStatedAbsent || p.Prefix.Length > 0))
        {
            return Reading<CollectorNumbers>.Stopped(verbatim, 1, $"There is no number in \"{verbatim}\".");
        }

        var value = new CollectorNumbers(numbers)
        {
            IsRange = isRange || pieces.Exists(p => p.IsRange),
            IsUncertain = pieces.Exists(p => p.IsUncertain),
            PrefixWithoutNumber = numbers.Count == 0 ? pieces[0].Prefix : "",
        };
        return Reading<CollectorNumbers>.Of(verbatim, value, Question(verbatim, value, pieces));
    }

    private static string? Question(string verbatim, CollectorNumbers value, List<NumberPiece> pieces)
    {
        if (value.IsRange)
        {
            return $"\"{verbatim}\" spans several numbers: which is the number of this gathering?";
        }

        if (value.Numbers.Count > 1)
        {
            return $"\"{verbatim}\" holds {value.Numbers.Count} numbers: which is the number of this gathering?";
        }

        if (value.IsWithoutNumber && value.PrefixWithoutNumber.Length > 0 && !pieces.Exists(p => p.IsStatedAbsent))
        {
            return $"\"{verbatim}\" has no digits: is the number missing?";
        }

        return pieces[0].Question
            ?? (IsShortRange(value) ? $"Is \"{verbatim}\" a range of numbers or one number with a part?" : null);
    }

    /// <summary>"1234-40" may stand for 1234 to 1240.</summary>
    private static bool IsShortRange(CollectorNumbers value)
    {
        if (value.First is not { Prefix: "", Suffix: "", Number: [_, _, _, _, '-', _, _] number })
        {
            return false;
        }

        return !NumberPiece.IsYear(number.AsSpan(0, 4))
            && string.CompareOrdinal(number, 5, number, 2, 2) > 0
            && !number.AsSpan(5).ContainsAnyExceptInRange('0', '9');
    }

    /// <summary>How long the first number of a list is. A sign divides only where digits stand on both sides.</summary>
    private static int PieceLength(ReadOnlySpan<char> text, out int signLength, out bool isRangeWord)
    {
        signLength = 0;
        isRangeWord = false;
        var firstDigit = text.IndexOfAnyInRange('0', '9');
        var lastDigit = text.LastIndexOfAnyInRange('0', '9');
        if (firstDigit < 0)
        {
            return text.Length;
        }

        for (var i = firstDigit + 1; i < lastDigit; i++)
        {
            if (text[i] is ';' or '|' or '&' || (text[i] == ',' && !IsThousandsMark(text, i)))
            {
                signLength = 1;
                return i;
            }

            if (text[i] == ' ' && (signLength = WordLength(text[i..], RangeWords)) > 0)
            {
                isRangeWord = true;
                return i;
            }

            if (text[i] == ' ' && (signLength = WordLength(text[i..], JoiningWords)) > 0)
            {
                return i;
            }
        }

        return text.Length;
    }

    /// <summary>Whether the mark stands between one to three digits and exactly three: a mark of thousands.</summary>
    public static bool IsThousandsMark(ReadOnlySpan<char> text, int place)
    {
        var before = 0;
        while (before < place && char.IsAsciiDigit(text[place - 1 - before]) && before < 4)
        {
            before++;
        }

        var after = 0;
        while (place + 1 + after < text.Length && char.IsAsciiDigit(text[place + 1 + after]) && after < 4)
        {
            after++;
        }

        return before is >= 1 and <= 3 && after == 3;
    }

    private static int WordLength(ReadOnlySpan<char> text, string[] words)
    {
        foreach (var word in words)
        {
            if (text.StartsWith(word, StringComparison.Ordinal))
            {
                return word.Length;
            }
        }

        return 0;
    }
}
