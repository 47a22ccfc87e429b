using System.Buffers.Text;
using System.Globalization;
using System.IO.Pipelines;
using Accession.Core.Standards;

namespace Accession.Storage.Databases.Archives;

/// <summary>
/// Gathers the cells of lines as UTF-8 and hands them on by the block, so that neither a string nor an object is made
/// for a record. One cell after the other, each line with an end.
/// </summary>
/// <param name="writer">Where the blocks go; another thread takes them up.</param>
/// <param name="onLines">Hears now and then how many lines were written so far; it may throw to stop.</param>
public sealed class LineWriter(PipeWriter writer, Func<long, CancellationToken, Task>? onLines = null)
{
    private const int Block = 32 * 1024;
    private const int LongestNumber = 400;   // 1E-323 written out
    private const int LinesBetweenReports = 5_000;

    private byte[] _block = new byte[Block * 2];
    private int _length;
    private bool _isInLine;
    private long _nextReport = LinesBetweenReports;

    /// <summary>How many lines were ended.</summary>
    public long Lines { get; private set; }

    /// <summary>A cell of text, by the rule of <see cref="OneLine"/>.</summary>
    public void Text(ReadOnlySpan<byte> utf8)
    {
        Begin(utf8.Length);
        _length += OneLine.Of(utf8, _block.AsSpan(_length));
    }

    /// <summary>A cell that is known to be one line.</summary>
    public void Constant(ReadOnlySpan<byte> utf8)
    {
        Begin(utf8.Length);
        utf8.CopyTo(_block.AsSpan(_length));
        _length += utf8.Length;
    }

    /// <summary>A cell with a whole number.</summary>
    public void Whole(long number)
    {
        Begin(LongestNumber);
        Utf8Formatter.TryFormat(number, _block.AsSpan(_length), out var bytes);
        _length += bytes;
    }

    /// <summary>A cell with a number: the shortest digits that give it back, never with an exponent.</summary>
    public void Number(double number)
    {
        Begin(LongestNumber);
        var space = _block.AsSpan(_length, LongestNumber);
        number.TryFormat(space, out var bytes, default, CultureInfo.InvariantCulture);
        if (space[..bytes].Contains((byte)'E'))
        {
            // Exact in decimal where a person wrote the number; readers of spreadsheets stumble over 1E-05.
            number.TryFormat(space, out bytes, "0.####################", CultureInfo.InvariantCulture);
        }

        _length += bytes;
    }

    /// <summary>An empty cell.</summary>
    public void Nothing() => Begin(0);

    /// <summary>Ends the line, and hands on what was gathered when it is enough.</summary>
    public ValueTask EndLineAsync(CancellationToken cancellation)
    {
        Reserve(1);
        _block[_length++] = (byte)'\n';
        _isInLine = false;
        Lines++;
        return _length < Block && Lines < _nextReport ? ValueTask.CompletedTask : HandOnAsync(cancellation);
    }

    /// <summary>Hands on whatever is left.</summary>
    public async ValueTask HandOnAsync(CancellationToken cancellation)
    {
        var flushed = await writer.WriteAsync(_block.AsMemory(0, _length), cancellation);
        _length = 0;
        if (flushed.IsCompleted)
        {
            throw new IOException("Whoever took up the lines has stopped.");
        }

        if (onLines is not null && Lines >= _nextReport)
        {
            _nextReport = Lines + LinesBetweenReports;
            await onLines(Lines, cancellation);
        }
    }

    private void Begin(int longest)
    {
        Reserve(longest + 1);
        if (_isInLine)
        {
            _block[_length++] = (byte)'\t';
        }

        _isInLine = true;
    }

    private void Reserve(int bytes)
    {
        if (_block.Length - _length < bytes)
        {
            Array.Resize(ref _block, Math.Max(_block.Length * 2, _length + bytes));
        }
    }
}
