using System.Collections.Frozen;
using System.Globalization;
using System.Text;
using Accession.Core.Texts;

namespace Accession.Core.Standards.Countries;

/// <summary>
/// From a country as written on a label to its ISO 3166-1 alpha-2 code. The names come from the Unicode locale data of
/// the runtime, in English and in the languages of the country; what they lack is in <c>CountrySynonyms</c>.
/// </summary>
/// <remarks>
/// A name that could mean two countries has no code (Congo, Korea, Virgin Islands), nor has a state that is gone and
/// whose land is several countries now (Soviet Union, Yugoslavia): a wrong country is worse than none.
/// </remarks>
public static class CountryCode
{
    // Regions of the locale data that are no countries of ISO 3166-1: Ceuta and Melilla, Canary Islands, Diego Garcia,
    // Kosovo (user-assigned), Ascension, Clipperton, Sark, Tristan da Cunha.
    private static readonly FrozenSet<string> NotIso =
        FrozenSet.ToFrozenSet(["EA", "IC", "DG", "XK", "AC", "CP", "CQ", "TA"]);

    private static readonly FrozenSet<string> Forms = FrozenSet.ToFrozenSet(
        ["republic", "kingdom", "principality", "commonwealth", "sultanate", "union", "duchy"]);

    private static readonly string[] Ambiguous = ["congo", "korea", "virgin islands", "saint martin"];

    // Codes in capitals and folded names, which have none, share the table: "CAN" is not found by the word "can".
    private static readonly FrozenDictionary<string, string> Codes = Collect();

    /// <summary>
    /// The code of a country: two capital letters, or null when the words do not settle it. Letter case, accents,
    /// stops, "the", "and", "of", "St." for "Saint" and the form of the state ("Republic of") do not matter. ISO codes
    /// of two and three letters are read too, in capitals.
    /// </summary>
    /// <param name="country">The country as written; null and blank have no code.</param>
    public static string? Of(string? country)
    {
        if (string.IsNullOrWhiteSpace(country))
        {
            return null;
        }

        var written = country.Trim();
        var isCode = written.Length is 2 or 3 && written.All(char.IsAsciiLetterUpper);
        if (isCode && Codes.TryGetValue(written, out var known))
        {
            return known;
        }

        var name = Folded(written);
        return Codes.GetValueOrDefault(name) ?? Codes.GetValueOrDefault(WithoutForm(name));
    }

    // "Republic of Peru", "Federal Republic of Nigeria": what follows the form of the state. "State" is no such form,
    // because provinces are states too: the State of Georgia is not the country.
    private static string WithoutForm(string name)
    {
        var words = name.Split(' ');
        var form = Array.FindLastIndex(words, Forms.Contains);
        return string.Join(' ', words[(form + 1)..]);
    }

    private static FrozenDictionary<string, string> Collect()
    {
        var regions = CultureInfo.GetCultures(CultureTypes.SpecificCultures)
            .Select(culture => new RegionInfo(culture.Name))
            .Where(region => region.TwoLetterISORegionName is [>= 'A' and <= 'Z', _] code && !NotIso.Contains(code))
            .ToList();
        var codes = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var region in regions)
        {
            codes[region.TwoLetterISORegionName] = region.TwoLetterISORegionName;
            codes[region.ThreeLetterISORegionName] = region.TwoLetterISORegionName;
            codes[Folded(region.EnglishName)] = region.TwoLetterISORegionName;
        }

        var native = regions.GroupBy(region => Folded(region.NativeName), region => region.TwoLetterISORegionName);
        foreach (var names in native.Where(names => names.Distinct().Count() == 1))
        {
            codes.TryAdd(names.Key, names.First());
        }

        foreach (var (code, names) in CountrySynonyms.All)
        {
            codes[code] = code;
            foreach (var name in names)
            {
                codes[Folded(name)] = code;
            }
        }

        Array.ForEach(Ambiguous, name => codes.Remove(name));
        return codes.ToFrozenDictionary(StringComparer.Ordinal);
    }

    private static string Folded(string name)
    {
        var plain = new StringBuilder(name.Length);
        var spelt = Folding.Whole(name).Replace("&", " and ", StringComparison.Ordinal);
        foreach (var c in spelt.Normalize(NormalizationForm.FormD))
        {
            if (char.IsLetterOrDigit(c))
            {
                plain.Append(char.ToLowerInvariant(c));
            }
            else if (c is not ('.' or '\'' or '\u2019') && char.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark)
            {
                plain.Append(' ');
            }
        }

        var words = plain.ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries)
            .Where(word => word is not ("the" or "and" or "of"))
            .Select(word => word == "st" ? "saint" : word);
        return string.Join(' ', words);
    }
}
