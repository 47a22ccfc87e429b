namespace Accession.Storage.Tables;

/// <summary>Finds what stands between the cells of a text file.</summary>
internal static class Separators
{
    private const int LinesLookedAt = 20;

    /// <summary>The separators we know, the likelier first.</summary>
    private static readonly char[] Known = [',', ';', '\t', '|'];

    /// <summary>A first line such as <c>sep=;</c>, which spreadsheets write to tell each other.</summary>
    public static char? Hinted(string head)
    {
        var line = head.AsSpan(0, Math.Max(0, head.IndexOfAny(['\r', '\n']))).Trim('"');
        return line.Length == 5 && line.StartsWith("sep=", StringComparison.OrdinalIgnoreCase) ? line[4] : null;
    }

    /// <summary>
    /// The separator that comes equally often in the most lines; of two, the one that comes more often. Counted
    /// with quotes heeded and unheeded, because a lone inch mark would otherwise hide everything after it.
    /// </summary>
    public static char Detect(string head) =>
        Known.MaxBy(separator => Score(head, separator, heedQuotes: true) + Score(head, separator, heedQuotes: false));

    /// <summary>The name of a separator for people.</summary>
    public static string NameOf(char separator) => separator switch
    {
        ',' => "comma",
        ';' => "semicolon",
        '\t' => "tab",
        '|' => "vertical bar",
        _ => $"\"{separator}\"",
    };

    private static double Score(string head, char separator, bool heedQuotes)
    {
        var counts = new List<int>();
        var (count, length, quoted) = (0, 0, false);
        foreach (var c in head)
        {
            if (c is '\n' or '\r' && !quoted)
            {
                AddLine();
                if (counts.Count == LinesLookedAt)
                {
                    break;
                }

                continue;
            }

            length++;
            quoted ^= heedQuotes && c == '"';
            count += c == separator && !quoted ? 1 : 0;
        }

        AddLine();
        var usual = counts.Where(n => n > 0).CountBy(n => n).DefaultIfEmpty().MaxBy(pair => (pair.Value, pair.Key));
        return counts.Count == 0 ? 0 : ((double)usual.Value / counts.Count) + (Math.Min(usual.Key, 500) / 10_000.0);

        void AddLine()
        {
            if (length > 0)
            {
                counts.Add(count);
            }

            (count, length) = (0, 0);
        }
    }
}
