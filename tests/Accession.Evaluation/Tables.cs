using Accession.Storage.Tables;

namespace Accession.Evaluation;

/// <summary>Opens files of labels with the reader of the program.</summary>
internal static class Tables
{
    /// <summary>Opens a table.</summary>
    /// <exception cref="UnreadableLineException">It is none.</exception>
    public static Table Open(string path)
    {
        var opened = TableReader.Open(path);
        return opened.IsRefused
            ? throw new UnreadableLineException($"{path}: {string.Join(" ", opened.Refusals.Select(r => r.Reason))}")
            : opened.Value;
    }

    /// <summary>The cells of some columns, row by row.</summary>
    /// <exception cref="UnreadableLineException">It is no table, or lacks a column.</exception>
    public static IEnumerable<string[]> Columns(string path, params string[] headings)
    {
        var table = Open(path);
        var places = headings.Select(heading => table.Headers.ToList().IndexOf(heading)).ToArray();
        if (places.Contains(-1))
        {
            throw new UnreadableLineException($"{path} needs the columns {string.Join(", ", headings)}.");
        }

        return table.Rows()
            .Where(row => !row.IsRefused)
            .Select(row => places.Select(place => row.Cells[place]).ToArray());
    }
}
