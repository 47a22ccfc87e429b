using System.IO.Compression;
using System.IO.Pipelines;
using System.Text;
using Accession.Core.Standards.DarwinCore;
using Accession.Core.Standards.Eml;
using Accession.Storage.Databases;
using Accession.Storage.Databases.Archives;

namespace Accession.Server.Publishing;

/// <summary>
/// Writes the files of an archive into a zip as they come from the database: one thread reads lines, one compresses
/// them, and a quarter of a megabyte lies between them at most, however large the register is.
/// </summary>
internal sealed class ArchiveZip(
    ZipArchive zip, IArchiveMoment moment, DatasetCells cells, Func<long, CancellationToken, Task> onLines)
{
    private static readonly PipeOptions Between = new(
        pauseWriterThreshold: 256 * 1024,
        resumeWriterThreshold: 128 * 1024,
        minimumSegmentSize: 32 * 1024,
        useSynchronizationContext: false);

    private long _linesBefore;

    /// <summary>Writes the descriptor of the archive and that of the data set.</summary>
    public void WriteDescriptors(DatasetDescription dataset)
    {
        using (var meta = zip.CreateEntry(ArchiveDescriptor.FileName).Open())
        {
            ArchiveDescriptor.Write(meta, OccurrenceColumns.File, IdentificationColumns.File);
        }

        using var eml = zip.CreateEntry(EmlDocument.FileName).Open();
        EmlDocument.Write(eml, dataset);
    }

    /// <summary>Writes one file with all its lines.</summary>
    /// <returns>How many lines it has, without the heading.</returns>
    public async Task<long> WriteAsync(ArchiveFile file, CancellationToken cancellation)
    {
        var pipe = new Pipe(Between);
        await using var entry = zip.CreateEntry(file.Name, CompressionLevel.Optimal).Open();
        await entry.WriteAsync(Encoding.UTF8.GetBytes(file.HeadingLine), cancellation);
        var lines = new LineWriter(pipe.Writer, (count, c) => onLines(_linesBefore + count, c));

        // Both are awaited whatever happens: the reader must have let go of its connection before that is closed.
        await Task.WhenAll(
            Task.Run(() => CompressAsync(pipe.Reader, entry, cancellation), CancellationToken.None),
            Task.Run(() => ReadAsync(file, lines, pipe.Writer, cancellation), CancellationToken.None));
        _linesBefore += lines.Lines;
        return lines.Lines;
    }

    private async Task ReadAsync(ArchiveFile file, LineWriter lines, PipeWriter writer, CancellationToken cancellation)
    {
        Exception? failure = null;
        try
        {
            await moment.WriteAsync(file, cells, lines, cancellation);
        }
        catch (Exception stopped)
        {
            failure = stopped;
            throw;
        }
        finally
        {
            await writer.CompleteAsync(failure);
        }
    }

    private static async Task CompressAsync(PipeReader reader, Stream entry, CancellationToken cancellation)
    {
        try
        {
            await reader.CopyToAsync(entry, cancellation);
        }
        finally
        {
            await reader.CompleteAsync();
        }
    }
}
