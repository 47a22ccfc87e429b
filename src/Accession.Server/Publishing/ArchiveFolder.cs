using Accession.Server.Hosting;
using Accession.Server.Shared;

namespace Accession.Server.Publishing;

/// <summary>The archives that the server built, each under a name that says which version it is.</summary>
public sealed class ArchiveFolder(DataFolder folder)
{
    private const string Ending = ".zip";

    /// <summary>Where an archive of this name goes.</summary>
    public string PathOf(string name) => IsPlain(name)
        ? Path.Combine(folder.Archives, name + Ending)
        : throw new ArgumentException($"\"{name}\" is not a plain name.", nameof(name));

    /// <summary>Where the archive of this file name is; null when there is none, or it could lead elsewhere.</summary>
    public string? Find(string file) =>
        file.EndsWith(Ending, StringComparison.Ordinal) && file[..^Ending.Length] is var name && IsPlain(name)
        && File.Exists(PathOf(name))
            ? PathOf(name)
            : null;

    /// <summary>Deletes what killed processes left behind.</summary>
    public void ClearAbandoned(DateTime now) => PartFile.ClearAbandoned(folder.Archives, now);

    // Without a dot or a separator a name cannot leave the folder, nor mean a file that is still being written.
    private static bool IsPlain(string name) =>
        name.Length is > 0 and <= 100 && name.All(c => char.IsAsciiLetterOrDigit(c) || c == '-');
}
