using System.Text;
using CsvHelper;

namespace Accession.Storage.Tables;

/// <summary>A text file with separators, read row by row in one way; <see cref="TextPlan"/> finds the way.</summary>
internal sealed record TextFile(Func<Stream> Open, TextEncoding Encoding, char Separator, TableLimits Limits)
{
    private const int BlockSize = 1 << 16;

    /// <summary>Reads the rows. Each call opens the file anew, and nothing but the current row is held.</summary>
    public IEnumerable<RawRow> Rows(Quoting quoting, IReadOnlySet<int> aside)
    {
        using var lines = new SetAsideReader(
            new StreamReader(Open(), Encoding.Encoding, detectEncodingFromByteOrderMarks: true, BlockSize), aside);
        CsvMalformedRecord? found = null;
        using var reader = CsvReader.Create(lines, Options(quoting) with { OnMalformedRecord = m => found = m }, true);

        while (reader.Read())
        {
            var line = (int)reader.LineNumber;
            while (lines.TryTake(line, out var dropped))
            {
                yield return Refused(dropped);
            }

            yield return RowOf(reader, quoting, line, found?.LineNumber == line ? found.Value.Reason : null);
        }

        while (lines.TryTake(int.MaxValue, out var dropped))
        {
            yield return Refused(dropped);
        }
    }

    private CsvReaderOptions Options(Quoting quoting) => CsvReaderOptions.Default with
    {
        Separator = Separator,
        HasHeader = false,
        Mode = quoting == Quoting.Ordinary ? CsvMode.NoEscape : CsvMode.Rfc4180,
        AllowLineBreaksInQuotes = quoting == Quoting.Enclosing,
        TrimWhitespace = quoting != Quoting.Ordinary,   // or a quote after a space would not enclose
        DetectSeparatorHint = false,
        TrackLineNumbers = true,
        MaxRecordSize = Limits.MaximumRowBytes,
        BufferSize = BlockSize,
    };

    private RawRow RowOf(CsvReader reader, Quoting quoting, int line, CsvMalformedReason? malformed)
    {
        var raw = reader.RawRecord;
        var last = line + LineBreaks(raw);
        if (malformed == CsvMalformedReason.LineBreakInQuotes)
        {
            return new(line, last, [])
            {
                Refusal = "A quotation mark is opened in this line and not closed.",
                Text = System.Text.Encoding.UTF8.GetString(raw),
            };
        }

        var doubtful = malformed is CsvMalformedReason.TextAfterClosingQuote or CsvMalformedReason.UnterminatedQuote;
        var cells = new string[reader.FieldCount];
        var remarks = new List<(int, string, string)>();
        for (var i = 0; i < cells.Length; i++)
        {
            cells[i] = CellOf(reader, i, quoting, doubtful);
            if (last > line && HoldsWholeRow(cells[i], cells.Length))
            {
                remarks.Add((i, cells[i],
                    "This cell runs over several lines and holds as much as a row: is a quotation mark missing?"));
            }
        }

        return new(line, last, cells)
        {
            Remarks = remarks,
            HasBrokenQuotes = doubtful,
            LeavesQuoteOpen = malformed == CsvMalformedReason.UnterminatedQuote || (doubtful && last > line),
            Text = doubtful ? System.Text.Encoding.UTF8.GetString(raw) : "",
        };
    }

    /// <summary>
    /// A cell that is wholly and properly in quotation marks stands without them, even where they are ordinary
    /// letters; any other keeps every mark it has. Otherwise <c>"Old mill" road</c> would lose two.
    /// </summary>
    private static string CellOf(CsvReader reader, int index, Quoting quoting, bool doubtful)
    {
        if (!doubtful && quoting != Quoting.Ordinary)
        {
            return SpreadsheetText(reader.GetString(index).Trim());
        }

        var written = System.Text.Encoding.UTF8.GetString(reader.GetRawSpan(index)).Trim();
        if (written is not ['"', .., '"'])
        {
            return written;
        }

        var inner = written[1..^1];
        return inner.Replace("\"\"", "", StringComparison.Ordinal).Contains('"', StringComparison.Ordinal)
            ? written
            : SpreadsheetText(inner.Replace("\"\"", "\"", StringComparison.Ordinal).Trim());
    }

    /// <summary><c>="00123"</c> is how people make a spreadsheet keep leading zeros; what they see is 00123.</summary>
    private static string SpreadsheetText(string cell) =>
        cell is ['=', '"', .., '"'] && cell.AsSpan(2, cell.Length - 3).Contains('"') is false ? cell[2..^1] : cell;

    /// <summary>
    /// Where a missing mark joins two lines in one cell, that cell holds the end of one row and the beginning of
    /// the next, which is just one row's number of separators for each line break.
    /// </summary>
    private bool HoldsWholeRow(string cell, int cells)
    {
        var text = cell.AsSpan();
        var breaks = text.Count('\n') + text.Count('\r') - text.Count("\r\n");
        return breaks > 0 && cells > 2 && text.Count(Separator) >= (cells - 1) * breaks;
    }

    private RawRow Refused(AsideLine dropped) => new(dropped.Line, dropped.Line, [])
    {
        Refusal = dropped.Length * 3 > Limits.MaximumRowBytes
            ? $"This line has {dropped.Length:N0} characters, more than a row may have."
            : "A quotation mark is opened in this line and not closed, or closed in the middle of a cell.",
        Text = dropped.Text,
    };

    private static int LineBreaks(ReadOnlySpan<byte> raw) =>
        raw.Count((byte)'\n') + raw.Count((byte)'\r') - raw.Count("\r\n"u8);
}
