using Accession.Core.Standards.DarwinCore;
using Accession.Storage.Databases.Archives;

namespace Accession.Storage.Databases;

/// <summary>The bulk path of publishing: the lines of an archive, copied out in the order of the specimens.</summary>
public interface IArchiveLines
{
    /// <summary>
    /// Holds the register still for a reader on a connection of its own: whatever is written meanwhile, every file read
    /// through the answer shows this one moment. Nobody is kept from writing.
    /// </summary>
    Task<IArchiveMoment> HoldAsync(AccessionDb db, CancellationToken cancellation);
}

/// <summary>The register at one moment. Disposing lets it go.</summary>
public interface IArchiveMoment : IAsyncDisposable
{
    /// <summary>How many lines a file will have, without its heading.</summary>
    Task<long> CountAsync(ArchiveFile file, CancellationToken cancellation);

    /// <summary>Writes the lines of a file, without its heading.</summary>
    Task WriteAsync(ArchiveFile file, DatasetCells cells, LineWriter lines, CancellationToken cancellation);
}
