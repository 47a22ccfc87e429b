using System.Security.Cryptography;
using Accession.Core.Accessions;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

/// <summary>
/// Keeps papers in the data folder that all processes share, each under its hash: whoever keeps the same file at the
/// same moment writes the same bytes.
/// </summary>
public sealed class PaperFiles(DataFolder folder, IOptions<ReceivingOptions> options, TimeProvider clock)
{
    private const int Piece = 1 << 16;

    public string PathOf(string sha256) => Path.Combine(folder.Papers, sha256);

    /// <summary>
    /// Reads a paper to its end, or as far as it may be large, and finds out what it is. What is refused leaves nothing
    /// on the disk.
    /// </summary>
    public async Task<Outcome<ReadPaper>> ReadAsync(Stream content, string fileName, CancellationToken cancellation)
    {
        PartFile.ClearAbandoned(folder.Papers, clock.GetUtcNow().UtcDateTime);
        var part = new PartFile(PathOf("paper"));
        try
        {
            using var sha256 = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            var recognised = new PaperContent();
            var buffer = new byte[Piece];
            for (int read; (read = await content.ReadAsync(buffer, cancellation)) > 0;)
            {
                recognised.Add(buffer.AsSpan(0, read));
                if (recognised.Bytes > options.Value.MaximumPaperBytes)
                {
                    part.Dispose();
                    return new Refusal(RefusalKind.Invalid,
                        $"The file is larger than {options.Value.MaximumPaperMegabytes} MB. Nothing of it was kept. "
                        + "Make it smaller, or ask an administrator to raise Receiving:MaximumPaperMegabytes.");
                }

                sha256.AppendData(buffer, 0, read);
                await part.Content.WriteAsync(buffer.AsMemory(0, read), cancellation);
            }

            var type = recognised.End();
            if (type.IsRefused)
            {
                part.Dispose();
                return type.Refusals.ToList();
            }

            var hash = Convert.ToHexStringLower(sha256.GetHashAndReset());
            return new ReadPaper(part, PathOf(hash), new(fileName, type.Value, recognised.Bytes, hash));
        }
        catch
        {
            part.Dispose();
            throw;
        }
    }
}

/// <summary>A paper that was read and is not kept yet; disposed without being kept, nothing is left of it.</summary>
public sealed class ReadPaper : IDisposable
{
    private readonly PartFile _part;
    private readonly string _path;

    internal ReadPaper(PartFile part, string path, Paper.File file) => (_part, _path, File) = (part, path, file);

    public Paper.File File { get; }

    /// <summary>Gives it the name under which it is found.</summary>
    public void Keep() => _part.KeepAs(_path, replace: true);

    public void Dispose() => _part.Dispose();
}
