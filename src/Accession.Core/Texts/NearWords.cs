namespace Accession.Core.Texts;

/// <summary>
/// Words with a slip: a letter left out, put in, taken for another, or two letters that changed places. Counted as the
/// optimal string alignment distance, the restricted form of Damerau's (from memory).
/// </summary>
public static class NearWords
{
    /// <summary>Shorter words are not guessed at: too many others are one slip away.</summary>
    public const int Shortest = 4;

    /// <summary>The longest word that is looked at.</summary>
    public const int Longest = 60;

    /// <summary>How many slips are forgiven: one in a short word, two in one of eight letters and more.</summary>
    /// <param name="word">The word that was typed.</param>
    public static int Forgiven(string word)
    {
        ArgumentNullException.ThrowIfNull(word);
        return word.Length is < Shortest or > Longest || !word.All(char.IsLetter) ? 0 : word.Length < 8 ? 1 : 2;
    }

    /// <summary>The words that are near one that was typed, the nearest first.</summary>
    /// <param name="typed">The word, folded.</param>
    /// <param name="words">Those that there are, folded.</param>
    /// <param name="isBeginning">Whether what was typed may be the beginning of a longer word.</param>
    /// <param name="most">How many at most.</param>
    public static IReadOnlyList<string> Of(string typed, IEnumerable<string> words, bool isBeginning, int most)
    {
        ArgumentNullException.ThrowIfNull(words);
        var forgiven = Forgiven(typed);
        return forgiven == 0
            ? []
            : [
                .. words.Select(word => (Word: word, Slips: Slips(typed, word, forgiven, isBeginning)))
                    .Where(one => one.Slips <= forgiven)
                    .OrderBy(one => one.Slips).ThenBy(one => Math.Abs(one.Word.Length - typed.Length))
                    .ThenBy(one => one.Word, StringComparer.Ordinal)
                    .Select(one => one.Word).Distinct().Take(most),
            ];
    }

    /// <summary>How many slips lie between two words; one more than what is forgiven where there are more.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="word">The word that may have been meant.</param>
    /// <param name="forgiven">How many count.</param>
    /// <param name="isBeginning">Whether the end of the longer word does not count.</param>
    public static int Slips(string typed, string word, int forgiven, bool isBeginning)
    {
        ArgumentNullException.ThrowIfNull(typed);
        ArgumentNullException.ThrowIfNull(word);
        var tooMany = forgiven + 1;
        if (typed.Length - word.Length > forgiven || (!isBeginning && word.Length - typed.Length > forgiven))
        {
            return tooMany;
        }

        var length = Math.Min(word.Length, typed.Length + forgiven);
        Span<int> before = stackalloc int[length + 1];
        Span<int> last = stackalloc int[length + 1];
        Span<int> row = stackalloc int[length + 1];
        for (var j = 0; j <= length; j++)
        {
            last[j] = j;
        }

        for (var i = 1; i <= typed.Length; i++)
        {
            var least = row[0] = i;
            for (var j = 1; j <= length; j++)
            {
                var same = typed[i - 1] == word[j - 1];
                row[j] = Math.Min(Math.Min(last[j], row[j - 1]) + 1, last[j - 1] + (same ? 0 : 1));
                if (i > 1 && j > 1 && typed[i - 1] == word[j - 2] && typed[i - 2] == word[j - 1])
                {
                    row[j] = Math.Min(row[j], before[j - 2] + 1);
                }

                least = Math.Min(least, row[j]);
            }

            if (least > forgiven)
            {
                return tooMany;
            }

            var spare = before;
            before = last;
            last = row;
            row = spare;
        }

        if (!isBeginning)
        {
            return Math.Min(last[length], tooMany);
        }

        var best = tooMany;
        for (var j = 0; j <= length; j++)
        {
            best = Math.Min(best, last[j]);
        }

        return best;
    }
}
