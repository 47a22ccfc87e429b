namespace Accession.Storage.Tables.Archives;

/// <summary>One table of an archive, ready to be read from its beginning any number of times.</summary>
internal sealed class ArchiveSource
{
    private const int HeadSize = 1 << 16;

    private readonly Package _package;
    private readonly TableLimits _limits;
    private readonly List<OneFile> _files = [];

    /// <summary>A file of the table.</summary>
    private sealed record OneFile(string Name, TextEncoding Encoding, DelimitedFormat Format);

    /// <summary>Opens the files of a table and proves them to their last byte.</summary>
    /// <exception cref="ArchiveRefusedException">One is missing, damaged or too large.</exception>
    public ArchiveSource(Package package, string folder, ArchiveTable table, TableLimits limits)
    {
        (_package, _limits, Table) = (package, limits, table);
        foreach (var location in table.Locations)
        {
            var name = package.Find(folder, location) ?? throw new ArchiveRefusedException(
                $"meta.xml names the file {Package.Shown(location)}, which is not in the archive.");
            Bytes += package.Prove(name);
            _files.Add(OpenOne(name));
        }

        Upper = [.. Rows(withHeadings: false).Where(row => row.Refusal is null).Take(20)];
        var above = table.Format.LinesAbove;
        HeadingCells = above == 0 ? [] : Rows(withHeadings: true).Take(above).LastOrDefault()?.Cells ?? [];
        // Most rows have the usual number of cells; a heading line settles it where there are none.
        Width = Upper.CountBy(row => row.Cells.Count).DefaultIfEmpty(new(HeadingCells.Count, 0))
            .MaxBy(width => (width.Value, width.Key)).Key;
    }

    public ArchiveTable Table { get; }

    /// <summary>How many bytes its files have, unpacked.</summary>
    public long Bytes { get; }

    /// <summary>How many cells its rows have.</summary>
    public int Width { get; }

    /// <summary>Whether the column that joins its rows to others is none that they have.</summary>
    public bool KeyIsBeyond => Width > 0 && Table.Key >= Width;

    /// <summary>What stands in the line above its rows; empty where there is none.</summary>
    public IReadOnlyList<string> HeadingCells { get; }

    /// <summary>Its first rows.</summary>
    public IReadOnlyList<RawRow> Upper { get; }

    /// <summary>What a person should know about its files.</summary>
    public List<string> Notes { get; } = [];

    /// <summary>How its letters are written, for people.</summary>
    public string Encodings => string.Join(", ", _files.Select(file => file.Encoding.Name).Distinct());

    /// <summary>The files it was read from.</summary>
    public IEnumerable<string> Files => _files.Select(file => file.Name);

    /// <summary>
    /// The rows in order, without blank lines. Lines of a second file go on counting behind those of the first.
    /// </summary>
    public IEnumerable<RawRow> Rows() => Rows(withHeadings: false);

    /// <summary>On which lines each file ends, if there are several.</summary>
    public IEnumerable<string> LinesOfFiles(IReadOnlyList<int> lastLines) => _files.Count == 1
        ? []
        : _files.Select((file, i) =>
            $"{file.Name} is lines {(i == 0 ? 1 : lastLines[i - 1] + 1)} to {lastLines[i]} of this list.");

    /// <summary>The last line of each file, counted on from file to file.</summary>
    public List<int> LastLines { get; } = [];

    private IEnumerable<RawRow> Rows(bool withHeadings)
    {
        List<int> lastLines = [];
        var before = 0;
        foreach (var file in _files)
        {
            using var text = new StreamReader(
                _package.OpenFile(file.Name), file.Encoding.Encoding, detectEncodingFromByteOrderMarks: true, HeadSize);
            var last = 0;
            foreach (var row in new DelimitedRows(text, file.Format, _limits.MaximumRowBytes).All())
            {
                last = row.LastLine;
                if ((withHeadings || row.Line > file.Format.LinesAbove) && !row.IsBlank)
                {
                    yield return row with { Line = row.Line + before, LastLine = row.LastLine + before };
                }
            }

            before += last;
            lastLines.Add(before);
        }

        LastLines.Clear();
        LastLines.AddRange(lastLines);
    }

    private OneFile OpenOne(string name)
    {
        var (encoding, note) = DeclaredEncoding.Of(() => _package.OpenFile(name), Table.Encoding);
        if (note is not null)
        {
            Notes.Add($"{name}: {note}");
        }

        using var text = new StreamReader(
            _package.OpenFile(name), encoding.Encoding, detectEncodingFromByteOrderMarks: true, HeadSize);
        var head = new char[HeadSize];
        var got = text.ReadBlock(head, 0, head.Length);
        return new(name, encoding, WithRealEnds(head.AsSpan(0, got), name));
    }

    // A file that was saved on another machine ends its lines in another way than the descriptor says.
    private DelimitedFormat WithRealEnds(ReadOnlySpan<char> head, string name)
    {
        var declared = Table.Format;
        if (head.Contains(declared.BetweenLines, StringComparison.Ordinal))
        {
            return declared;
        }

        foreach (var end in (string[])["\n", "\r"])
        {
            if (head.Contains(end, StringComparison.Ordinal) && !declared.BetweenCells.Contains(end[0]))
            {
                Notes.Add($"{name}: its lines end in another way than meta.xml says; read as they stand.");
                return declared with { BetweenLines = end };
            }
        }

        return declared;
    }
}
