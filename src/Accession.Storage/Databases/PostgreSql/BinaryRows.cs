using System.Buffers.Binary;
using Accession.Storage.Databases.Archives;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>
/// Reads the binary form of COPY (PostgreSQL documentation, COPY, "Binary Format"): a header, then for each row the
/// number of its fields and each field with its length before it, everything with the high byte first.
/// </summary>
internal sealed class BinaryRows(Stream stream)
{
    private const int Signature = 11;
    private const int Flags = 4;
    private const short NoMoreRows = -1;
    private const int Null = -1;

    private byte[] _buffer = new byte[128 * 1024];
    private int _start;
    private int _end;
    private int _field;

    public async Task BeginAsync(CancellationToken cancellation)
    {
        await HaveAsync(Signature + Flags + sizeof(int), cancellation);
        _start += Signature + Flags;
        var extension = ReadInt32();
        await HaveAsync(extension, cancellation);
        _start += extension;
    }

    /// <summary>Has the next row whole in the buffer; false after the last one.</summary>
    public async ValueTask<bool> NextAsync(CancellationToken cancellation)
    {
        await HaveAsync(sizeof(short), cancellation);
        var fields = BinaryPrimitives.ReadInt16BigEndian(_buffer.AsSpan(_start));
        if (fields == NoMoreRows)
        {
            return false;
        }

        var row = sizeof(short);
        for (var i = 0; i < fields; i++)
        {
            await HaveAsync(row + sizeof(int), cancellation);
            var length = BinaryPrimitives.ReadInt32BigEndian(_buffer.AsSpan(_start + row));
            row += sizeof(int) + Math.Max(length, 0);
        }

        await HaveAsync(row, cancellation);
        _field = _start + sizeof(short);
        _start += row;
        return true;
    }

    /// <summary>Writes the next field of the row as a cell.</summary>
    public void WriteField(CellKind kind, LineWriter lines)
    {
        var length = BinaryPrimitives.ReadInt32BigEndian(_buffer.AsSpan(_field));
        _field += sizeof(int);
        if (length == Null)
        {
            lines.Nothing();
            return;
        }

        var bytes = _buffer.AsSpan(_field, length);
        _field += length;
        switch (kind)
        {
            case CellKind.Whole:
                lines.Whole(BinaryPrimitives.ReadInt32BigEndian(bytes));
                break;
            case CellKind.Number:
                lines.Number(BinaryPrimitives.ReadDoubleBigEndian(bytes));
                break;
            default:
                lines.Text(bytes);
                break;
        }
    }

    private int ReadInt32()
    {
        var value = BinaryPrimitives.ReadInt32BigEndian(_buffer.AsSpan(_start));
        _start += sizeof(int);
        return value;
    }

    private ValueTask HaveAsync(int bytes, CancellationToken cancellation) =>
        _end - _start >= bytes ? ValueTask.CompletedTask : FillAsync(bytes, cancellation);

    private async ValueTask FillAsync(int bytes, CancellationToken cancellation)
    {
        _buffer.AsSpan(_start, _end - _start).CopyTo(_buffer);
        _end -= _start;
        _start = 0;
        if (bytes > _buffer.Length)
        {
            Array.Resize(ref _buffer, Math.Max(bytes, _buffer.Length * 2));
        }

        _end += await stream.ReadAtLeastAsync(_buffer.AsMemory(_end), bytes - _end, cancellationToken: cancellation);
    }
}
