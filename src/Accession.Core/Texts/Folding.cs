using System.Globalization;
using System.Text;

namespace Accession.Core.Texts;

/// <summary>
/// The one way text is folded for comparing and searching, so that both databases agree: lower case, without
/// diacritics, letters that labels spell in several ways evened out. What people read is never folded. A whole text
/// keeps its blanks and signs; a key has letters and digits only.
/// </summary>
public static partial class Folding
{
    private const char WrongWayRound = '\uFFFE';

    /// <summary>Folds a text: compatibility forms and case are evened out and diacritics dropped.</summary>
    /// <param name="text">Any text.</param>
    /// <returns>The folded text; it may be longer or shorter than what was given.</returns>
    public static string Fold(string text)
    {
        if (Ascii.IsValid(text))
        {
            return text.ToLowerInvariant();
        }

        var folded = new StringBuilder(text.Length);
        var compatible = Whole(text).Normalize(NormalizationForm.FormKC);
        foreach (var letter in compatible.ToLowerInvariant().Normalize(NormalizationForm.FormD))
        {
            if (CharUnicodeInfo.GetUnicodeCategory(letter) != UnicodeCategory.NonSpacingMark)
            {
                folded.Append(SpellingOf(letter).InText ?? letter.ToString());
            }
        }

        return folded.ToString().Normalize(NormalizationForm.FormC);
    }

    /// <summary>
    /// A text that can be normalized: without lone halves of surrogate pairs, as careless exports leave behind, and
    /// without byte order marks the wrong way round; either would make the text library throw.
    /// </summary>
    internal static string Whole(string text)
    {
        var whole = text.Any(char.IsSurrogate) ? string.Concat(text.EnumerateRunes()) : text;
        return whole.Replace(WrongWayRound, (char)Rune.ReplacementChar.Value);
    }

    // Letters that Unicode does not decompose but that labels mix with their plain forms, and letters with a long
    // spelling.
    private static Spelling SpellingOf(char letter) => letter switch
    {
        'ø' => new("o", "o", "oe"),
        'ö' => new(null, "o", "oe"),
        'ü' => new(null, "u", "ue"),
        'ä' => new(null, "a", "ae"),
        'å' => new(null, "a", "aa"),
        'æ' => new("ae", "a", "ae"),
        'œ' => new("oe", "o", "oe"),
        'ß' => new("ss", "ss", "ss"),
        'ł' => new("l", "l", "l"),
        'đ' => new("d", "d", "d"),
        'ð' => new(null, "d", "d"),
        'þ' => new("th", "th", "th"),
        'ı' => new("i", "i", "i"),
        _ => default,
    };

    /// <summary>How a letter in lower case is spelled; null where what Unicode says of it is enough.</summary>
    /// <param name="InText">In a whole text.</param>
    /// <param name="Short">In a key.</param>
    /// <param name="Long">In a key with the long spellings of the north.</param>
    private readonly record struct Spelling(string? InText, string? Short, string? Long);
}
