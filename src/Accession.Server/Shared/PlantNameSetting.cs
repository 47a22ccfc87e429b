using System.Text.RegularExpressions;

namespace Accession.Server.Shared;

/// <summary>
/// Sets a plant name as a botanist does: genus and epithets italic; authors, ranks, qualifiers and the hybrid sign
/// upright. The name is a text as somebody wrote it, so italics are set only where its shape leaves no doubt. A wrong
/// italic would say more than was written: in doubt everything stays upright.
/// </summary>
public static partial class PlantNameSetting
{
    private static readonly HashSet<string> Ranks =
        ["subsp.", "ssp.", "var.", "subvar.", "f.", "fo.", "forma", "subf.", "nothosubsp.", "nothovar."];

    private static readonly HashSet<string> Qualifiers = ["cf.", "aff.", "×", "x"];

    // What may follow an epithet in small letters without being another epithet.
    private static readonly HashSet<string> AuthorWords =
        ["auct.", "hort.", "sensu", "s.l.", "s.str.", "de", "van", "von", "ex", "nom.", "emend."];

    // English names begin with a place that ends as a genus may: "Oregon iris".
    private static readonly HashSet<string> Places =
        ["Arizona", "California", "Canada", "Carolina", "Columbia", "Montana", "Nevada", "Oregon", "Sierra",
            "Virginia"];

    /// <summary>A stretch of the name that is set in one way.</summary>
    public readonly record struct Piece(string Text, bool IsItalic);

    /// <summary>The name in pieces; joined together they are the name to the letter.</summary>
    public static IReadOnlyList<Piece> Of(string name)
    {
        var words = name.Split(' ');
        if (words.Any(word => word.Length == 0) || Epithets(words) is not { } italic)
        {
            return name.Length == 0 ? [] : [new(name, false)];
        }

        List<Piece> pieces = [];
        foreach (var (index, word) in words.Index())
        {
            var isItalic = italic.Contains(index);
            var isHybrid = isItalic && word[0] == '×';
            if (index > 0)
            {
                Add(pieces, " ", isItalic && !isHybrid && italic.Contains(index - 1));
            }

            if (isHybrid)
            {
                Add(pieces, "×", false);
            }

            Add(pieces, isHybrid ? word[1..] : word, isItalic);
        }

        return pieces;
    }

    private static void Add(List<Piece> pieces, string text, bool isItalic)
    {
        if (pieces is [.., var last] && last.IsItalic == isItalic)
        {
            pieces[^1] = last with { Text = last.Text + text };
        }
        else
        {
            pieces.Add(new(text, isItalic));
        }
    }

    // The places of genus and epithets among the words; null when the shape is not clear.
    private static HashSet<int>? Epithets(string[] words)
    {
        var at = Qualifiers.Contains(words[0]) ? 1 : 0;
        if (at >= words.Length || !Genus().IsMatch(words[at]))
        {
            return null;
        }

        var (genus, genusAt) = (words[at], at++);
        if (at < words.Length && words[at] is "sp." or "spp.")
        {
            return IsLatinGenus(genus) ? [genusAt] : null;
        }

        at += at < words.Length && Qualifiers.Contains(words[at]) ? 1 : 0;
        if (at >= words.Length || !Epithet().IsMatch(words[at]) || AuthorWords.Contains(words[at]))
        {
            return null;
        }

        HashSet<int> italic = [genusAt, at];
        var isSure = IsLatinGenus(genus) && LatinEpithet().IsMatch(words[at]);
        for (at++; at < words.Length; at++)
        {
            if (Ranks.Contains(words[at]) && at + 1 < words.Length && Epithet().IsMatch(words[at + 1]))
            {
                italic.Add(++at);
                isSure = true;
            }
            else if (at == genusAt + 2 && Epithet().IsMatch(words[at]) && !AuthorWords.Contains(words[at]))
            {
                // Three bare words: an epithet without its rank, or plain English.
                return null;
            }
            else
            {
                isSure |= Author().IsMatch(words[at]);
            }
        }

        return isSure ? italic : null;
    }

    private static bool IsLatinGenus(string word) => LatinGenus().IsMatch(word) && !Places.Contains(word);

    [GeneratedRegex("^×?[A-Z][a-zäëïöü]+(-[a-zäëïöü]+)?$")]
    private static partial Regex Genus();

    [GeneratedRegex("^×?[a-zäëïöü]{2,}(-[a-zäëïöü]+)*$")]
    private static partial Regex Epithet();

    [GeneratedRegex(@"^[(\[]?\p{Lu}[\p{L}.'’\-]*[)\],]?")]
    private static partial Regex Author();

    [GeneratedRegex("(a|us|um|is|on|ex|ix|ys)$")]
    private static partial Regex LatinGenus();

    [GeneratedRegex("(a|us|um|is|ii|i|ae|oides|ense|ens|ans)$")]
    private static partial Regex LatinEpithet();
}
