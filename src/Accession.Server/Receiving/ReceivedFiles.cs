using System.Security.Cryptography;
using Accession.Core.Batches;
using Accession.Server.Hosting;

namespace Accession.Server.Receiving;

/// <summary>Keeps the lists as they came, in the data folder that all processes share.</summary>
public sealed class ReceivedFiles(DataFolder folder)
{
    public string PathOf(string keptAs) => Path.Combine(folder.Lists, keptAs);

    /// <summary>
    /// Copies a list to where it stays. Until its rows are stored, an orphan of a killed upload does no harm.
    /// </summary>
    public async Task<ReceivedList.KeptFile> KeepAsync(Stream content, string fileName, CancellationToken cancellation)
    {
        var keptAs = Guid.NewGuid().ToString("N");
        using var sha256 = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        long bytes = 0;
        await using var file = new FileStream(
            PathOf(keptAs), FileMode.CreateNew, FileAccess.Write, FileShare.None, 1 << 16, FileOptions.Asynchronous);
        var buffer = new byte[1 << 16];
        for (int read; (read = await content.ReadAsync(buffer, cancellation)) > 0; bytes += read)
        {
            sha256.AppendData(buffer, 0, read);
            await file.WriteAsync(buffer.AsMemory(0, read), cancellation);
        }

        file.Flush(flushToDisk: true);
        // Some browsers send the sender's whole path.
        var name = fileName[(fileName.LastIndexOfAny(['/', '\\']) + 1)..];
        return new(
            name.Length > 300 ? name[^300..] : name, keptAs, Convert.ToHexStringLower(sha256.GetHashAndReset()), bytes);
    }

    /// <summary>Lets go of a file that turned out to be here already.</summary>
    public void Discard(ReceivedList.KeptFile file) => File.Delete(PathOf(file.KeptAs));
}
