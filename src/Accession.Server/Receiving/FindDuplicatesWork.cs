using Accession.Server.Background;
using Accession.Storage;
using Accession.Storage.Matching;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Finds what the rows of a batch are. Its subject is the batch; it can be begun again anywhere.</summary>
public sealed class FindDuplicatesWork(AccessionDb db, FindDuplicates find) : IWork
{
    public const string Kind = PersonsInFinding.Work;

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        // While labels are typed it is wanted again before it is done: one goes through the rows after the other.
        if (await db.Work.AnyAsync(
            work => work.Kind == Kind && work.Subject == progress.Subject && work.Id < progress.WorkId
                && work.FinishedAt == null && work.StoppedAt == null,
            cancellation))
        {
            throw new WorkMustWaitException("Duplicates of this batch are being looked for already.");
        }

        await find.StageAndFindAsync(progress.Subject, progress.ReportAsync, cancellation);
        return null;
    }
}
