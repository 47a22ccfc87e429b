using System.Collections.Frozen;

namespace Accession.Core.Gatherings;

/// <summary>
/// The shapes that written dates have, and what each place in them means. A shape is the text with every number, month
/// and separator drawn as one letter: <c>24-25 July 1947</c> has the shape <c>N-NMY</c>.
/// </summary>
/// <remarks>
/// Shapes: Y a year, N a number of one or two digits, M a month by name or roman number; separators stand for
/// themselves, but not beside a month. Meanings, place by place: d, m, y the day, month and year; p and q two numbers
/// of which one is the day and one the month; capitals the same for the end of a range; &amp; a comma that joins two
/// days. What one end of a range lacks it takes from the other.
/// </remarks>
internal static class DateShapes
{
    /// <summary>The longest shape in the table.</summary>
    public const int Longest = 11;

    private static readonly FrozenDictionary<string, string> Meanings = new Dictionary<string, string>
    {
        ["Y"] = "y",
        ["Y-Y"] = "y-Y",
        ["Y/Y"] = "y-Y",

        ["Y-N"] = "y-m",
        ["Y/N"] = "y-m",
        ["Y.N"] = "y-m",
        ["N-Y"] = "m-y",
        ["N/Y"] = "m-y",
        ["N.Y"] = "m-y",
        ["Y-N/Y-N"] = "y-m-Y-M",
        ["Y-N-Y-N"] = "y-m-Y-M",
        ["MY"] = "my",
        ["YM"] = "ym",
        ["MMY"] = "mMy",
        ["MYMY"] = "myMY",

        ["Y-N-N"] = "y-m-d",
        ["Y/N/N"] = "y-m-d",
        ["Y.N.N"] = "y-m-d",
        ["YNN"] = "ymd",
        ["Y-N-N/N"] = "y-m-d-D",
        ["Y-N-N/N-N"] = "y-m-d-M-D",
        ["Y-N-N/Y-N-N"] = "y-m-d-Y-M-D",
        ["Y-N-N-Y-N-N"] = "y-m-d-Y-M-D",
        ["Y/N/N-Y/N/N"] = "y-m-d-Y-M-D",

        ["N-N-Y"] = "p-q-y",
        ["N/N/Y"] = "p-q-y",
        ["N.N.Y"] = "p-q-y",
        ["NNY"] = "pqy",
        ["N/NY"] = "p-qy",
        ["N-NY"] = "p-qy",
        ["N/N/Y-N/N/Y"] = "p-q-y-P-Q-Y",
        ["N.N.Y-N.N.Y"] = "p-q-y-P-Q-Y",
        ["N-N-Y-N-N-Y"] = "p-q-y-P-Q-Y",
        ["N/N-N/NY"] = "p-q-P-Qy",
        ["N/N-N/N/Y"] = "p-q-P-Q-y",
        ["N.N-N.N.Y"] = "p-q-P-Q-y",
        ["N-N.N.Y"] = "d-D-m-y",

        ["NMY"] = "dmy",
        ["MNY"] = "mdy",
        ["MN-Y"] = "md-y",
        ["MN/Y"] = "md-y",
        ["MN.Y"] = "md-y",
        ["YMN"] = "ymd",
        ["YNM"] = "ydm",

        ["N-NMY"] = "d-Dmy",
        ["N/NMY"] = "d-Dmy",
        ["N,NMY"] = "d&Dmy",
        ["MN-NY"] = "md-Dy",
        ["MN/NY"] = "md-Dy",
        ["MN,NY"] = "md&Dy",
        ["MN-N-Y"] = "md-D-y",
        ["MN-N/Y"] = "md-D-y",
        ["YMN-N"] = "ymd-D",
        ["NMNMY"] = "dmDMy",
        ["MNMNY"] = "mdMDy",
        ["NMYNMY"] = "dmyDMY",
        ["NMY-NMY"] = "dmy-DMY",
        ["NMY,NMY"] = "dmy&DMY",
        ["MNYMNY"] = "mdyMDY",

        // Without a year: known, so that the reason can be that, and not that nothing was understood.
        ["M"] = "m",
        ["MM"] = "mM",
        ["MN"] = "md",
        ["NM"] = "dm",
        ["N-NM"] = "d-Dm",
        ["N/NM"] = "d-Dm",
        ["MN-N"] = "md-D",
        ["NMNM"] = "dmDM",
        ["MNMN"] = "mdMD",
        ["N/N"] = "p-q",
        ["N.N"] = "p-q",
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, string>.AlternateLookup<ReadOnlySpan<char>> Lookup =
        Meanings.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>
    /// What each place means; null when dates do not look like that. A year of two digits looks like any number; it is
    /// taken for one, and redrawn as one, where nothing else would make a date.
    /// </summary>
    public static string? MeaningOf(Span<DateToken> tokens)
    {
        Span<char> shape = stackalloc char[tokens.Length];
        Draw(tokens, shape);
        if (shape.IsEmpty)
        {
            return null;
        }

        var meaning = Find(shape);
        if (meaning is not null && (meaning.Contains('y', StringComparison.Ordinal) || tokens[^1].Value <= 31))
        {
            return meaning;
        }

        // 94/05/03 can only begin with its year, June 15, 96 can only end with it.
        var place = tokens[0] is { Shape: 'N', Digits: 2, Value: > 31 } ? 0 : tokens.Length - 1;
        if (tokens[place] is not { Shape: 'N', Digits: 2 } || shape.Contains('Y'))
        {
            return meaning;
        }

        tokens[place] = tokens[place] with { Shape = 'Y' };
        if (place >= 2 && tokens[place - 1].Shape == ',')
        {
            tokens[place - 1] = tokens[place - 1] with { Shape = '.' };
        }

        Draw(tokens, shape);
        return Find(shape);
    }

    /// <summary>How many places from the left could still be a date: where reading stopped.</summary>
    public static int Understood(ReadOnlySpan<DateToken> tokens)
    {
        Span<char> shape = stackalloc char[tokens.Length];
        Draw(tokens, shape);
        for (var length = Math.Min(shape.Length, Longest); length > 0; length--)
        {
            foreach (var known in Meanings.Keys)
            {
                if (known.AsSpan().StartsWith(shape[..length]))
                {
                    return length;
                }
            }
        }

        return 0;
    }

    private static string? Find(ReadOnlySpan<char> shape) =>
        Lookup.TryGetValue(shape, out var meaning) ? meaning : null;

    private static void Draw(ReadOnlySpan<DateToken> tokens, Span<char> shape)
    {
        for (var i = 0; i < tokens.Length; i++)
        {
            shape[i] = tokens[i].Shape;
        }
    }
}
