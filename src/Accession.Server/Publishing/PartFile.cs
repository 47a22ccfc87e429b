namespace Accession.Server.Publishing;

/// <summary>
/// A file that has its name only when it is whole: it is written under another name beside it, brought to the disk, and
/// renamed. What a killed process leaves behind ends with <c>.part</c> and is never taken for an archive.
/// </summary>
internal sealed class PartFile : IDisposable
{
    private const string Ending = ".part";
    private static readonly TimeSpan Abandoned = TimeSpan.FromDays(1);

    private readonly string _file;
    private readonly string _part;

    public PartFile(string file)
    {
        _file = file;
        _part = $"{file}.{Guid.NewGuid():N}{Ending}";
        Content = new FileStream(_part, new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.Write,
            Share = FileShare.None,
            BufferSize = 128 * 1024,
        });
    }

    /// <summary>What is written.</summary>
    public FileStream Content { get; }

    /// <summary>Gives the file its name; returns its length.</summary>
    /// <exception cref="IOException">The name is taken, and it was not to be replaced.</exception>
    public long Keep(bool replace)
    {
        Content.Flush(flushToDisk: true);
        var bytes = Content.Length;
        Content.Dispose();
        File.Move(_part, _file, replace);
        return bytes;
    }

    public void Dispose()
    {
        Content.Dispose();
        File.Delete(_part);   // nothing is there any more when it was kept
    }

    /// <summary>Deletes what killed processes left in a folder.</summary>
    public static void ClearAbandoned(string folder, DateTime now)
    {
        foreach (var file in Directory.EnumerateFiles(folder, $"*{Ending}"))
        {
            if (File.GetLastWriteTimeUtc(file) < now - Abandoned)
            {
                File.Delete(file);
            }
        }
    }
}
