using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Background;

/// <summary>
/// Stops long work, or goes on with work that rests. Stopping is a request: whoever does the work heeds it between two
/// short transactions, so nothing is left half done.
/// </summary>
public sealed class StopWork(AccessionDb db, TimeProvider clock)
{
    /// <summary>Asks a piece of work to stop; answers with its kind.</summary>
    public Task<Outcome<string>> StopAsync(long workId, Door door, CancellationToken cancellation) => ChangeAsync(
        workId, "stop long work", door,
        (work, act) => WorkStop.Of(work.Kind) is { IsPossible: false } never
            ? new Refusal(RefusalKind.Conflict, never.Says)
            : work.Stop(act),
        cancellation);

    /// <summary>Goes on with a piece of work that rests; answers with its kind.</summary>
    public Task<Outcome<string>> GoOnAsync(long workId, Door door, CancellationToken cancellation) =>
        ChangeAsync(workId, "go on with long work", door, (work, _) => work.GoOn(), cancellation);

    private Task<Outcome<string>> ChangeAsync(
        long workId, string what, Door door, Func<WorkRow, Act, Refusal?> change, CancellationToken cancellation)
    {
        var act = Act.Of(door, what, clock.GetUtcNow().UtcDateTime, $"work {workId}");
        return db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                // All long work is a curator's: lists, taking in, archives.
                if (!door.By.Roles.Contains(Role.Curator))
                {
                    return new Refusal(RefusalKind.NotAllowed, "Long work is stopped and gone on with by curators.");
                }

                var work = await db.Work.SingleOrDefaultAsync(row => row.Id == workId, cancellation);
                return work is null ? new Refusal(RefusalKind.NotFound, $"There is no work {workId}.")
                    : change(work, act) is { } refusal ? refusal
                    : work.Kind;
            },
            cancellation);
    }
}
