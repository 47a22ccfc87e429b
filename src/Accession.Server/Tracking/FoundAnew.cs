using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Matching;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>Has what waiting batches were found to be found anew, after a curator said something of a person.</summary>
public sealed class FoundAnew(AccessionDb db, PersonsInFinding persons)
{
    /// <summary>Writes the work, in the transaction of the act that wants it.</summary>
    /// <param name="written">The spellings that something was said of.</param>
    /// <param name="act">The act.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task WantAsync(IReadOnlyCollection<string> written, Act act, CancellationToken cancellation)
    {
        if (written.Count == 0)
        {
            return;
        }

        var batches = await persons.BatchesAsync(written, cancellation);
        // What nobody began yet will see what is said now.
        var wanted = await db.Work
            .Where(work => work.Kind == PersonsInFinding.Work && batches.Contains(work.Subject)
                && work.FinishedAt == null && work.Owner == null && work.StoppedAt == null)
            .Select(work => work.Subject).ToListAsync(cancellation);
        db.AddRange(batches.Except(wanted).Select(batch => WorkRow.Wanted(PersonsInFinding.Work, batch, act)));
    }
}
