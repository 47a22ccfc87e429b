using System.Collections.Frozen;
using Accession.Core.Texts;

namespace Accession.Core.People;

/// <summary>
/// Whether a word is made of Chinese syllables as they are romanised: an initial, a final, and so on to the end.
/// The system of Hanyu Pinyin, from memory, in its rough outline: enough to tell "Xiaolin" from "Torvald".
/// </summary>
internal static class EasternSyllables
{
    private const int LongestSyllable = 6;

    private static readonly string[] Initials =
    [
        "zh", "ch", "sh", "b", "p", "m", "f", "d", "t", "n", "l", "g", "k", "h", "j", "q", "x", "r", "z", "c", "s",
        "y", "w", "",
    ];

    private static readonly FrozenSet<string> Finals = FrozenSet.Create(
        "a", "ai", "an", "ang", "ao", "e", "ei", "en", "eng", "er", "i", "ia", "ian", "iang", "iao", "ie", "in",
        "ing", "iong", "iu", "o", "ong", "ou", "u", "ua", "uai", "uan", "uang", "ue", "ui", "un", "uo", "v");

    /// <summary>Whether the word can be cut into one to three such syllables.</summary>
    public static bool Are(string word)
    {
        var key = Folding.Key(word);
        return key.Length is >= 2 and <= 3 * LongestSyllable && Follow(key, 0, 0);
    }

    private static bool Follow(string word, int start, int count)
    {
        if (start == word.Length)
        {
            return count is > 0 and <= 3;
        }

        for (var end = start + 1; count < 3 && end <= Math.Min(word.Length, start + LongestSyllable); end++)
        {
            if (IsSyllable(word[start..end]) && Follow(word, end, count + 1))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsSyllable(string text)
    {
        foreach (var initial in Initials)
        {
            if (text.StartsWith(initial, StringComparison.Ordinal) && Finals.Contains(text[initial.Length..]))
            {
                return true;
            }
        }

        return false;
    }
}
