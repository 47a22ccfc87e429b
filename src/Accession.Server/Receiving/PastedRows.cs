using System.Text;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage.Tables;

namespace Accession.Server.Receiving;

/// <summary>
/// Rows that somebody copied in a spreadsheet and pasted here. They become a file of text, to the letter; where no line
/// of headings was copied along, one is written above them.
/// </summary>
public sealed class PastedRows
{
    /// <summary>More than any block that a person copies: 200 rows of 12 cells have some thirty thousand.</summary>
    public const int MostCharacters = 1_000_000;

    private const int LinesLookedAt = 200;

    private PastedRows(Table table, byte[] file, bool hasHeadings, ColumnMatch match) =>
        (Table, File, HasHeadings, Match) = (table, file, hasHeadings, match);

    public Table Table { get; }

    /// <summary>The file that the list is kept as, in UTF-8.</summary>
    public byte[] File { get; }

    /// <summary>Whether the first line was taken as headings.</summary>
    public bool HasHeadings { get; }

    /// <summary>What each column is taken to mean.</summary>
    public ColumnMatch Match { get; }

    /// <summary>Reads pasted text, or says why it is no table.</summary>
    /// <param name="text">What was pasted.</param>
    /// <param name="hasHeadings">Whether its first line are headings; null to see whether they look like some.</param>
    /// <param name="remembered">What the columns of this source meant before, as JSON.</param>
    /// <param name="carriesNumbers">Whether the sheets bear the numbers that they keep.</param>
    /// <param name="limits">How much is read.</param>
    public static Outcome<PastedRows> Read(
        string text, bool? hasHeadings, string remembered, bool carriesNumbers, TableLimits limits)
    {
        if (text.Length > MostCharacters)
        {
            return new Refusal(RefusalKind.Invalid,
                $"{text.Length:N0} characters were pasted; {MostCharacters:N0} are taken at once. Send the list as a "
                + "file instead.");
        }

        if (string.IsNullOrWhiteSpace(text))
        {
            return new Refusal(RefusalKind.Invalid, "Nothing was pasted. Copy the rows in the spreadsheet first.");
        }

        // A row of data may well be refused as headings, for two of its cells may be alike.
        var asCopied = Open(text, remembered, carriesNumbers, limits, withHeadings: true);
        return hasHeadings ?? (!asCopied.IsRefused && LooksLikeHeadings(asCopied.Value))
            ? asCopied
            : Open(text, remembered, carriesNumbers, limits, withHeadings: false);
    }

    private static bool LooksLikeHeadings(PastedRows read) =>
        read.Match.Columns.Count(column => column.Field is not null) >= Math.Max(2, read.Match.Columns.Count / 3);

    private static Outcome<PastedRows> Open(
        string text, string remembered, bool carriesNumbers, TableLimits limits, bool withHeadings)
    {
        var file = Encoding.UTF8.GetBytes(withHeadings ? text : $"{HeadingsFor(text)}\r\n{text}");
        var opened = TableReader.Open(() => new MemoryStream(file), limits);
        return opened.IsRefused
            ? opened.Refusals.ToList()
            : new PastedRows(
                opened.Value, file, withHeadings,
                ColumnMatch.Propose(opened.Value.Headers, ListColumns.Remembered(remembered), carriesNumbers));
    }

    private static string HeadingsFor(string text)
    {
        var separator = TableReader.SeparatorOf(text);
        var columns = text.Split('\n').Take(LinesLookedAt).Max(line => line.Count(c => c == separator)) + 1;
        return string.Join(separator, Enumerable.Range(1, columns).Select(column => $"Column {column}"));
    }
}
