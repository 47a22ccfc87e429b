using System.Security.Cryptography;
using System.Text;

namespace Accession.Server.Hosting;

/// <summary>
/// The body of a request, hashed while somebody reads it: a list of 200 MB passes through, and nothing of it is held.
/// </summary>
internal sealed class DigestedBody(Stream behind) : Stream
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    /// <summary>
    /// The SHA-256 of method, address and body, in hexadecimal; what nobody read of the body is read for it.
    /// </summary>
    public async Task<string> OfRequestAsync(HttpRequest request, CancellationToken cancellation)
    {
        await CopyToAsync(Null, cancellation);
        var lead = $"{request.Method}\n{request.PathBase}{request.Path}{request.QueryString}\n";
        return Convert.ToHexStringLower(
            SHA256.HashData([.. Encoding.UTF8.GetBytes(lead), .. _hash.GetCurrentHash()]));
    }

    public override int Read(byte[] buffer, int offset, int count) => Hashed(
        buffer.AsSpan(offset, count), behind.Read(buffer, offset, count));

    public override async ValueTask<int> ReadAsync(
        Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        var read = await behind.ReadAsync(buffer, cancellationToken);
        return Hashed(buffer.Span, read);
    }

    public override Task<int> ReadAsync(
        byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

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
            _hash.Dispose();
        }

        base.Dispose(disposing);
    }

    private int Hashed(ReadOnlySpan<byte> buffer, int read)
    {
        _hash.AppendData(buffer[..read]);
        return read;
    }
}
