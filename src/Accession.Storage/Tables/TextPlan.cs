using CsvHelper;

namespace Accession.Storage.Tables;

/// <summary>
/// The way in which a text file gives the most rows. It is found by reading the file once before the rows are
/// handed out: a quotation mark that is never closed would otherwise swallow the rows behind it without a word.
/// </summary>
/// <param name="Quoting">What a quotation mark means.</param>
/// <param name="Aside">Lines whose marks would swallow others, or which are too long.</param>
/// <param name="Rows">How many rows there are.</param>
/// <param name="Short">How many rows have fewer cells than most.</param>
/// <param name="Broken">How many rows do not have the usual number of cells, or have broken marks.</param>
internal sealed record TextPlan(
    Quoting Quoting,
    IReadOnlySet<int> Aside,
    int Rows,
    int Short,
    int Broken)
{
    /// <summary>Each line set aside costs one more reading of what precedes it.</summary>
    private const int MostSetAside = 20;

    /// <summary>
    /// Finds the way. In a tab-separated file the marks are ordinary letters unless taking them as enclosing
    /// leaves fewer rows broken: exports write them freely, and spreadsheets enclose cells with line breaks.
    /// </summary>
    public static TextPlan? Of(TextFile file)
    {
        var enclosing = Try(file, Quoting.Enclosing) ?? Try(file, Quoting.EachLine);
        if (file.Separator != '\t')
        {
            return enclosing;
        }

        var ordinary = Try(file, Quoting.Ordinary);
        return enclosing is null || ordinary?.Broken <= enclosing.Broken ? ordinary : enclosing;
    }

    /// <summary>
    /// Reads to the first line that swallows others, sets that line aside and begins again; null when there are
    /// too many of them.
    /// </summary>
    private static TextPlan? Try(TextFile file, Quoting quoting)
    {
        var aside = new HashSet<int>();
        while (aside.Count <= MostSetAside)
        {
            var (plan, swallower) = Scan(file, quoting, aside);
            if (swallower is not { } line)
            {
                return plan;
            }

            if (!aside.Add(line))
            {
                return null;
            }
        }

        return null;
    }

    private static (TextPlan? Plan, int? Swallower) Scan(TextFile file, Quoting quoting, HashSet<int> aside)
    {
        var widths = new Dictionary<int, int>();
        int rows = 0, broken = 0;
        try
        {
            foreach (var row in file.Rows(quoting, aside))
            {
                if (row.LeavesQuoteOpen)
                {
                    return (null, row.Line);
                }

                rows++;
                broken += row.Refusal is not null || row.HasBrokenQuotes ? 1 : 0;
                if (row.Refusal is null && row.Filled > 0)
                {
                    widths[row.Cells.Count] = widths.GetValueOrDefault(row.Cells.Count) + 1;
                }
            }
        }
        catch (CsvFormatException tooLong)
        {
            return (null, (int)tooLong.LineNumber);
        }

        var usual = widths.DefaultIfEmpty().MaxBy(pair => pair.Value);
        var shorter = widths.Where(pair => pair.Key < usual.Key).Sum(pair => pair.Value);
        broken += widths.Values.Sum() - usual.Value;
        return (new(quoting, aside, rows, shorter, broken), null);
    }
}
