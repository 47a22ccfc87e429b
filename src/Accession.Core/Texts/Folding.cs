using System.Globalization;
using System.Text;

namespace Accession.Core.Texts;

/// <summary>
/// The one way text is folded for comparing and searching, so that both databases agree: composed, lower case,
/// without diacritics. What people read is never folded.
/// </summary>
public static class Folding
{
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
        foreach (var letter in Compatible(text).ToLowerInvariant().Normalize(NormalizationForm.FormD))
        {
            if (CharUnicodeInfo.GetUnicodeCategory(letter) != UnicodeCategory.NonSpacingMark)
            {
                folded.Append(Plain(letter));
            }
        }

        return folded.ToString().Normalize(NormalizationForm.FormC);
    }

    // A lone half of a surrogate pair, as careless exports leave behind, would make Normalize throw.
    private static string Compatible(string text)
    {
        var whole = text.Any(char.IsSurrogate) ? string.Concat(text.EnumerateRunes()) : text;
        return whole.Normalize(NormalizationForm.FormKC);
    }

    // Letters that Unicode does not decompose but that labels mix with their plain forms.
    private static string Plain(char letter) => letter switch
    {
        'ø' => "o",
        'đ' => "d",
        'ł' => "l",
        'ß' => "ss",
        'æ' => "ae",
        'œ' => "oe",
        'þ' => "th",
        'ı' => "i",
        _ => letter.ToString(),
    };
}
