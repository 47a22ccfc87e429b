using System.Collections.Frozen;

namespace Accession.Core.Matching;

/// <summary>Countries, states and counties as they are compared: without words that only say what they are.</summary>
internal static class RegionKey
{
    private static readonly FrozenSet<string> Kinds = FrozenSet.ToFrozenSet(
    [
        "co", "cnty", "county", "parish", "mpio", "mun", "municipality", "canton", "cant", "dist", "distr", "district",
        "dto", "distrito", "provincia", "province", "prov", "departamento", "department", "dept", "dpto", "state",
        "estado", "edo", "kreis", "landkreis", "borough", "regional", "mrc", "reg", "region",
    ]);

    private static readonly FrozenSet<string> HalfNames = FrozenSet.ToFrozenSet(
    [
        "new", "nuevo", "nueva", "n", "s", "e", "w", "san", "santa", "santo", "st", "baja", "british", "r", "nova",
        "port", "puerto", "grand", "big", "upper", "lower", "prince", "rhode", "costa",
    ]);

    /// <summary>
    /// A state or province by the first word of its name, or the first two where the first is half a name ("New"):
    /// the long official names are seldom written out. 0 when missing or abbreviated to two letters.
    /// </summary>
    public static ushort OfState(string state)
    {
        var words = Words(state);
        return words is [] or [{ Length: <= 2 }]
            ? (ushort)0
            : StableHash.Short(words.Count > 1 && HalfNames.Contains(words[0]) ? words[0] + words[1] : words[0]);
    }

    /// <summary>A county or municipality by its whole name; 0 when missing.</summary>
    public static ushort OfCounty(string county)
    {
        var words = Words(county);
        return words.Count == 0 ? (ushort)0 : StableHash.Short(string.Concat(words));
    }

    /// <summary>A country by its code, or by its name where the code is not known; 0 when missing.</summary>
    public static ushort OfCountry(string code, string name) =>
        StableHash.Short(code.Length > 0 ? code : string.Concat(PlaceWords.WordsOf(name)));

    private static List<string> Words(string text)
    {
        var bracket = text.IndexOf('(', StringComparison.Ordinal);
        return [.. PlaceWords.WordsOf(bracket > 0 ? text[..bracket] : text).Where(word => !Kinds.Contains(word))];
    }
}
