namespace Accession.Storage.Tables.Archives;

/// <summary>
/// Reads an archive once before its rows are handed out, and says of every row of every table what becomes of it.
/// </summary>
internal sealed class ArchiveAccount(ArchiveSource own, IReadOnlyList<JoinedTable> others, bool isCore)
{
    private const int MostToldApart = 100;

    private readonly List<TableProblem> _notes = [];

    /// <summary>Reads all tables.</summary>
    /// <returns>What a person should know about the archive as a whole.</returns>
    public List<TableProblem> Draw()
    {
        var keys = new HashSet<ulong>();
        foreach (var row in own.Rows())
        {
            if (own.Table.Key is { } key && key < row.Cells.Count && row.Cells[key].Length > 0)
            {
                keys.Add(JoinedRows.HashOf(row.Cells[key]));
            }
        }

        foreach (var told in own.LinesOfFiles(own.LastLines))
        {
            Note(told);
        }

        foreach (var other in others)
        {
            TellOf(other, keys);
        }

        return _notes;
    }

    private void TellOf(JoinedTable other, HashSet<ulong> keys)
    {
        var names = other.Source.Table.Names;
        var isParent = !isCore && ReferenceEquals(other, others[0]);
        var (kept, strays) = (0, 0);
        foreach (var row in other.Source.Rows())
        {
            var key = other.KeyOf(row);
            if (row.Refusal is null && key.Length > 0 && keys.Contains(JoinedRows.HashOf(key)))
            {
                kept++;
                continue;
            }

            strays++;
            if (strays <= MostToldApart && (row.Refusal is not null || !isParent))
            {
                var text = row.Refusal is null ? string.Join(" | ", row.Cells) : row.Text;
                _notes.Add(new(row.Line, null, null, TableProblem.Cut(CellText.Clean(text, out _)), $"In {names}: "
                    + (row.Refusal ?? (key.Length == 0
                        ? "the row does not say to which row of the list it belongs."
                        : $"no row of {own.Table.Names} has the id {Package.Shown(key)}."))
                    + " It was not read."));
            }
        }

        Note($"{kept:N0} rows of {names} are kept to the letter with the rows they belong to, under "
            + $"\"{other.Heading}\"; nothing else is made of them.");
        if (isParent && strays > 0)
        {
            Note($"{strays:N0} rows of {names} have no {own.Table.TypeName} and are not in this list.");
        }
        else if (strays > MostToldApart)
        {
            Note($"{strays - MostToldApart:N0} more rows of {names} could not be read or belong to no row.");
        }
    }

    private void Note(string reason) => _notes.Add(new(1, null, null, "", reason));
}
