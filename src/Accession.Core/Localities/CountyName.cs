using System.Collections.Frozen;
using Accession.Core.Outcomes;
using Accession.Core.Texts;

namespace Accession.Core.Localities;

/// <summary>A county of a state or province, such as Harney in Oregon, however it is spelled.</summary>
/// <param name="County">The county as written: "Harney" or "Harney County".</param>
/// <param name="StateProvince">The state or province as written: "Oregon" or "OR".</param>
public sealed record CountyName(string County, string StateProvince)
{
    /// <summary>The longest key; a county with a longer one has none.</summary>
    public const int LongestKey = 120;

    // Publication 28 of the United States Postal Service, appendix B: the states and the District of Columbia (from
    // memory).
    private static readonly FrozenDictionary<string, string> Postal = Pairs(
        "al alabama ak alaska az arizona ar arkansas ca california co colorado ct connecticut de delaware "
        + "dc districtcolumbia fl florida ga georgia hi hawaii id idaho il illinois in indiana ia iowa ks kansas "
        + "ky kentucky la louisiana me maine md maryland ma massachusetts mi michigan mn minnesota ms mississippi "
        + "mo missouri mt montana ne nebraska nv nevada nh newhampshire nj newjersey nm newmexico ny newyork "
        + "nc northcarolina nd northdakota oh ohio ok oklahoma or oregon pa pennsylvania ri rhodeisland "
        + "sc southcarolina sd southdakota tn tennessee tx texas ut utah vt vermont va virginia wa washington "
        + "wv westvirginia wi wisconsin wy wyoming");

    // What the second-order divisions of the United States are called (from memory); "City" is part of a name.
    private static readonly FrozenSet<string> Kinds =
        FrozenSet.ToFrozenSet(["county", "co", "cnty", "parish", "borough", "census", "area", "of"]);

    /// <summary>The county as it is compared: the same for "Harney Co., OR" and "Harney County, Oregon".</summary>
    public string Key => KeyOf(StateProvince, County);

    /// <summary>
    /// The key of a county; empty when county or state is missing, because a county's name alone may be that of
    /// several.
    /// </summary>
    /// <param name="stateProvince">The state or province as written.</param>
    /// <param name="county">The county as written.</param>
    public static string KeyOf(string stateProvince, string county)
    {
        var state = StateKey(stateProvince);
        var name = string.Concat(Words(county).Where(word => !Kinds.Contains(word)));
        var key = $"{state}/{name}";
        return state.Length == 0 || name.Length == 0 || key.Length > LongestKey ? "" : key;
    }

    /// <summary>Reads a county and its state with a comma between them, as "Harney, Oregon".</summary>
    /// <param name="text">What was written.</param>
    public static Reading<CountyName> Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var comma = text.IndexOf(',', StringComparison.Ordinal);
        if (comma < 0)
        {
            return Reading<CountyName>.Stopped(
                text, text.Length + 1,
                $"Write the state after \"{text.Trim()}\", as in \"Harney, Oregon\": other states may have a county of "
                + "that name.");
        }

        var name = new CountyName(text[..comma].Trim(), text[(comma + 1)..].Trim());
        return name.Key.Length > 0
            ? Reading<CountyName>.Of(text, name)
            : Reading<CountyName>.Stopped(
                text, comma + 1, $"\"{text.Trim()}\" is not a county and its state, as in \"Harney, Oregon\".");
    }

    private static string StateKey(string stateProvince)
    {
        var name = string.Concat(Words(stateProvince).Where(word => word is not ("state" or "province" or "of")));
        return Postal.GetValueOrDefault(name, name);
    }

    private static IEnumerable<string> Words(string text) => new string(
            [.. Folding.Fold(text).Select(letter => char.IsLetterOrDigit(letter) ? letter : ' ')])
        .Split(' ', StringSplitOptions.RemoveEmptyEntries)
        .Select(word => word is "saint" or "ste" or "sainte" ? "st" : word);

    private static FrozenDictionary<string, string> Pairs(string pairs) =>
        pairs.Split(' ').Chunk(2).ToFrozenDictionary(pair => pair[0], pair => pair[1]);
}
