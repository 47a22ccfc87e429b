using System.IO.Compression;
using System.Text;

namespace Accession.Storage.Tables.Archives;

/// <summary>
/// The files in a zip, read where they lie: nothing is ever unpacked to a place that the zip names. Each file is
/// opened anew from the beginning; how much comes out of it is counted as it comes.
/// </summary>
internal sealed class Package
{
    private const int MostFiles = 10_000;

    private readonly string _path;
    private readonly TableLimits _limits;
    private readonly Dictionary<string, PackedFile> _files;

    private Package(string path, TableLimits limits, Dictionary<string, PackedFile> files) =>
        (_path, _limits, _files) = (path, limits, files);

    private sealed record PackedFile(int Entry, long PackedBytes, uint Checksum);

    /// <summary>The files, as the zip names them, without folders and what a system leaves beside its own.</summary>
    public IEnumerable<string> Names => _files.Keys;

    /// <summary>Opens a zip, or refuses it for what it names or how it is packed.</summary>
    /// <exception cref="ArchiveRefusedException">It cannot be read as a whole.</exception>
    public static Package Open(string path, TableLimits limits)
    {
        using var zip = ZipFile.OpenRead(path);
        if (zip.Entries.Count > MostFiles)
        {
            throw new ArchiveRefusedException(
                $"There are {zip.Entries.Count:N0} files in this zip; an archive has a handful.");
        }

        var files = new Dictionary<string, PackedFile>(StringComparer.Ordinal);
        for (var i = 0; i < zip.Entries.Count; i++)
        {
            var entry = zip.Entries[i];
            var name = Checked(entry);
            if (name.EndsWith('/') || IsLeftBySystem(name))
            {
                continue;
            }

            if (!files.TryAdd(name, new(i, entry.CompressedLength, entry.Crc32)))
            {
                throw new ArchiveRefusedException(
                    $"The zip holds two files named {Shown(name)}: nobody can say which of them is meant.");
            }
        }

        return new(path, limits, files);
    }

    /// <summary>
    /// The file that a descriptor means: by its name, else with its escapes undone, else in other letter case. Null
    /// when there is none.
    /// </summary>
    /// <param name="folder">The folder of the descriptor; empty, or with a slash at its end.</param>
    /// <param name="location">What the descriptor says.</param>
    /// <exception cref="ArchiveRefusedException">It points outside of the archive.</exception>
    public string? Find(string folder, string location)
    {
        if (PointsOutside(location) || PointsOutside(Uri.UnescapeDataString(location)))
        {
            throw new ArchiveRefusedException(
                $"meta.xml points outside of the archive: {Shown(location)}. Only files in the archive are read.");
        }

        var name = folder + Plain(location);
        string[] spellings = [name, Uri.UnescapeDataString(name)];
        return spellings.FirstOrDefault(_files.ContainsKey)
            ?? (Names.Where(file => spellings.Contains(file, StringComparer.OrdinalIgnoreCase)).ToList() is [var only]
                ? only
                : null);
    }

    /// <summary>Opens a file at its beginning. What comes is counted, and stops where it becomes too much.</summary>
    public Stream OpenFile(string name)
    {
        var file = _files[name];
        var zip = ZipFile.OpenRead(_path);
        try
        {
            return new PackedStream(zip, zip.Entries[file.Entry], Shown(name), _limits);
        }
        catch
        {
            zip.Dispose();
            throw;
        }
    }

    /// <summary>Reads a file to its end and compares it with the checksum that was packed beside it.</summary>
    /// <returns>How many bytes it has.</returns>
    /// <exception cref="ArchiveRefusedException">It is damaged or too large.</exception>
    public long Prove(string name)
    {
        using var stream = OpenFile(name);
        var buffer = new byte[1 << 16];
        var checksum = new Checksum();
        long bytes = 0;
        for (int read; (read = stream.Read(buffer)) > 0; bytes += read)
        {
            checksum.Add(buffer.AsSpan(0, read));
        }

        return checksum.Value == _files[name].Checksum
            ? bytes
            : throw new ArchiveRefusedException(
                $"{Shown(name)} was damaged on its way: it is not what was packed. Ask for the archive once more.");
    }

    private static string Checked(ZipArchiveEntry entry)
    {
        if (PointsOutside(entry.FullName))
        {
            throw new ArchiveRefusedException(
                $"The zip holds a file named {Shown(entry.FullName)}, which would lie outside of its folder. It is not "
                + "opened: no honest archive has one.");
        }

        return entry.IsEncrypted
            ? throw new ArchiveRefusedException(
                $"{Shown(entry.FullName)} in the zip has a password. Ask for the archive without one.")
            : Plain(entry.FullName);
    }

    private static string Plain(string name) =>
        Slashed(name) is var slashed && slashed.StartsWith("./", StringComparison.Ordinal) ? slashed[2..] : slashed;


    private static bool PointsOutside(string name)
    {
        var slashed = Slashed(name);
        var scheme = slashed.IndexOf(':');   // of an address, or the letter of a drive
        return slashed.StartsWith('/') || slashed.Contains('\0') || slashed.Split('/').Contains("..")
            || (scheme > 0 && slashed.AsSpan(0, scheme).ContainsAnyExceptInRange('!', '~') is false
                && !slashed.AsSpan(0, scheme).Contains('/'));
    }

    // Some packers of Windows write folders so.
    private static string Slashed(string name) => name.Replace('\\', '/');

    private static bool IsLeftBySystem(string name) =>
        name.StartsWith("__MACOSX/", StringComparison.Ordinal)
        || name[(name.LastIndexOf('/') + 1)..] is ['.', ..] or "Thumbs.db" or "desktop.ini";

    internal static string Shown(string name)
    {
        var plain = new StringBuilder();
        foreach (var c in name.Length <= 100 ? name : name[..100] + "…")
        {
            plain.Append(char.IsControl(c) ? '?' : c);
        }

        return plain.ToString();
    }
}
