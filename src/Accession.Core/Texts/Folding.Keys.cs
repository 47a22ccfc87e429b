using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace Accession.Core.Texts;

// Keys. A table, because hundreds of thousands of names pass through it and the text library would build a new string
// for each.
public static partial class Folding
{
    private const int TableSize = 0x250;   // Basic Latin to Latin Extended-B: all that a table is worth
    private static readonly string[] Short = BuildTable(isLong: false);
    private static readonly string[] Long = BuildTable(isLong: true);

    /// <summary>
    /// The letters and digits of a text in lower case, accents off: "Pérgola-Vey" becomes "pergolavey".
    /// </summary>
    internal static string Key(ReadOnlySpan<char> text) => KeyOf(text, Short);

    /// <summary>As <see cref="Key"/>, but with the long spellings of the north: ü is ue, ø is oe, å is aa.</summary>
    internal static string LongKey(ReadOnlySpan<char> text) => KeyOf(text, Long);

    /// <summary>One character in lower case without its accent; the first letter where it becomes two.</summary>
    internal static char Plain(char c)
    {
        if (c is >= 'a' and <= 'z')
        {
            return c;
        }

        var folded = Folded(c, Short);
        return folded.Length == 0 ? '\0' : folded[0];
    }

    /// <summary>Whether a list of such keys holds the key of a text; no string is built for the question.</summary>
    internal static bool IsIn(FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> keys, ReadOnlySpan<char> text)
    {
        const int Longest = 64;   // no key of a list is half as long
        if (text.Length > Longest / 2)
        {
            return false;
        }

        Span<char> buffer = stackalloc char[Longest];
        return keys.Contains(buffer[..FoldInto(buffer, text, Short)]);
    }

    /// <summary>As <see cref="Key"/>, without making a string.</summary>
    /// <param name="buffer">Where the letters go; twice as long as the text.</param>
    /// <param name="text">The text.</param>
    /// <returns>How many letters were written.</returns>
    internal static int KeyInto(Span<char> buffer, ReadOnlySpan<char> text) => FoldInto(buffer, text, Short);

    private static string KeyOf(ReadOnlySpan<char> text, string[] table)
    {
        var room = text.Length * 2;
        var buffer = room <= 256 ? stackalloc char[256] : new char[room];
        return new string(buffer[..FoldInto(buffer, text, table)]);
    }

    private static int FoldInto(Span<char> buffer, ReadOnlySpan<char> text, string[] table)
    {
        var length = 0;
        foreach (var c in text)
        {
            if (c is >= 'a' and <= 'z')
            {
                buffer[length++] = c;
                continue;
            }

            foreach (var letter in Folded(c, table))
            {
                buffer[length++] = letter;
            }
        }

        return length;
    }

    private static string Folded(char c, string[] table)
    {
        if (c < TableSize)
        {
            return table[c];
        }

        if (CharUnicodeInfo.GetUnicodeCategory(c) == UnicodeCategory.NonSpacingMark || !IsKept(c))
        {
            return "";
        }

        // Vietnamese and other letters with two marks; what cannot be taken apart stands for itself.
        return char.IsSurrogate(c) ? c.ToString() : WithoutMarks(c);
    }

    private static bool IsKept(char c) => char.IsLetterOrDigit(c) || char.IsSurrogate(c);

    private static string WithoutMarks(char c)
    {
        var first = c.ToString().Normalize(NormalizationForm.FormD)[0];
        return char.ToLowerInvariant(first < TableSize || IsLatin(first) ? first : c).ToString();
    }

    private static bool IsLatin(char c) => c < TableSize || c is >= '\u1E00' and <= '\u1EFF';

    private static string[] BuildTable(bool isLong)
    {
        var table = new string[TableSize];
        for (var i = 0; i < TableSize; i++)
        {
            var c = (char)i;
            var spelling = SpellingOf(char.ToLowerInvariant(c));
            table[i] = (isLong ? spelling.Long : spelling.Short)
                ?? (char.IsLetterOrDigit(c) ? WithoutMarks(c) : "");
        }

        return table;
    }
}
