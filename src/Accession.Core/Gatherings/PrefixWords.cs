namespace Accession.Core.Gatherings;

/// <summary>Tells a person's name or a field's label before a number from the letters of a series.</summary>
internal static class PrefixWords
{
    private const int ShortestName = 3;   // small letters that a name has at least: "Pell"; series have "Eth" at most

    /// <summary>Whether the prefix is words.</summary>
    public static bool Are(ReadOnlySpan<char> prefix)
    {
        var run = 0;
        foreach (var c in prefix)
        {
            run = char.IsLower(c) ? run + 1 : 0;
            if (run >= ShortestName)
            {
                return true;
            }
        }

        return false;
    }
}
