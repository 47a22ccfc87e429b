namespace Accession.Core.Gatherings;

/// <summary>Signs that only say "a number follows": No., Nr., n°, N:o, #.</summary>
internal static class NumberSign
{
    private static readonly string[] Signs =
    [
        "no.", "no", "nr.", "nr", "n°", "nº", "n:o", "nro.", "nro", "num.", "núm.", "number", "número", "nos.", "n.º",
        "n.", "#",
    ];

    /// <summary>Cuts a sign off the beginning, where digits or s.n. follow it.</summary>
    public static ReadOnlySpan<char> Cut(ReadOnlySpan<char> text)
    {
        foreach (var sign in Signs)
        {
            if (!text.StartsWith(sign, StringComparison.OrdinalIgnoreCase))
            {
                continue;
            }

            var rest = text[sign.Length..].TrimStart(" .:");
            var isSign = rest.Length > 0 && char.IsAsciiDigit(rest[0])
                && (sign.Length > 2 || sign == "#" || sign is "no" or "nr" or "n°" or "nº");
            if (isSign)
            {
                return rest;
            }
        }

        return text;
    }

    /// <summary>
    /// The prefix without a sign before a code in capitals: "No. KB" and "#KB" are the KB of KB-1204. Before words the
    /// sign stays, because they are the label of a field.
    /// </summary>
    public static ReadOnlySpan<char> CutFromBeginning(ReadOnlySpan<char> prefix)
    {
        const int LongestCode = 5;
        foreach (var sign in Signs)
        {
            if (!prefix.StartsWith(sign, StringComparison.OrdinalIgnoreCase))
            {
                continue;
            }

            // "NOB-12" is a code of its own: without a stop a space must follow the letters.
            var rest = prefix[sign.Length..];
            var isDivided = !char.IsLetter(sign[^1]) || (rest.Length > 0 && rest[0] is ' ' or ':');
            rest = rest.TrimStart(" .:");
            if (isDivided && rest.Length is > 0 and <= LongestCode && !rest.ContainsAnyExceptInRange('A', 'Z'))
            {
                return rest;
            }
        }

        return prefix;
    }

    /// <summary>The prefix without a sign at its end ("Brill No." before 77) and without dividing signs.</summary>
    public static ReadOnlySpan<char> CutFromEnd(ReadOnlySpan<char> prefix)
    {
        prefix = prefix.TrimEnd(" -_/#,([");
        foreach (var sign in Signs)
        {
            var start = prefix.Length - sign.Length;
            if (start > 0 && sign.Length > 1 && prefix[start - 1] == ' ' && sign is not ("n." or "number")
                && prefix[start - 2 < 0 ? 0 : start - 2] != '.'   // "FLD. NO." is the label of a field: it stays whole
                && prefix.EndsWith(sign, StringComparison.OrdinalIgnoreCase))
            {
                prefix = prefix[..start].TrimEnd(" ,.-");
                break;
            }
        }

        // The stop of a code divides ("W.812"); after words it belongs to them ("Torvald Jr.").
        return prefix.Contains(' ') ? prefix : prefix.TrimEnd(".:");
    }
}
