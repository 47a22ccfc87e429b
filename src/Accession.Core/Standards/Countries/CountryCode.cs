using System.Collections.Frozen;
using System.Globalization;
using System.Text;

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
    // Codes and names share a table; the mark keeps "CAN" from being found by the word "can".
    private const string CodeMark = "=";

    // Regions of the locale data that are no countries of ISO 3166-1: Ceuta and Melilla, Canary Islands, Diego Garcia,
    // Kosovo (user-assigned), Ascension, Clipperton, Sark, Tristan da Cunha.
    private static readonly FrozenSet<string> NotIso =
        FrozenSet.ToFrozenSet(["EA", "IC", "DG", "XK", "AC", "CP", "CQ", "TA"]);

    private static readonly string[] Ambiguous = ["congo", "korea", "virgin islands", "saint martin"];

    private static readonly FrozenDictionary<string, string> Codes = Collect();

    /// <summary>
    /// The code of a country: two capital letters, or null when the words do not settle it. Letter case, accents,
    /// stops, "the", "and", "of", and "St." for "Saint" do not matter; ISO codes of two and three letters are read too,
    /// in capitals.
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
        return isCode && Codes.TryGetValue(CodeMark + written, out var known)
            ? known
            : Codes.GetValueOrDefault(Folded(written));
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
            codes[CodeMark + region.TwoLetterISORegionName] = region.TwoLetterISORegionName;
            codes[CodeMark + region.ThreeLetterISORegionName] = region.TwoLetterISORegionName;
            codes[Folded(region.EnglishName)] = region.TwoLetterISORegionName;
        }

        var native = regions.GroupBy(region => Folded(region.NativeName), region => region.TwoLetterISORegionName);
        foreach (var names in native.Where(names => names.Distinct().Count() == 1))
        {
            codes.TryAdd(names.Key, names.First());
        }

        foreach (var (code, names) in CountrySynonyms.All)
        {
            codes[CodeMark + code] = code;
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
        foreach (var c in name.Replace("&", " and ", StringComparison.Ordinal).Normalize(NormalizationForm.FormD))
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
