using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Accession.Server.Administering;

/// <summary>
/// A backup that was opened to be put back. Nothing in it is believed before it was looked at: a file may have been cut
/// short on its way, or made by somebody else.
/// </summary>
internal sealed partial class OpenedBackup : IDisposable
{
    private const long LongestManifest = 64 << 20;

    private readonly string _file;
    private readonly ZipArchive _zip;

    private OpenedBackup(string file, ZipArchive zip, BackupManifest manifest)
    {
        _file = file;
        _zip = zip;
        Manifest = manifest;
    }

    public BackupManifest Manifest { get; }

    /// <summary>Opens a backup and reads what it says of itself.</summary>
    /// <exception cref="BackupRefusedException">It cannot be used; the sentence says why.</exception>
    public static OpenedBackup Of(string file)
    {
        if (!File.Exists(file))
        {
            throw new BackupRefusedException(Directory.Exists(file)
                ? $"{file} is a folder. Name the file of a backup."
                : $"There is no file {file}.");
        }

        FileStream stream;
        try
        {
            stream = new(file, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 20);
        }
        catch (UnauthorizedAccessException denied)
        {
            throw new BackupRefusedException($"You may not read {file}: it is for its owner only.", denied);
        }

        try
        {
            RefuseOthers(file, stream);
            return Read(file, stream);
        }
        catch
        {
            stream.Dispose();
            throw;
        }
    }

    /// <summary>Opens a part to be read.</summary>
    public Stream Open(string name) => _zip.GetEntry(name)?.Open()
        ?? throw new BackupRefusedException($"{_file} is damaged: the part {name} is not in it.");

    /// <summary>Reads every part and compares its hash.</summary>
    /// <param name="onBytes">Hears how many bytes were read.</param>
    /// <exception cref="BackupRefusedException">A part is not what the manifest says.</exception>
    public void Check(Action<long> onBytes, CancellationToken cancellation)
    {
        foreach (var part in Manifest.Parts)
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            var left = part.Bytes;
            try
            {
                using var content = Open(part.Name);
                var buffer = new byte[1 << 20];
                for (int read; (read = content.Read(buffer)) > 0 && left >= 0; left -= read)
                {
                    cancellation.ThrowIfCancellationRequested();
                    hash.AppendData(buffer, 0, read);
                    onBytes(read);
                }
            }
            catch (InvalidDataException damaged)
            {
                throw new BackupRefusedException(Damaged(part.Name), damaged);
            }

            if (left != 0 || Convert.ToHexStringLower(hash.GetHashAndReset()) != part.Sha256)
            {
                throw new BackupRefusedException(Damaged(part.Name));
            }
        }
    }

    public void Dispose() => _zip.Dispose();

    private string Damaged(string part) =>
        $"{_file} is damaged: the part {part} is not as it was written. Use another copy or an earlier backup.";

    // A zip begins with the header of its first part: 26 bytes, the length of its name in two, two more, the name.
    private static void RefuseOthers(string file, FileStream stream)
    {
        var expected = Encoding.ASCII.GetBytes(BackupManifest.Mark);
        var beginning = new byte[30 + expected.Length];
        var read = stream.ReadAtLeast(beginning, beginning.Length, throwOnEndOfStream: false);
        stream.Position = 0;
        if (read == 0)
        {
            throw new BackupRefusedException($"{file} is empty.");
        }

        if (!beginning.AsSpan(0, Math.Min(read, 4)).SequenceEqual("PK\u0003\u0004"u8[..Math.Min(read, 4)])
            || (read > 30 && !expected.AsSpan().StartsWith(beginning.AsSpan(30, read - 30))))
        {
            throw new BackupRefusedException($"{file} is not a backup of this program.");
        }

        if (read < beginning.Length)
        {
            throw new BackupRefusedException(CutShort(file));
        }
    }

    private static OpenedBackup Read(string file, FileStream stream)
    {
        ZipArchive zip;
        byte[] json;
        try
        {
            zip = new ZipArchive(stream, ZipArchiveMode.Read);
            if (zip.GetEntry(BackupManifest.Name) is not { Length: < LongestManifest } entry
                || zip.Comment.Length != 2 * SHA256.HashSizeInBytes)
            {
                throw new BackupRefusedException(CutShort(file));
            }

            using var content = entry.Open();
            using var whole = new MemoryStream();
            content.CopyTo(whole);
            json = whole.ToArray();
        }
        catch (Exception broken) when (broken is InvalidDataException or ArgumentException or OverflowException)
        {
            throw new BackupRefusedException(CutShort(file), broken);
        }

        if (Convert.ToHexStringLower(SHA256.HashData(json)) != zip.Comment)
        {
            throw new BackupRefusedException(
                $"{file} is damaged: what it says of itself is not as it was written. Use another copy.");
        }

        var manifest = Manifested(file, json);
        RefuseStrangeNames(file, zip, manifest);
        return new(file, zip, manifest);
    }

    private static BackupManifest Manifested(string file, byte[] json)
    {
        try
        {
            // A newer format may have a manifest that cannot be read here, but its number it will have.
            using var document = JsonDocument.Parse(json);
            if (document.RootElement.GetProperty("format").GetInt32() is var format
                && format > BackupManifest.CurrentFormat)
            {
                throw new BackupRefusedException(
                    $"{file} was made by a newer version of the program, in format {format}. "
                    + "Restore it with that one.");
            }

            var manifest = document.RootElement.Deserialize<BackupManifest>(BackupZip.Json)!;
            return manifest is { Tables: not null, Parts: not null, Missing: not null, Migration: not null }
                ? manifest
                : throw new JsonException();
        }
        catch (Exception strange) when (strange is JsonException or KeyNotFoundException or InvalidOperationException
            or FormatException)
        {
            throw new BackupRefusedException($"{file} is damaged: what it says of itself cannot be read.", strange);
        }
    }

    private static void RefuseStrangeNames(string file, ZipArchive zip, BackupManifest manifest)
    {
        var inside = zip.Entries.Select(entry => entry.FullName).ToList();
        foreach (var name in inside.Concat(manifest.Parts.Select(part => part.Name)))
        {
            if (name != BackupManifest.Name && name != BackupManifest.Mark && !Usual().IsMatch(name))
            {
                throw new BackupRefusedException(
                    $"{file} is not a sound backup: it names the path \"{Shown(name)}\", which could lead outside.");
            }
        }

        var named = manifest.Parts.Select(part => part.Name).Concat([BackupManifest.Name, BackupManifest.Mark]);
        if (!named.Order(StringComparer.Ordinal).SequenceEqual(inside.Order(StringComparer.Ordinal))
            || manifest.Tables.Any(table => !Plain().IsMatch(table.Name)
                || table.Columns is null || table.Columns.Any(column => !Plain().IsMatch(column))))
        {
            throw new BackupRefusedException($"{file} is damaged: it does not hold the parts that it names.");
        }
    }

    private static string Shown(string name) =>
        new([.. name.Take(80).Select(c => char.IsControl(c) ? '?' : c)]);

    private static string CutShort(string file) =>
        $"{file} was cut short: its end is missing. Copy it again from where it was made, or use an earlier backup.";

    [GeneratedRegex(@"\A(register\.db|tables/[a-z0-9_]{1,63}\.copy|lists/[0-9a-f]{32}|papers/[0-9a-f]{64})\z")]
    private static partial Regex Usual();

    [GeneratedRegex(@"\A[A-Za-z0-9_]{1,63}\z")]
    private static partial Regex Plain();
}
