using System.Text;

namespace Accession.Storage.Tables.Archives;

/// <summary>
/// One row in which cells are enclosed by a mark; a doubled mark within stands for one. A cell whose mark is followed
/// by other text keeps every letter it has, and the row is in doubt.
/// </summary>
internal sealed class EnclosedCells(DelimitedFormat format, char mark)
{
    public enum Ending
    {
        Done,
        WantsMore,
        LeftOpen,
    }

    private readonly List<string> _cells = [];

    public IReadOnlyList<string> Cells => _cells;

    /// <summary>Where the next row begins.</summary>
    public int Next { get; private set; }

    public bool IsDoubtful { get; private set; }

    /// <summary>Reads the row at the beginning of a text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="isAll">Whether nothing comes behind it.</param>
    public Ending Read(ReadOnlySpan<char> text, bool isAll)
    {
        _cells.Clear();
        (Next, IsDoubtful) = (0, false);
        while (true)
        {
            var begin = Next;
            var opened = begin + SpacesAt(text, begin);
            var inside = opened < text.Length && text[opened] == mark;
            var ending = inside ? ReadInside(text, begin, opened, isAll) : ReadPlain(text, begin, begin, isAll);
            if (ending != Found.Cell)
            {
                return ending switch
                {
                    Found.Row => Ending.Done,
                    Found.NoEnd when isAll => Ending.LeftOpen,
                    _ => Ending.WantsMore,
                };
            }
        }
    }

    private enum Found
    {
        Cell,
        Row,
        NoEnd,
    }

    private Found ReadInside(ReadOnlySpan<char> text, int begin, int opened, bool isAll)
    {
        var cell = new StringBuilder();
        var at = opened + 1;
        while (true)
        {
            var closing = text[at..].IndexOf(mark);
            if (closing < 0)
            {
                return Found.NoEnd;
            }

            cell.Append(text.Slice(at, closing));
            at += closing + 1;
            if (at == text.Length && !isAll)
            {
                return Found.NoEnd;
            }

            if (at == text.Length || text[at] != mark)
            {
                break;
            }

            cell.Append(mark);
            at++;
        }

        var behind = at + SpacesAt(text, at);
        if (!isAll && behind + Math.Max(format.BetweenCells.Length, format.BetweenLines.Length) + 1 > text.Length)
        {
            return Found.NoEnd;
        }

        if (EndAt(text, behind) is { } end)
        {
            _cells.Add(cell.ToString().Trim());
            return end;
        }

        IsDoubtful = true;
        return ReadPlain(text, begin, at, isAll);
    }

    private Found ReadPlain(ReadOnlySpan<char> text, int begin, int from, bool isAll)
    {
        var rest = text[from..];
        var line = rest.IndexOf(format.BetweenLines);
        var cell = format.BetweenCells.Length == 0 ? -1 : rest.IndexOf(format.BetweenCells);
        if (line < 0 && cell < 0 && !isAll)
        {
            return Found.NoEnd;
        }

        var end = from + (cell >= 0 && (line < 0 || cell < line) ? cell : line >= 0 ? line : rest.Length);
        _cells.Add(text[begin..end].Trim().ToString());
        return EndAt(text, end)!.Value;
    }

    // The carriage return before a line feed belongs to the end of the line, whatever the descriptor says.
    private Found? EndAt(ReadOnlySpan<char> text, int at)
    {
        if (at == text.Length)
        {
            Next = at;
            return Found.Row;
        }

        var rest = text[at..];
        if (format.BetweenCells.Length > 0 && rest.StartsWith(format.BetweenCells))
        {
            Next = at + format.BetweenCells.Length;
            return Found.Cell;
        }

        var extra = format.BetweenLines[0] != '\r' && rest[0] == '\r' ? 1 : 0;
        if (rest[extra..].StartsWith(format.BetweenLines))
        {
            Next = at + extra + format.BetweenLines.Length;
            return Found.Row;
        }

        return null;
    }

    private static int SpacesAt(ReadOnlySpan<char> text, int at)
    {
        var rest = text[Math.Min(at, text.Length)..];
        var spaces = rest.IndexOfAnyExcept(' ');
        return spaces < 0 ? rest.Length : spaces;
    }
}
