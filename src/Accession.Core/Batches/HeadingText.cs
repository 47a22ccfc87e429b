using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Accession.Core.Texts;

namespace Accession.Core.Batches;

/// <summary>
/// A heading brought to the form in which headings are compared: small letters and digits alone, without accents
/// and without the unit. "Elev. (ft)" is elev with feet, "dwc:recordedBy" and "Recorded by" are recordedby.
/// </summary>
/// <param name="Whole">The heading with its unit, for terms that end in one.</param>
/// <param name="Key">The heading without its unit.</param>
/// <param name="Unit">The unit; null when there is none.</param>
internal readonly partial record struct HeadingText(string Whole, string Key, HeadingUnit? Unit)
{
    /// <summary>Reads a heading.</summary>
    public static HeadingText Of(string heading)
    {
        var local = heading.Trim();
        if (TermPrefix().Match(local) is { Success: true } prefix)
        {
            local = local[prefix.Length..];
        }

        var unit = UnitAtEnd().Match(local);
        var without = unit.Success ? local[..unit.Index] : local;
        return new(Fold(local), Fold(without), unit.Success ? UnitOf(Fold(unit.Groups["unit"].Value)) : null);
    }

    /// <summary>Folds a text to small letters and digits.</summary>
    public static string Fold(string text)
    {
        var spelt = text
            .Replace("#", " number ", StringComparison.Ordinal)
            .Replace("N°", "No", StringComparison.OrdinalIgnoreCase)
            .Replace("ß", "ss", StringComparison.Ordinal);
        var folded = new StringBuilder(spelt.Length);
        foreach (var c in Folding.Whole(spelt).Normalize(NormalizationForm.FormKD))
        {
            if (char.IsLetterOrDigit(c) && CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark)
            {
                folded.Append(char.ToLowerInvariant(c));
            }
        }

        return folded.ToString();
    }

    private static HeadingUnit UnitOf(string unit) => unit switch
    {
        "ft" or "feet" or "foot" or "pies" or "pieds" or "fuss" => HeadingUnit.Foot,
        "km" or "kilometers" or "kilometres" or "kilometer" => HeadingUnit.Kilometre,
        "mi" or "miles" or "mile" or "meilen" => HeadingUnit.Mile,
        _ => HeadingUnit.Metre,
    };

    /// <summary>A namespace before a term: <c>dwc:</c>, or an address ending in a slash or a hash.</summary>
    [GeneratedRegex("""^(https?://\S*[/#](?=\w)|(dwc|dcterms|dc|dwciri)[:_.](?=\w))""", RegexOptions.IgnoreCase)]
    private static partial Regex TermPrefix();

    /// <summary>A unit at the end: in brackets, or after a space, an underscore, a comma or "in".</summary>
    [GeneratedRegex(
        """
        [\s_,/]*([\(\[]\s*(in\s+)?|(?<=\S)[\s_,]+(in[\s_]+|en[\s_]+)?)
        (?<unit>m|meters?|metres?|metros|mètres|metern?|m\.?\s*a\.?s\.?l\.?|m\s*s\.?n\.?m\.?
        |m\s*ü\.?\s*m\.?|m\s*ü\.?\s*NN|msnm|masl
        |km|kilomet(er|re)s?|ft|feet|foot|pies|pieds|fuß|fuss|mi|miles?|meilen)\.?\s*[\)\]]?\s*$
        """,
        RegexOptions.IgnoreCase | RegexOptions.IgnorePatternWhitespace)]
    private static partial Regex UnitAtEnd();
}
