namespace Accession.Storage.Tables.Archives;

/// <summary>A column of the list that an archive becomes.</summary>
/// <param name="Heading">Its heading; no two are alike.</param>
/// <param name="Index">The column of the archive's table, from 0; null for a value that every row has.</param>
/// <param name="Default">What stands in for an empty cell; null when nothing does.</param>
internal sealed record ArchiveColumn(string Heading, int? Index, string? Default)
{
    /// <summary>The text of this column in a row.</summary>
    public string Of(IReadOnlyList<string> cells) =>
        Index is { } index && index < cells.Count && cells[index].Length > 0 ? cells[index] : Default ?? "";
}

/// <summary>
/// Lays out the columns of a list from what a descriptor says: a term's name is its heading, so that the headings are
/// understood as those of any list are. What the descriptor does not speak of is kept all the same.
/// </summary>
internal sealed class ArchiveLayout
{
    private readonly HashSet<string> _taken = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>What a person should know about the columns.</summary>
    public List<string> Notes { get; } = [];

    /// <summary>The columns of the table whose rows become rows of the list.</summary>
    public List<ArchiveColumn> Of(ArchiveSource source, string keyName)
    {
        var table = source.Table;
        var columns = table.Fields.Where(field => field.Index is not null || field.Default is not null)
            .Select(field => (field.Index, Field: (ArchiveField?)field, Name: HeadingOf(field))).ToList();
        if (table.Key is { } key && table.Fields.All(field => field.Index != key))
        {
            columns.Add((key, null, keyName));
        }

        var width = source.Width;
        List<string> unknown = [];
        for (var i = 0; i < width; i++)
        {
            if (columns.All(column => column.Index != i))
            {
                columns.Add((i, null, $"Column {i + 1}"));
                unknown.Add(i < source.HeadingCells.Count && source.HeadingCells[i].Length > 0
                    ? $"{i + 1} (\"{Package.Shown(source.HeadingCells[i])}\")"
                    : $"{i + 1}");
            }
        }

        if (unknown.Count > 0)
        {
            Notes.Add($"meta.xml does not say what these columns of {table.Names} mean: {string.Join(", ", unknown)}. "
                + "They are kept to the letter under their places.");
        }

        NoteFields(table, width);
        return
        [
            .. columns.OrderBy(column => column.Index ?? int.MaxValue)
                .Select(column => new ArchiveColumn(Unique(column.Name), column.Index, column.Field?.Default)),
        ];
    }

    /// <summary>The columns that another table adds: what it says and the list's own table has no column for.</summary>
    public List<ArchiveColumn> Added(ArchiveSource other, IReadOnlyList<ArchiveColumn> own)
    {
        var has = own.Select(column => column.Heading).ToHashSet(StringComparer.OrdinalIgnoreCase);
        return
        [
            .. other.Table.Fields
                .Where(field => (field.Index is not null || field.Default is not null) && field.Index != other.Table.Key
                    && !has.Contains(HeadingOf(field)))
                .DistinctBy(HeadingOf, StringComparer.OrdinalIgnoreCase)
                .Select(field => new ArchiveColumn(Unique(HeadingOf(field)), field.Index, field.Default)),
        ];
    }

    /// <summary>A heading that nothing else has.</summary>
    public string Unique(string name)
    {
        var unique = name;
        for (var i = 2; !_taken.Add(unique); i++)
        {
            unique = $"{name} ({i})";
        }

        return unique;
    }

    private static string HeadingOf(ArchiveField field) => field.IsStandard ? field.Name : field.Term;

    private void NoteFields(ArchiveTable table, int width)
    {
        foreach (var field in table.Fields)
        {
            if (field.Index is null && field.Default is null)
            {
                Notes.Add($"meta.xml names {field.Name} and gives it neither a column nor a value: there is nothing "
                    + "to read.");
            }
            else if (field.Index >= width && width > 0)
            {
                Notes.Add($"meta.xml says that {field.Name} is column {field.Index + 1} of {table.Names}, whose rows "
                    + $"have {width}: it is read as {(field.Default is { } text ? $"\"{text}\"" : "empty")}.");
            }

            if (field.IsOldSpelling)
            {
                Notes.Add($"{field.Name} is not spelt as Darwin Core spells its terms today. Look at what its column "
                    + "is taken to mean.");
            }
            else if (!field.IsStandard)
            {
                Notes.Add($"{field.Term} is no term of Darwin Core: its column stands under that address and is kept "
                    + "to the letter.");
            }
        }

        if (table.DateFormat is { } format && !format.Equals("YYYY-MM-DD", StringComparison.OrdinalIgnoreCase))
        {
            Notes.Add($"meta.xml says that dates of {table.Names} are written {format}. Settle day and month so if it "
                + "is asked.");
        }
    }
}
