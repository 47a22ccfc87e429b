using System.Collections.Frozen;
using System.Numerics;
using Accession.Core.People;

namespace Accession.Core.Matching;

/// <summary>
/// The words of a locality as a set of 128 bits: which of two texts has the more words in common with a third can be
/// told without the texts. Short words of grammar are left out and usual abbreviations are taken for their words.
/// </summary>
internal readonly record struct PlaceWords(ulong Low, ulong High)
{
    private const int MostWords = 48;
    private const int MostRegionWords = 16;
    private const int LongestWord = 64;

    private static readonly FrozenSet<string> Grammar = FrozenSet.ToFrozenSet(
    [
        "of", "the", "de", "del", "la", "el", "los", "las", "le", "les", "du", "des", "d", "l", "al", "a", "at", "in",
        "on", "en", "and", "et", "y", "und", "von", "van", "to", "by", "from", "for", "with", "por", "para", "con",
        "ca", "c", "its", "an", "along", "near", "nr", "cerca", "about", "approx", "approximately", "circa", "entre",
        "between", "above", "below", "just", "off", "im", "am", "bei", "der", "die", "das", "un", "una", "co",
    ]);

    // Common practice of labels, no published source. An empty word is left out.
    private static readonly FrozenDictionary<string, string> Abbreviated = Spellings(
        ("mi", "mile miles milla millas"),
        ("km", "kms kilometer kilometers kilometre kilometres kilometro kilometros"),
        ("m", "meter meters metre metres metro metros"),
        ("ft", "feet foot fort"),
        ("n", "north norte nord"),
        ("s", "south sur sud"),
        ("e", "east este est"),
        ("w", "west oeste ouest o"),
        ("ne", "northeast noreste nordeste"),
        ("nw", "northwest noroeste no"),
        ("se", "southeast sureste sudeste"),
        ("sw", "southwest suroeste sudoeste so"),
        ("rd", "road roads camino"),
        ("rt", "route rte"),
        ("hwy", "highway carretera"),
        ("st", "street saint ste"),
        ("mt", "mount mountain mountains mtn mtns mts mont"),
        ("cr", "creek crk"),
        ("r", "river rivers rio riv"),
        ("lk", "lake lac"),
        ("jct", "junction intersection jctn"),
        ("ave", "avenue"),
        ("pt", "point"),
        ("sta", "station"),
        ("twp", "township tp"),
        ("pk", "park"),
        ("natl", "national nat nacional"),
        ("for", "forest"),
        ("mpio", "municipio mun"),
        ("sa", "sierra"),
        ("hill", "hills"),
        ("vic", "vicinity"),
        ("", "county side"));

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> GrammarSpans =
        Grammar.GetAlternateLookup<ReadOnlySpan<char>>();

    private static readonly FrozenDictionary<string, string>.AlternateLookup<ReadOnlySpan<char>> AbbreviatedSpans =
        Abbreviated.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>How many bits are set.</summary>
    public int Count => BitOperations.PopCount(Low) + BitOperations.PopCount(High);

    /// <summary>How many bits both have.</summary>
    public int InCommon(PlaceWords other) =>
        BitOperations.PopCount(Low & other.Low) + BitOperations.PopCount(High & other.High);

    /// <summary>Reads a text, leaving out words that only repeat the region.</summary>
    /// <param name="text">The locality to the letter.</param>
    /// <param name="regions">Country and state: their words say nothing about the place in them.</param>
    public static PlaceWords Of(string text, params ReadOnlySpan<string> regions)
    {
        Span<ulong> known = stackalloc ulong[MostRegionWords];
        var knownCount = 0;
        foreach (var region in regions)
        {
            knownCount += HashesOf(region, known[knownCount..]);
        }

        Span<ulong> words = stackalloc ulong[MostWords];
        ulong low = 0, high = 0;
        foreach (var word in words[..HashesOf(text, words)])
        {
            if (!known[..knownCount].Contains(word))
            {
                var bit = (int)(word >> 57);
                low |= bit < 64 ? 1UL << bit : 0;
                high |= bit < 64 ? 0 : 1UL << (bit - 64);
            }
        }

        return new(low, high);
    }

    /// <summary>The words and numbers of a text, folded, in their order.</summary>
    public static IEnumerable<string> WordsOf(string text)
    {
        foreach (var range in RangesOf(text))
        {
            var word = Word(text.AsSpan()[range]);
            if (word.Length > 0)
            {
                yield return word;
            }
        }
    }

    // Hundreds of thousands of localities pass through here: no string is made of a word.
    private static int HashesOf(string text, Span<ulong> hashes)
    {
        Span<char> buffer = stackalloc char[2 * LongestWord];
        var count = 0;
        foreach (var range in RangesOf(text))
        {
            if (count == hashes.Length)
            {
                break;
            }

            var word = Folded(text.AsSpan()[range], buffer);
            if (word.IsEmpty || GrammarSpans.Contains(word))
            {
                continue;
            }

            var isAbbreviated = AbbreviatedSpans.TryGetValue(word, out var shorter);
            if (!isAbbreviated || shorter!.Length > 0)
            {
                hashes[count++] = StableHash.Of(isAbbreviated ? shorter : word);
            }
        }

        return count;
    }

    private static string Word(ReadOnlySpan<char> text)
    {
        Span<char> buffer = stackalloc char[2 * LongestWord];
        var word = Folded(text, buffer);
        return word.IsEmpty || GrammarSpans.Contains(word) ? ""
            : AbbreviatedSpans.TryGetValue(word, out var shorter) ? shorter
            : word.ToString();
    }

    private static ReadOnlySpan<char> Folded(ReadOnlySpan<char> word, Span<char> buffer)
    {
        word = word.Length > LongestWord ? word[..LongestWord] : word;
        return char.IsAsciiDigit(word[0]) ? word.TrimEnd('.') : buffer[..LetterFolding.KeyInto(buffer, word)];
    }

    private static IEnumerable<Range> RangesOf(string text)
    {
        var start = -1;
        for (var i = 0; i <= text.Length; i++)
        {
            var isWord = i < text.Length && (char.IsLetterOrDigit(text[i]) || IsInside(text, i));
            if (isWord && start >= 0 && char.IsLetterOrDigit(text[i]) && char.IsLetterOrDigit(text[i - 1])
                && char.IsDigit(text[i]) != char.IsDigit(text[i - 1]))
            {
                isWord = false;   // "0.2mi" is two words
            }

            if (isWord)
            {
                start = start < 0 ? i : start;
            }
            else if (start >= 0)
            {
                yield return start..i;
                start = i < text.Length && char.IsLetterOrDigit(text[i]) ? i : -1;
            }
        }
    }

    // The point of a decimal number, and the accent that stands behind its letter.
    private static bool IsInside(string text, int i) => text[i] switch
    {
        '.' or ',' => i > 0 && i + 1 < text.Length && char.IsAsciiDigit(text[i - 1]) && char.IsAsciiDigit(text[i + 1]),
        '\'' or '’' => i > 0 && i + 1 < text.Length && char.IsLetter(text[i - 1]) && char.IsLetter(text[i + 1]),
        var c => char.GetUnicodeCategory(c) == System.Globalization.UnicodeCategory.NonSpacingMark,
    };

    private static FrozenDictionary<string, string> Spellings(params (string Word, string Others)[] groups) => groups
        .SelectMany(group => group.Others.Split(' ').Select(other => (other, group.Word)))
        .ToFrozenDictionary(pair => pair.other, pair => pair.Word);
}
