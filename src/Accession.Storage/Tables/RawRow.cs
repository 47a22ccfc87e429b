namespace Accession.Storage.Tables;

/// <summary>A row as the file has it, before headings are known: what both kinds of file are brought to.</summary>
internal sealed record RawRow(int Line, int LastLine, IReadOnlyList<string> Cells)
{
    /// <summary>Why the row as a whole cannot be read; null when it can.</summary>
    public string? Refusal { get; init; }

    /// <summary>The text of a row that cannot be read, or only in doubt.</summary>
    public string Text { get; init; } = "";

    /// <summary>Whether quotation marks stand where they cannot: a wrong number of cells is then no row.</summary>
    public bool HasBrokenQuotes { get; init; }

    /// <summary>Whether a mark was left open and lines were swallowed for it: the row must not be believed.</summary>
    public bool LeavesQuoteOpen { get; init; }

    /// <summary>Remarks on single cells, each with its column from 0, or -1 for the row.</summary>
    public IReadOnlyList<(int Column, string Text, string Reason)> Remarks { get; init; } = [];

    /// <summary>Columns, from 0, that the spreadsheet holds as dates.</summary>
    public IReadOnlyList<int> DateColumns { get; init; } = [];

    /// <summary>How many cells have something in them.</summary>
    public int Filled => Cells.Count(c => c.Length > 0);

    /// <summary>Whether nothing stands in the row and nothing is to be said about it.</summary>
    public bool IsBlank => Refusal is null && Remarks.Count == 0 && Filled == 0;
}
