namespace Accession.Core.Standards.DarwinCore;

/// <summary>
/// A file of an archive: tab-separated text in UTF-8, a heading in the first line, line feeds, nothing quoted. In the
/// core the first column identifies a line; in an extension it is the core's identifier again.
/// </summary>
public sealed record ArchiveFile
{
    /// <summary>Describes a file.</summary>
    /// <param name="rowType">What a line stands for: the address of a Darwin Core class.</param>
    /// <param name="name">The name in the archive: ASCII letters, digits, dots, hyphens, underscores.</param>
    /// <param name="columns">The columns from left to right, the identifying one first; at least two.</param>
    /// <exception cref="ArgumentException">
    /// The name could lead out of the archive, or a column but the first lacks a term, or a term occurs twice.
    /// </exception>
    public ArchiveFile(string rowType, string name, IReadOnlyList<ArchiveColumn> columns)
    {
        if (name is "" || name[0] == '.' || !name.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_'))
        {
            throw new ArgumentException($"\"{name}\" is not a plain file name.", nameof(name));
        }

        var terms = columns.Skip(1).Select(column => column.Term).ToList();
        if (terms is [] || terms.Contains(null))
        {
            throw new ArgumentException("Every column but the first needs a term.", nameof(columns));
        }

        if (terms.Append(columns[0].Term).Distinct().Count() != columns.Count)
        {
            throw new ArgumentException("A term stands for one column of a file.", nameof(columns));
        }

        RowType = rowType;
        Name = name;
        Columns = columns;
    }

    /// <summary>What a line stands for: the address of a Darwin Core class.</summary>
    public string RowType { get; }

    /// <summary>The name of the file in the archive, without a folder.</summary>
    public string Name { get; }

    /// <summary>The columns from left to right, the identifying one first.</summary>
    public IReadOnlyList<ArchiveColumn> Columns { get; }

    /// <summary>The first line of the file, with its line feed.</summary>
    public string HeadingLine => ArchiveLine.Of(Columns.Select(column => column.Heading));
}
