using Accession.Server.Background;
using Accession.Storage.Matching;

namespace Accession.Server.Receiving;

/// <summary>
/// Makes anew what corrected gatherings are compared by, so that the next list meets them as they stand.
/// Its subject is the act that corrected them; it can be begun again anywhere.
/// </summary>
public sealed class SignGatheringsWork(SignGatherings sign) : IWork
{
    public const string Kind = MatchTable.SignAgain;

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        await sign.RepeatAsync(progress.Subject, progress.ReportAsync, cancellation);
        return null;
    }
}
