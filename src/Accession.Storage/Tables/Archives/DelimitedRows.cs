using System.Text;

namespace Accession.Storage.Tables.Archives;

/// <summary>
/// Reads the rows of a file that says itself how it is written. One row is in memory at a time. A mark that is opened
/// and never closed costs its own line and none behind it.
/// </summary>
internal sealed class DelimitedRows(TextReader text, DelimitedFormat format, int longestRow)
{
    private const int BlockSize = 1 << 16;

    private char[] _buffer = new char[BlockSize];
    private int _start;
    private int _end;
    private bool _isAll;
    private int _line = 1;

    /// <summary>The lines, also those above the rows, in order; blank ones too.</summary>
    public IEnumerable<RawRow> All()
    {
        Fill();
        while (_start < _end || !_isAll)
        {
            if (Next() is { } row)
            {
                yield return row;
            }
        }
    }

    private ReadOnlySpan<char> Held => _buffer.AsSpan(_start, _end - _start);

    private RawRow? Next()
    {
        if (Held.IsEmpty && !Fill())
        {
            return null;
        }

        var end = Held.IndexOf(format.BetweenLines);
        while (end < 0 && !_isAll && Held.Length <= longestRow)
        {
            Fill();
            end = Held.IndexOf(format.BetweenLines);
        }

        if (end < 0 && !_isAll)
        {
            return TooLong();
        }

        var line = end < 0 ? Held : Held[..end];
        var next = end < 0 ? Held.Length : end + format.BetweenLines.Length;
        if (format.Mark is not { } mark || !line.Contains(mark))
        {
            return Take(next, Split(line));
        }

        return Enclosed(mark, line.Length, next);
    }

    private RawRow Enclosed(char mark, int lineLength, int next)
    {
        var reading = new EnclosedCells(format, mark);
        while (true)
        {
            switch (reading.Read(Held, _isAll))
            {
                case EnclosedCells.Ending.Done when !reading.IsDoubtful:
                    return Take(reading.Next, reading.Cells);
                case EnclosedCells.Ending.Done when reading.Next <= next:
                    var written = Held[..lineLength].ToString();
                    return Take(next, reading.Cells) with { HasBrokenQuotes = true, Text = written };
                case EnclosedCells.Ending.WantsMore when Held.Length <= longestRow:
                    Fill();
                    continue;
                default:
                    var broken = Held[..Math.Min(lineLength, 1_000)].ToString();
                    return Take(next, []) with
                    {
                        Refusal = "A quotation mark is opened in this line and not closed.",
                        Text = broken,
                    };
            }
        }
    }

    private string[] Split(ReadOnlySpan<char> line)
    {
        if (format.BetweenCells.Length == 0)
        {
            return [line.Trim().ToString()];
        }

        var cells = new string[line.Count(format.BetweenCells) + 1];
        for (var i = 0; i < cells.Length; i++)
        {
            var at = line.IndexOf(format.BetweenCells);
            cells[i] = (at < 0 ? line : line[..at]).Trim().ToString();
            line = at < 0 ? [] : line[(at + format.BetweenCells.Length)..];
        }

        return cells;
    }

    private RawRow Take(int length, IReadOnlyList<string> cells)
    {
        var taken = Held[..length];
        var breaks = taken.Count(format.BetweenLines);
        var endsLine = taken.EndsWith(format.BetweenLines);
        var row = new RawRow(_line, _line + breaks - (endsLine ? 1 : 0), cells);
        _line += breaks;
        _start += length;
        return row;
    }

    // The rest of the line is let go of as it comes: it may be as long as the file.
    private RawRow TooLong()
    {
        var begin = Held[..1_000].ToString();
        long length = 0;
        while (true)
        {
            var end = Held.IndexOf(format.BetweenLines);
            if (end >= 0 || _isAll)
            {
                length += end < 0 ? Held.Length : end;
                _start = end < 0 ? _end : _start + end + format.BetweenLines.Length;
                return new(_line, _line++, [])
                {
                    Refusal = $"This line has {length:N0} characters, more than a row may have.",
                    Text = begin,
                };
            }

            // What ends a line may lie across two blocks.
            var gone = Held.Length - format.BetweenLines.Length + 1;
            length += gone;
            _start += gone;
            Fill();
        }
    }

    /// <summary>Reads on behind what is held; false when there is nothing more.</summary>
    private bool Fill()
    {
        if (_isAll)
        {
            return false;
        }

        Held.CopyTo(_buffer);
        (_start, _end) = (0, _end - _start);
        if (_end > _buffer.Length / 2)
        {
            Array.Resize(ref _buffer, _buffer.Length * 2);
        }

        var got = text.Read(_buffer.AsSpan(_end));
        _end += got;
        _isAll = got == 0;
        return got > 0;
    }
}
