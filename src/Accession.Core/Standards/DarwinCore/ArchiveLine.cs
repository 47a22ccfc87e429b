namespace Accession.Core.Standards.DarwinCore;

/// <summary>
/// How a line of an archive is written. A query that builds whole lines in the database must give the same characters.
/// </summary>
public static class ArchiveLine
{
    /// <summary>What separates two cells. It cannot occur in a cell.</summary>
    public const string CellSeparator = "\t";

    /// <summary>What ends a line, the last one too. It cannot occur in a cell.</summary>
    public const string LineEnd = "\n";

    /// <summary>What separates several values in one cell, as Darwin Core recommends.</summary>
    public const string ListSeparator = " | ";

    /// <summary>
    /// The text of a cell by the rule of <see cref="OneLine"/>: tabs, line breaks and other control characters become
    /// spaces. Quotes stay as they are, because nothing is quoted.
    /// </summary>
    /// <param name="text">Any text; null is an empty cell.</param>
    public static string Cell(string? text) => OneLine.Of(text);

    /// <summary>A line of cells, with its line feed.</summary>
    /// <param name="cells">The texts from left to right; null is an empty cell.</param>
    public static string Of(IEnumerable<string?> cells) =>
        string.Join(CellSeparator, cells.Select(Cell)) + LineEnd;

    /// <summary>Several values as one cell; empty ones are left out.</summary>
    /// <param name="values">
    /// The values in their order. A vertical bar within one is kept, so a reader may split there.
    /// </param>
    public static string List(IEnumerable<string?> values) =>
        string.Join(ListSeparator, values.Where(value => !string.IsNullOrWhiteSpace(value)).Select(Cell));
}
