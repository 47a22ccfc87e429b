using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;

namespace Accession.Server.Tests.Administering;

/// <summary>Backups that are not as they were written.</summary>
internal static class BackupBytes
{
    /// <summary>A backup of these parts, as it is written.</summary>
    public static byte[] Of(IReadOnlyList<(string Name, byte[] Bytes)> parts, byte[] manifest)
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, bytes) in parts
                .Prepend(("accession-backup", Encoding.UTF8.GetBytes("A backup.\n"))).Append(("manifest.json", manifest)))
            {
                using var part = zip.CreateEntry(name, CompressionLevel.NoCompression).Open();
                part.Write(bytes);
            }

            zip.Comment = Convert.ToHexStringLower(SHA256.HashData(manifest));
        }

        return file.ToArray();
    }

    public static byte[] ZipOf(params (string Name, string Text)[] parts)
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create))
        {
            foreach (var (name, text) in parts)
            {
                using var part = zip.CreateEntry(name).Open();
                part.Write(Encoding.UTF8.GetBytes(text));
            }
        }

        return file.ToArray();
    }

    /// <summary>The backup with another manifest, and perhaps one part more, as if it had been made like that.</summary>
    public static byte[] Changed(
        byte[] whole, Action<JsonObject> change, (string Name, string Text)? more = null, bool rehash = true)
    {
        using var file = new MemoryStream();
        file.Write(whole);
        using (var zip = new ZipArchive(file, ZipArchiveMode.Update))
        {
            var entry = zip.GetEntry("manifest.json")!;
            JsonObject manifest;
            using (var content = entry.Open())
            {
                manifest = JsonNode.Parse(content)!.AsObject();
            }

            entry.Delete();
            change(manifest);
            var json = Encoding.UTF8.GetBytes(manifest.ToJsonString());
            using (var content = zip.CreateEntry("manifest.json").Open())
            {
                content.Write(json);
            }

            if (more is { } other)
            {
                using var part = zip.CreateEntry(other.Name).Open();
                part.Write(Encoding.UTF8.GetBytes(other.Text));
            }

            zip.Comment = Convert.ToHexStringLower(SHA256.HashData(rehash ? json : [])) + "";
        }

        return file.ToArray();
    }

    // A piece of a sector, as a worn disk gives it back. A single byte may be one that says "as far back as you like"
    // in a run of noughts, and then nothing is damaged.
    public static byte[] Flipped(byte[] whole)
    {
        var bytes = whole.ToArray();
        foreach (ref var one in bytes.AsSpan(bytes.Length / 3, 64))
        {
            one ^= 0xFF;
        }

        return bytes;
    }
}
