using System.Globalization;
using System.Text;

namespace Accession.Core.Gatherings;

/// <summary>Makes the characters of a number plain: digits of any script, full width, all dashes.</summary>
internal static class NumberText
{
    /// <summary>The text in plain characters, trimmed; the same text where it is plain already.</summary>
    public static string Plain(string text)
    {
        text = text.Trim();
        return IsPlain(text) ? text : Rewritten(text);
    }

    private static bool IsPlain(string text)
    {
        foreach (var c in text)
        {
            if (c is < ' ' or > '~')
            {
                return false;
            }
        }

        return true;
    }

    private static string Rewritten(string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            var category = Rune.GetUnicodeCategory(rune);
            _ = rune.Value switch
            {
                >= 0xFF01 and <= 0xFF5E => plain.Append((char)(rune.Value - 0xFEE0)),
                0x2116 => plain.Append("No. "),
                0x2044 or 0x2215 => plain.Append('/'),
                0x2019 or 0x02BC => plain.Append('\''),
                0x2212 => plain.Append('-'),
                _ when category == UnicodeCategory.DecimalDigitNumber => plain.Append((int)Rune.GetNumericValue(rune)),
                _ when category == UnicodeCategory.DashPunctuation => plain.Append('-'),
                _ when category is UnicodeCategory.Control or UnicodeCategory.Format
                    or UnicodeCategory.SpaceSeparator or UnicodeCategory.LineSeparator => plain.Append(' '),
                _ => plain.Append(rune.ToString()),
            };
        }

        return plain.ToString().Trim();
    }
}
