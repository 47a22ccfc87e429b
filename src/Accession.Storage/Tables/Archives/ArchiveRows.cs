namespace Accession.Storage.Tables.Archives;

/// <summary>
/// The rows of an archive as those of one list: each row of the table that holds the vouchers, with what the other
/// tables say of it.
/// </summary>
internal sealed class ArchiveRows(
    ArchiveSource own, bool isCore, IReadOnlyList<ArchiveColumn> columns, IReadOnlyList<JoinedTable> others,
    TableLimits limits)
{
    private int? KeyColumn => own.Table.Key;

    /// <summary>Reads from the beginning.</summary>
    public IEnumerable<RawRow> All()
    {
        List<JoinedRows> kept = [];
        try
        {
            kept.AddRange(others.Select(other => other.Keep()));
            var seen = new Dictionary<ulong, int>();
            foreach (var raw in own.Rows())
            {
                yield return raw.Refusal is null ? Shaped(raw, kept, seen) : raw;
            }
        }
        finally
        {
            kept.ForEach(table => table.Dispose());
        }
    }

    private RawRow Shaped(RawRow raw, List<JoinedRows> kept, Dictionary<ulong, int> seen)
    {
        if (raw.HasBrokenQuotes && raw.Cells.Count != own.Width)
        {
            return raw with
            {
                Refusal = $"Quotation marks stand where they cannot, and {raw.Cells.Count} cells were found where "
                    + $"{own.Width} belong.",
            };
        }

        List<(int, string, string)> remarks = [];
        NoteWidth(raw, remarks);
        var key = KeyColumn is { } column && column < raw.Cells.Count ? raw.Cells[column] : "";
        NoteKey(raw, key, remarks, seen);
        List<string> cells = [.. columns.Select(one => one.Of(raw.Cells))];
        for (var i = 0; i < others.Count; i++)
        {
            Join(others[i], key.Length == 0 ? [] : [.. kept[i].Of(key)], cells, remarks);
        }

        return raw with { Cells = cells, Remarks = remarks };
    }

    private void NoteWidth(RawRow raw, List<(int, string, string)> remarks)
    {
        var all = string.Join(" | ", raw.Cells);
        var spokenOf = Math.Min(own.Table.CellsSpokenOf, own.Width);
        if (raw.Cells.Count < spokenOf)
        {
            remarks.Add((-1, all, $"The row has only {raw.Cells.Count} cells; meta.xml speaks of {spokenOf}. Was it "
                + "cut off?"));
        }
        else if (raw.Cells.Skip(own.Width).Any(cell => cell.Length > 0))
        {
            remarks.Add((-1, string.Join(" | ", raw.Cells.Skip(own.Width)),
                $"The row has {raw.Cells.Count} cells and the others {own.Width}. Is a separator too many in it?"));
        }
    }

    // Only the core's key must be its own: any number of an extension's rows belong to one row.
    private void NoteKey(RawRow raw, string key, List<(int, string, string)> remarks, Dictionary<ulong, int> seen)
    {
        if (KeyColumn is null || own.KeyIsBeyond)
        {
            return;
        }

        if (key.Length == 0)
        {
            remarks.Add((PlaceOf(KeyColumn.Value), "", others.Count == 0
                ? "The row has no id."
                : "The row has no id, so nothing in the archive's other files can belong to it."));
        }
        else if (isCore && !seen.TryAdd(JoinedRows.HashOf(key), raw.Line))
        {
            remarks.Add((-1, key, $"Line {seen[JoinedRows.HashOf(key)]} has this id already. One id is one record: ask "
                + "the sender which of the rows holds."));
        }
    }

    private int PlaceOf(int index) => columns.ToList().FindIndex(column => column.Index == index);

    private void Join(
        JoinedTable other, List<IReadOnlyList<string>> rows, List<string> cells, List<(int, string, string)> remarks)
    {
        // In whatever order they came: an archive that was only sorted anew is the same.
        var texts = rows.Select(row => row[0]).Order(StringComparer.Ordinal).ToList();
        var (length, fitting) = (0, 0);
        while (fitting < texts.Count && length + texts[fitting].Length < limits.MaximumCellLength)
        {
            length += texts[fitting++].Length + 1;
        }

        if (fitting < texts.Count)
        {
            remarks.Add((cells.Count, texts[fitting], $"{texts.Count - fitting} of {texts.Count} rows of "
                + $"{other.Source.Table.Names} do not fit in one cell: they are kept in the archive alone."));
        }

        cells.Add(string.Join('\n', texts.Take(fitting)));
        for (var i = 0; i < other.Added.Count; i++)
        {
            cells.Add(rows.Count == 0 ? "" : rows[0][i + 1]);
        }
    }
}
