using Accession.Server.Background;

namespace Accession.Server.Receiving;

/// <summary>Finds what the rows of a batch are. Its subject is the batch; it can be begun again anywhere.</summary>
public sealed class FindDuplicatesWork(FindDuplicates find) : IWork
{
    public const string Kind = "find duplicates";

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        await find.StageAndFindAsync(progress.Subject, progress.ReportAsync, cancellation);
        return null;
    }
}
