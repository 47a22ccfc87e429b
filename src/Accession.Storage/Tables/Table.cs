namespace Accession.Storage.Tables;

/// <summary>
/// A list that could be opened. It holds no open file: <see cref="Rows"/> reads from the beginning each time it
/// is enumerated, one row in memory at a time.
/// </summary>
public sealed class Table
{
    private readonly TableSource _source;
    private readonly Headings _headings;
    private readonly TableLimits _limits;

    internal Table(TableSource source, Headings headings, TableLimits limits)
    {
        (_source, _headings, _limits) = (source, headings, limits);
        Notes = [.. source.Notes, .. headings.Notes];
    }

    /// <summary>What the file is, such as "CSV, semicolon" or "XLSX, sheet List".</summary>
    public string Format => _source.Format;

    /// <summary>How its letters are written and how we know: to be shown beside the first rows.</summary>
    public string Encoding => _source.Encoding;

    /// <summary>One name for each column; a missing one is named after its place.</summary>
    public IReadOnlyList<string> Headers => _headings.Names;

    /// <summary>The line on which the headings begin.</summary>
    public int HeaderLine => _headings.Line;

    /// <summary>The line on which they end: a heading may hold line breaks.</summary>
    public int LastHeaderLine => _headings.LastLine;

    /// <summary>What a person should know about the file as a whole: titles, other sheets, missing headings.</summary>
    public IReadOnlyList<TableProblem> Notes { get; }

    /// <summary>
    /// Reads the rows below the headings, in order. Every line on which something stands is in exactly one row,
    /// read or refused; only blank lines are passed over.
    /// </summary>
    /// <param name="tally">Counts along, to prove that nothing was lost; null when not wanted.</param>
    public IEnumerable<TableRow> Rows(TableTally? tally = null)
    {
        foreach (var raw in _source.Rows())
        {
            if (raw.Line <= _headings.LastLine || raw.IsBlank)
            {
                continue;
            }

            var row = Shape(raw);
            if (tally is not null)
            {
                tally.Read += row.IsRefused ? 0 : 1;
                tally.Refused += row.IsRefused ? 1 : 0;
                tally.LastLine = row.LastLine;
            }

            yield return row;
        }
    }

    private TableRow Shape(RawRow raw)
    {
        if (RefusalOf(raw) is { } refusal)
        {
            var text = raw.Text.Length > 0 ? raw.Text : string.Join(" | ", raw.Cells);
            return new(raw.Line, raw.LastLine, [], [new(raw.Line, null, null, TableProblem.Cut(text), refusal)], true);
        }

        var problems = new List<TableProblem>();
        var cells = new string[Headers.Count];
        for (var i = 0; i < cells.Length; i++)
        {
            var written = i < raw.Cells.Count ? raw.Cells[i] : "";
            cells[i] = CellText.Clean(written, out var fault);
            if (fault is not null)
            {
                problems.Add(new(raw.Line, i + 1, Headers[i], TableProblem.Cut(written), fault));
            }
        }

        problems.AddRange(raw.Remarks.Select(remark => At(raw, remark.Column, remark.Text, remark.Reason)));
        AddWidthProblem(raw, problems);
        return new(raw.Line, raw.LastLine, cells, problems, false) { DateColumns = raw.DateColumns };
    }

    private string? RefusalOf(RawRow raw)
    {
        if (raw.Refusal is not null)
        {
            return raw.Refusal;
        }

        if (raw.HasBrokenQuotes && raw.Cells.Count != Headers.Count)
        {
            return $"Quotation marks stand where they cannot, and {raw.Cells.Count} cells were found "
                + $"for {Headers.Count} headings.";
        }

        var tooLong = raw.Cells.FirstOrDefault(cell => cell.Length > _limits.MaximumCellLength);
        return tooLong is not null
            ? $"A cell has {tooLong.Length:N0} characters; {_limits.MaximumCellLength:N0} are allowed."
            : _headings.StandAgainIn(raw.Cells) ? "This is the heading line again." : null;
    }

    private void AddWidthProblem(RawRow raw, List<TableProblem> problems)
    {
        if (raw.HasBrokenQuotes)
        {
            problems.Add(At(raw, -1, raw.Text, "A quotation mark is closed in the middle of a cell."));
        }

        var extra = raw.Cells.Skip(Headers.Count).Where(cell => cell.Length > 0).ToList();
        if (extra.Count > 0)
        {
            problems.Add(At(raw, -1, string.Join(" | ", extra),
                $"The row has {raw.Cells.Count} cells for {Headers.Count} headings. Is a separator too many in it?"));
        }
        else if (raw.Cells.Count < Headers.Count && _source.ReportsShortRows)
        {
            problems.Add(At(raw, -1, string.Join(" | ", raw.Cells),
                $"The row has only {raw.Cells.Count} cells for {Headers.Count} headings. Was it cut off?"));
        }
    }

    private TableProblem At(RawRow raw, int column, string text, string reason) => new(
        raw.Line,
        column < 0 ? null : column + 1,
        column >= 0 && column < Headers.Count ? Headers[column] : null,
        TableProblem.Cut(text),
        reason);
}
