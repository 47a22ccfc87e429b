namespace Accession.Server.Shared;

/// <summary>
/// A file that has its name only when it is whole: it is written under another name beside it, brought to the disk, and
/// renamed. What a killed process leaves behind ends with <c>.part</c> and is never taken for the file itself.
/// </summary>
internal sealed class PartFile : IDisposable
{
    private const string Ending = ".part";
    private static readonly TimeSpan Abandoned = TimeSpan.FromDays(1);

    private readonly string _file;

    /// <param name="file">The name that it is to have.</param>
    /// <param name="kind">Stands before the ending, where files of others may lie in the same folder.</param>
    /// <param name="mode">Who may read and write it, where the system knows that; null for what is usual.</param>
    public PartFile(string file, string kind = "", UnixFileMode? mode = null)
    {
        _file = file;
        Name = $"{file}.{Guid.NewGuid():N}{kind}{Ending}";
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.Write,
            Share = FileShare.None,
            BufferSize = 128 * 1024,
        };
        if (mode is not null && !OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = mode;
        }

        Content = new FileStream(Name, options);
    }

    /// <summary>The name that it has until it is whole.</summary>
    public string Name { get; }

    /// <summary>What is written.</summary>
    public FileStream Content { get; }

    /// <summary>Gives the file its name; returns its length.</summary>
    /// <exception cref="IOException">The name is taken, and it was not to be replaced.</exception>
    public long Keep(bool replace) => KeepAs(_file, replace);

    /// <summary>Gives the file a name in the same folder that is known only now; returns its length.</summary>
    /// <exception cref="IOException">The name is taken, and it was not to be replaced.</exception>
    public long KeepAs(string file, bool replace)
    {
        Content.Flush(flushToDisk: true);
        var bytes = Content.Length;
        Content.Dispose();
        File.Move(Name, file, replace);
        return bytes;
    }

    public void Dispose()
    {
        Content.Dispose();
        File.Delete(Name);   // nothing is there any more when it was kept
    }

    /// <summary>Deletes what killed processes left in a folder.</summary>
    public static void ClearAbandoned(string folder, DateTime now, string kind = "")
    {
        foreach (var file in Directory.EnumerateFiles(folder, $"*{kind}{Ending}"))
        {
            if (File.GetLastWriteTimeUtc(file) < now - Abandoned)
            {
                File.Delete(file);
            }
        }
    }
}
