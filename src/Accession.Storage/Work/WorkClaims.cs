using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Work;

/// <summary>
/// Claiming, keeping and ending work. Each step is one conditional update: whoever no longer owns the work learns it
/// there, and nothing it did after losing the lease counts.
/// </summary>
public sealed class WorkClaims(AccessionDb db, TimeProvider clock)
{
    /// <summary>How long an owner may be silent before another process takes its work over.</summary>
    public static readonly TimeSpan Lease = TimeSpan.FromSeconds(30);

    /// <summary>After this many attempts work is given up, and says so.</summary>
    public const int MostAttempts = 5;

    /// <summary>Claims a piece of work; null when somebody else has it or it is finished.</summary>
    public async Task<WorkRow?> ClaimAsync(long id, string owner, CancellationToken cancellation)
    {
        var now = Now;
        var claimed = await db.Work
            .Where(work => work.Id == id && work.FinishedAt == null && work.StoppedAt == null
                && (work.LeaseUntil == null || work.LeaseUntil < now)
                && (work.NotBefore == null || work.NotBefore <= now))
            .ExecuteUpdateAsync(
                row => row
                    .SetProperty(work => work.Owner, owner)
                    .SetProperty(work => work.LeaseUntil, now + Lease)
                    .SetProperty(work => work.BegunAt, now)
                    .SetProperty(work => work.Attempts, work => work.Attempts + 1),
                cancellation);
        return claimed == 1 ? await db.Work.AsNoTracking().SingleAsync(work => work.Id == id, cancellation) : null;
    }

    /// <summary>Says how far the work is and keeps the lease.</summary>
    /// <exception cref="WorkLostException">Somebody else has taken the work over.</exception>
    /// <exception cref="WorkStoppedException">Somebody asked to stop it; how far it is was noted.</exception>
    public async Task ReportAsync(long id, string owner, long done, long total, CancellationToken cancellation)
    {
        if (await NoteAsync(Owned(id, owner).Where(work => work.StopActId == null), done, total, cancellation) == 0)
        {
            ThrowIfLost(await NoteAsync(Owned(id, owner), done, total, cancellation), id);
            throw new WorkStoppedException(id);
        }
    }

    /// <summary>Ends the work well.</summary>
    public async Task FinishAsync(long id, string owner, string? result, CancellationToken cancellation)
    {
        var now = Now;
        var ended = await Owned(id, owner).ExecuteUpdateAsync(
            row => row
                .SetProperty(work => work.FinishedAt, now)
                .SetProperty(work => work.LeaseUntil, (DateTime?)null)
                .SetProperty(work => work.Result, result),
            cancellation);
        ThrowIfLost(ended, id);
    }

    /// <summary>Ends the work badly, with a sentence for whoever waits for it.</summary>
    public Task FailAsync(long id, string owner, string failure, CancellationToken cancellation)
    {
        var now = Now;
        return Owned(id, owner).ExecuteUpdateAsync(
            row => row
                .SetProperty(work => work.FinishedAt, now)
                .SetProperty(work => work.LeaseUntil, (DateTime?)null)
                .SetProperty(work => work.Failure, failure),
            cancellation);
    }

    /// <summary>Stops the work as somebody asked: for good, or until somebody goes on with it.</summary>
    public Task StopAsync(long id, string owner, bool forGood, CancellationToken cancellation)
    {
        var now = Now;
        return Owned(id, owner).ExecuteUpdateAsync(
            row => row
                .SetProperty(work => work.Owner, (string?)null)
                .SetProperty(work => work.LeaseUntil, (DateTime?)null)
                .SetProperty(work => work.StoppedAt, now)
                .SetProperty(work => work.FinishedAt, forGood ? now : null),
            cancellation);
    }

    /// <summary>Lets the work go, so that it is tried again when the next sweep finds it.</summary>
    public Task ReleaseAsync(long id, string owner, CancellationToken cancellation) =>
        Owned(id, owner).ExecuteUpdateAsync(
            row => row
                .SetProperty(work => work.Owner, (string?)null)
                .SetProperty(work => work.LeaseUntil, (DateTime?)null),
            cancellation);

    /// <summary>
    /// Puts work off, as if it had not been begun: to a later time, or until the work it waits for is done.
    /// </summary>
    public Task PutOffAsync(long id, string owner, DateTime? until, CancellationToken cancellation) =>
        Owned(id, owner).ExecuteUpdateAsync(
            row => row
                .SetProperty(work => work.Owner, (string?)null)
                .SetProperty(work => work.LeaseUntil, (DateTime?)null)
                .SetProperty(work => work.NotBefore, until)
                .SetProperty(work => work.Attempts, work => work.Attempts - 1),
            cancellation);

    /// <summary>Lets work of a kind begin that was put off to a later time.</summary>
    public async Task<List<long>> WakeAsync(string kind, CancellationToken cancellation)
    {
        var unfinished = db.Work.Where(work => work.Kind == kind && work.FinishedAt == null && work.Owner == null);
        await unfinished.ExecuteUpdateAsync(
            row => row.SetProperty(work => work.NotBefore, (DateTime?)null), cancellation);
        return await unfinished.Select(work => work.Id).ToListAsync(cancellation);
    }

    /// <summary>Lets go of the work of owners that are known to be dead, without waiting for their leases.</summary>
    public async Task ReleaseOfDeadAsync(Func<string, bool> isDead, CancellationToken cancellation)
    {
        var held = await db.Work.Where(work => work.FinishedAt == null && work.Owner != null)
            .Select(work => new { work.Id, Owner = work.Owner! }).ToListAsync(cancellation);
        foreach (var work in held.Where(work => isDead(work.Owner)))
        {
            await ReleaseAsync(work.Id, work.Owner, cancellation);
        }
    }

    /// <summary>
    /// The work that nobody has: not finished, not resting, not put off, and without a living owner.
    /// </summary>
    public Task<List<long>> UnclaimedAsync(CancellationToken cancellation)
    {
        var now = Now;
        return db.Work
            .Where(work => work.FinishedAt == null && work.StoppedAt == null
                && (work.LeaseUntil == null || work.LeaseUntil < now)
                && (work.NotBefore == null || work.NotBefore <= now))
            .OrderBy(work => work.Id)
            .Select(work => work.Id)
            .ToListAsync(cancellation);
    }

    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    private IQueryable<WorkRow> Owned(long id, string owner) =>
        db.Work.Where(work => work.Id == id && work.Owner == owner && work.FinishedAt == null);

    // While nothing is counted yet the time of the count has not begun: what is left is reckoned from it.
    private Task<int> NoteAsync(IQueryable<WorkRow> work, long done, long total, CancellationToken cancellation)
    {
        var now = Now;
        return work.ExecuteUpdateAsync(
            row =>
            {
                row.SetProperty(w => w.Done, done)
                    .SetProperty(w => w.Total, total)
                    .SetProperty(w => w.LeaseUntil, now + Lease);
                if (done == 0)
                {
                    row.SetProperty(w => w.BegunAt, now);
                }
            },
            cancellation);
    }

    private static void ThrowIfLost(int rows, long id)
    {
        if (rows == 0)
        {
            throw new WorkLostException(id);
        }
    }
}
