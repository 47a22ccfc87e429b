namespace Accession.Storage.Tables.Archives;

/// <summary>
/// A table whose rows belong to rows of the list: what they say stands beside those to the letter, in one cell.
/// </summary>
/// <param name="Source">The table.</param>
/// <param name="Heading">The heading of that cell.</param>
/// <param name="Added">Columns that the list has from this table alone.</param>
internal sealed record JoinedTable(ArchiveSource Source, string Heading, IReadOnlyList<ArchiveColumn> Added)
{
    private string[]? _names;

    /// <summary>The key of a row; empty when it has none.</summary>
    public string KeyOf(RawRow row) =>
        Source.Table.Key is { } key && key < row.Cells.Count ? row.Cells[key] : "";

    /// <summary>Keeps the rows by their keys: the text first, then the added columns.</summary>
    public JoinedRows Keep()
    {
        var kept = new JoinedRows();
        try
        {
            foreach (var row in Source.Rows())
            {
                if (row.Refusal is null && KeyOf(row) is { Length: > 0 } key)
                {
                    kept.Add(key, [TextOf(row.Cells), .. Added.Select(column => column.Of(row.Cells))]);
                }
            }

            return kept;
        }
        catch
        {
            kept.Dispose();
            throw;
        }
    }

    /// <summary>What a row says, such as "identifiedBy: A. Orm; dateIdentified: 2025-11".</summary>
    private string TextOf(IReadOnlyList<string> cells)
    {
        _names ??= NamesOf(Math.Max(Source.Width, Source.Table.CellsSpokenOf));
        List<string> said = [];
        for (var i = 0; i < Math.Max(cells.Count, _names.Length); i++)
        {
            var field = Source.Table.Fields.FirstOrDefault(one => one.Index == i);
            var text = i < cells.Count && cells[i].Length > 0 ? cells[i] : field?.Default ?? "";
            if (text.Length > 0 && (i != Source.Table.Key || field is not null))
            {
                said.Add($"{(i < _names.Length ? _names[i] : $"column {i + 1}")}: {text}");
            }
        }

        said.AddRange(Source.Table.Fields.Where(field => field.Index is null && field.Default is not null)
            .Select(field => $"{field.Name}: {field.Default}"));
        return string.Join("; ", said);
    }

    private string[] NamesOf(int width) =>
    [
        .. Enumerable.Range(0, width).Select(i =>
            Source.Table.Fields.FirstOrDefault(field => field.Index == i)?.Name ?? $"column {i + 1}"),
    ];
}
