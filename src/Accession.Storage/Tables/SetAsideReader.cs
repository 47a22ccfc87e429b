using System.Text;

namespace Accession.Storage.Tables;

/// <summary>A line that is kept away from the reader of rows.</summary>
/// <param name="Line">Its number, from 1.</param>
/// <param name="Text">Its beginning, to the letter.</param>
/// <param name="Length">Its whole length in characters.</param>
internal readonly record struct AsideLine(int Line, string Text, long Length);

/// <summary>
/// Passes a text on with some of its lines emptied, so that the lines behind a broken one are read as if it
/// were not there, under their true numbers. It never holds a whole line: one may be as long as the file.
/// </summary>
internal sealed class SetAsideReader(TextReader inner, IReadOnlySet<int> aside) : TextReader
{
    private const int KeptOfLine = 1_000;

    private readonly Queue<AsideLine> _dropped = new();
    private readonly StringBuilder _kept = new();
    private long _length;
    private int _line = 1;
    private bool _afterReturn;

    /// <summary>The next emptied line that stands before <paramref name="line"/>, if there is one.</summary>
    public bool TryTake(int line, out AsideLine dropped) =>
        _dropped.TryPeek(out dropped) && dropped.Line < line && _dropped.TryDequeue(out dropped);

    public override int Read(char[] buffer, int index, int count) => Read(buffer.AsSpan(index, count));

    public override int Read(Span<char> buffer)
    {
        if (aside.Count == 0)
        {
            return inner.Read(buffer);
        }

        while (true)
        {
            var got = inner.Read(buffer);
            if (got == 0)
            {
                EndLine();
                return 0;
            }

            var passed = Filter(buffer[..got]);
            if (passed > 0)
            {
                return passed;
            }
        }
    }

    public override int Read() => throw new NotSupportedException("Rows are read in blocks.");

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
        }

        base.Dispose(disposing);
    }

    private int Filter(Span<char> block)
    {
        var to = 0;
        foreach (var c in block)
        {
            if (c is '\n' or '\r')
            {
                if (!(c == '\n' && _afterReturn))
                {
                    EndLine();
                    _line++;
                }

                block[to++] = c;
            }
            else if (aside.Contains(_line))
            {
                _length++;
                if (_kept.Length < KeptOfLine)
                {
                    _kept.Append(c);
                }
            }
            else
            {
                block[to++] = c;
            }

            _afterReturn = c == '\r';
        }

        return to;
    }

    private void EndLine()
    {
        if (_length > 0)
        {
            _dropped.Enqueue(new(_line, _kept.ToString(), _length));
            _kept.Clear();
            _length = 0;
        }
    }
}
