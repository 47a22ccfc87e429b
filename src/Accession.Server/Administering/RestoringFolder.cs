namespace Accession.Server.Administering;

/// <summary>
/// The data folder of a restored register before anybody may see it: it is filled under another name beside it and
/// renamed when it is whole. What a killed restore leaves behind bears a marker, and the next one clears it away.
/// </summary>
internal sealed class RestoringFolder : IDisposable
{
    private const string Marker = "restore.lock";
    private const UnixFileMode OnlyOwner = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private readonly string _folder;
    private readonly FileStream _marker;
    private bool _isShown;
    private bool _isKept;

    private RestoringFolder(string folder)
    {
        _folder = folder;
        Path = BesideOf(folder);
        Make(Path);
        // Marked first: whatever lies in it after a kill is then known to be of a restore.
        _marker = new(System.IO.Path.Combine(Path, Marker), FileMode.Create, FileAccess.Write, FileShare.None);
        Make(System.IO.Path.Combine(Path, "lists"));
        Make(System.IO.Path.Combine(Path, "papers"));
    }

    /// <summary>Where it lies until it is whole.</summary>
    public string Path { get; }

    /// <summary>Why a register cannot be restored into a folder, in a sentence; null when it can.</summary>
    public static string? WhyNot(string folder)
    {
        if (File.Exists(folder))
        {
            return $"{folder} is a file. Name a folder that is empty, or not there yet, with --data.";
        }

        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any() && !IsAbandoned(folder))
        {
            return $"The folder {folder} is not empty. A restore never writes over anything: name another one with "
                + "--data.";
        }

        var beside = BesideOf(folder);
        return !Directory.Exists(beside) || IsAbandoned(beside) || IsEmpty(beside) ? null
            : File.Exists(System.IO.Path.Combine(beside, Marker)) ? $"Another restore into {folder} is under way."
            : $"The folder {beside} is in the way: the register is restored under that name first. Move it elsewhere.";
    }

    /// <summary>Makes the folder beside, in place of what a killed restore left.</summary>
    /// <exception cref="BackupRefusedException">It cannot be made there.</exception>
    public static RestoringFolder Of(string folder)
    {
        try
        {
            foreach (var abandoned in new[] { folder, BesideOf(folder) }.Where(IsAbandoned))
            {
                Remove(abandoned);
            }

            // Killed before it was marked; made again, it is its owner's only.
            if (Directory.Exists(BesideOf(folder)) && IsEmpty(BesideOf(folder)))
            {
                Directory.Delete(BesideOf(folder));
            }

            return new(folder);
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new BackupRefusedException(
                $"The folder {BesideOf(folder)} cannot be written. A restore writes beside the data folder first, so "
                + $"it must be allowed to write in {System.IO.Path.GetDirectoryName(folder)}.",
                refused);
        }
    }

    /// <summary>Writes a list or a paper into it, under the name that it has in the backup.</summary>
    public async Task KeepAsync(string name, Stream content, CancellationToken cancellation)
    {
        await using var file = new FileStream(
            System.IO.Path.Combine(Path, name), FileMode.CreateNew, FileAccess.Write, FileShare.None);
        await content.CopyToAsync(file, 1 << 20, cancellation);
        file.Flush(flushToDisk: true);
    }

    /// <summary>
    /// Gives the folder its name. Its marker stays until <see cref="Keep"/>: where the register is elsewhere, that is
    /// committed in between.
    /// </summary>
    /// <exception cref="BackupRefusedException">Somebody put something there meanwhile.</exception>
    public void Show()
    {
        _marker.Dispose();
        try
        {
            if (Directory.Exists(_folder))
            {
                Directory.Delete(_folder);   // an empty one only
            }

            Directory.Move(Path, _folder);
            _isShown = true;
        }
        catch (IOException taken)
        {
            throw new BackupRefusedException(
                $"The folder {_folder} could not take its place: {taken.Message} Nothing was restored.", taken);
        }
    }

    /// <summary>Keeps it: the restore is done.</summary>
    public void Keep()
    {
        File.Delete(System.IO.Path.Combine(_folder, Marker));
        _isKept = true;
    }

    public void Dispose()
    {
        _marker.Dispose();
        var left = _isShown ? _folder : Path;
        if (!_isKept && Directory.Exists(left))
        {
            Remove(left);
        }
    }

    private static string BesideOf(string folder) => folder + ".restoring";

    // The marker last: killed half way, what is left is still known to be of a restore.
    private static void Remove(string folder)
    {
        foreach (var inside in Directory.GetDirectories(folder))
        {
            Directory.Delete(inside, recursive: true);
        }

        foreach (var file in Directory.GetFiles(folder).Where(file => System.IO.Path.GetFileName(file) != Marker))
        {
            File.Delete(file);
        }

        Directory.Delete(folder, recursive: true);
    }

    private static bool IsEmpty(string folder) => !Directory.EnumerateFileSystemEntries(folder).Any();

    private static bool IsAbandoned(string folder)
    {
        var marker = System.IO.Path.Combine(folder, Marker);
        if (!File.Exists(marker))
        {
            return false;
        }

        try
        {
            using var held = new FileStream(marker, FileMode.Open, FileAccess.Write, FileShare.None);
            return true;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static void Make(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, OnlyOwner);
        }
    }
}
