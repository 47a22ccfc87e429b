using Accession.Core.Outcomes;

namespace Accession.Storage.Tables;

/// <summary>The heading line of a list, and what stands above it.</summary>
/// <param name="Line">The line where it stands.</param>
/// <param name="LastLine">The line where it ends.</param>
/// <param name="Names">One name for each column, none empty, no two alike.</param>
/// <param name="Notes">Titles above it and headings that are missing.</param>
internal sealed record Headings(
    int Line,
    int LastLine,
    IReadOnlyList<string> Names,
    IReadOnlyList<TableProblem> Notes)
{
    private const int RowsLookedAt = 10;

    /// <summary>What <see cref="Find"/> needs: the rows looked at, and one that proves that more follows.</summary>
    public static IReadOnlyList<RawRow> UpperOf(IEnumerable<RawRow> rows) =>
        [.. rows.Where(row => !row.IsBlank).Take(RowsLookedAt + 1)];

    /// <summary>
    /// Finds the headings: the first of the upper rows that has at least half as many filled cells as the
    /// fullest of them, because a title or a date of print stands alone in its row.
    /// </summary>
    public static Outcome<Headings> Find(IReadOnlyList<RawRow> upper, TableLimits limits)
    {
        var looked = upper.Take(RowsLookedAt).ToList();
        var fullest = looked.Select(row => row.Filled).DefaultIfEmpty().Max();
        if (upper.Count == 0)
        {
            return new Refusal(RefusalKind.Invalid, "There is nothing in this file.");
        }

        if (fullest < 2)
        {
            return new Refusal(
                RefusalKind.Invalid,
                "This is not a table: no columns were found, separated by commas, semicolons or tabs.");
        }

        var at = looked.FindIndex(row => row.Refusal is null && row.Filled >= 2 && row.Filled * 2 >= fullest);
        if (at < 0)
        {
            return new Refusal(RefusalKind.Invalid, "No line with headings was found among the first ten lines.");
        }

        return at == upper.Count - 1
            ? new Refusal(RefusalKind.Invalid, $"There are headings in line {looked[at].Line} and no row beneath them.")
            : Of(looked[at], looked.Take(at), limits);
    }

    /// <summary>Whether a row is the heading line once more, as where two lists were put together.</summary>
    public bool StandAgainIn(IReadOnlyList<string> cells)
    {
        var same = 0;
        for (var i = 0; i < Math.Min(cells.Count, Names.Count); i++)
        {
            same += cells[i].Equals(Names[i], StringComparison.OrdinalIgnoreCase) ? 1 : 0;
        }

        return same >= 2 && same >= cells.Count(c => c.Length > 0);
    }

    private static Outcome<Headings> Of(RawRow row, IEnumerable<RawRow> above, TableLimits limits)
    {
        var width = row.Cells.Count;
        while (width > 0 && row.Cells[width - 1].Length == 0)
        {
            width--;
        }

        if (width > limits.MaximumColumns)
        {
            return new Refusal(
                RefusalKind.Invalid,
                $"Line {row.Line} has {width:N0} columns; a list may have {limits.MaximumColumns:N0}. "
                + "Is it turned on its side, or are rows and columns those of another kind of table?");
        }

        List<Refusal> twice = [.. row.Cells.Take(width)
            .Select((name, i) => (Name: name, Column: i + 1))
            .Where(heading => heading.Name.Length > 0)
            .GroupBy(heading => heading.Name, StringComparer.OrdinalIgnoreCase)
            .Where(same => same.Count() > 1)
            .Select(same => new Refusal(
                RefusalKind.Invalid,
                $"The heading \"{same.Key}\" stands in line {row.Line} more than once (columns "
                + $"{string.Join(" and ", same.Select(heading => heading.Column))}). "
                + "Rename one and send the list again."))];
        if (twice is not [])
        {
            return twice;
        }

        var notes = above.Select(title => new TableProblem(
            title.Line, null, null, TableProblem.Cut(title.Refusal is null ? Joined(title) : title.Text),
            "This line stands above the headings and was not read as a row.")).ToList();
        return new Headings(row.Line, row.LastLine, Named(row, width, notes), notes);
    }

    private static string[] Named(RawRow row, int width, List<TableProblem> notes)
    {
        var names = row.Cells.Take(width).ToArray();
        var taken = names.ToHashSet(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < width; i++)
        {
            if (names[i].Length > 0)
            {
                continue;
            }

            var name = $"Column {i + 1}";
            while (!taken.Add(name))
            {
                name += "*";
            }

            names[i] = name;
            notes.Add(new(row.Line, i + 1, name, "", "This column has no heading."));
        }

        return names;
    }

    private static string Joined(RawRow row) => string.Join(" | ", row.Cells.Where(cell => cell.Length > 0));
}
