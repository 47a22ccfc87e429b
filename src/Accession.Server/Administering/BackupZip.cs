using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;

namespace Accession.Server.Administering;

/// <summary>
/// Writes a backup: the mark first, then the parts as they come, the manifest last, because it bears their hashes. Its
/// own hash stands at the very end, in the comment of the file.
/// </summary>
internal sealed class BackupZip : IDisposable
{
    public static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    private readonly ZipArchive _zip;
    private readonly Action<long> _onBytes;
    private readonly List<BackupPart> _parts = [];

    public BackupZip(Stream file, Action<long> onBytes)
    {
        _zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true);
        _onBytes = onBytes;
        using var mark = _zip.CreateEntry(BackupManifest.Mark, CompressionLevel.NoCompression).Open();
        mark.Write("A backup of an Accession register. It holds exact places and mail addresses.\n"u8);
    }

    public IReadOnlyList<BackupPart> Parts => _parts;

    /// <summary>Keeps a part.</summary>
    public async Task KeepAsync(string name, Func<Stream, Task> write)
    {
        await using var entry = _zip.CreateEntry(name, CompressionLevel.Fastest).Open();
        await using var counted = new HashedStream(entry, _onBytes);
        await write(counted);
        _parts.Add(new(name, counted.Bytes, counted.Sha256()));
    }

    /// <summary>Ends the file with what it says of itself.</summary>
    public void Finish(BackupManifest manifest)
    {
        var json = JsonSerializer.SerializeToUtf8Bytes(manifest, Json);
        using (var entry = _zip.CreateEntry(BackupManifest.Name, CompressionLevel.Optimal).Open())
        {
            entry.Write(json);
        }

        _zip.Comment = Convert.ToHexStringLower(SHA256.HashData(json));
    }

    public void Dispose() => _zip.Dispose();
}
