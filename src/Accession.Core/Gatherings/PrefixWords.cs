namespace Accession.Core.Gatherings;

/// <summary>Tells a person's name or a field's label before a number from the letters of a series.</summary>
internal static class PrefixWords
{
    private const int ShortestName = 3;    // small letters after a capital: "Brill" is a name, "Eth" a series
    private const int ShortestWord = 5;    // small letters alone: "field" is a word, "jkt" a series

    /// <summary>Whether the prefix is words.</summary>
    public static bool Are(ReadOnlySpan<char> prefix)
    {
        var run = 0;
        var isCapital = false;
        var follows = false;
        foreach (var c in prefix)
        {
            run = char.IsLower(c) ? run + 1 : 0;
            follows = run == 1 ? isCapital : follows;
            isCapital = char.IsUpper(c);
            if (run >= (follows ? ShortestName : ShortestWord))
            {
                return true;
            }
        }

        return false;
    }
}
