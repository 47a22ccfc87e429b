using System.IO.Compression;

namespace Accession.Storage.Tables.Archives;

/// <summary>One file of a zip while it is unpacked; it holds the zip open and counts what comes out.</summary>
internal sealed class PackedStream(ZipArchive zip, ZipArchiveEntry entry, string name, TableLimits limits) : Stream
{
    /// <summary>Below this, nothing is too large whatever it was packed to.</summary>
    private const long NeverTooMuch = 16 << 20;

    private readonly Stream _inner = entry.Open();
    private readonly long _packed = Math.Max(1, entry.CompressedLength);
    private long _read;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => _read;
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        var got = _inner.Read(buffer);
        _read += got;
        if (_read > limits.MaximumUnpackedBytes)
        {
            throw new ArchiveRefusedException(
                $"{name} unpacks to more than {limits.MaximumUnpackedBytes / 1e6:N0} MB, which is more than is read. "
                + "Divide the archive and send the parts.");
        }

        return _read <= NeverTooMuch || _read / _packed <= limits.MaximumRatio
            ? got
            : throw new ArchiveRefusedException(
                $"{name} unpacks to more than {limits.MaximumRatio} times what was sent, as no table of rows does. It "
                + "is not read further.");
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            _inner.Dispose();
            zip.Dispose();
        }

        base.Dispose(disposing);
    }
}
