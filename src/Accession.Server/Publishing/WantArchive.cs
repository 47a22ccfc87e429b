using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Publishing;

/// <summary>Asks for an archive of the register as it will be when the building begins.</summary>
public sealed class WantArchive(AccessionDb db, DatasetVersions versions, DatasetTexts texts, TimeProvider clock)
{
    /// <param name="InBackground">Whether the server shall build it; a command builds its own.</param>
    public sealed record Request(bool InBackground);

    /// <param name="ActId">The act under which it is built.</param>
    public sealed record Wanted(long ActId);

    public Task<Outcome<Wanted>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, DatasetVersions.Building, clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => WantAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<Wanted>> WantAsync(Request request, Act act, CancellationToken cancellation)
    {
        // Asked before anybody waits: an archive without a title is refused here, not after an hour's work.
        if (texts.Refusals() is { Count: > 0 } refusals)
        {
            return refusals.ToList();
        }

        var isBeingBuilt = request.InBackground && await db.Work.AnyAsync(
            work => work.Kind == BuildArchiveWork.Kind && work.FinishedAt == null, cancellation);
        if (isBeingBuilt)
        {
            return new Refusal(RefusalKind.Conflict, "An archive is being built already. Wait until it is done.");
        }

        await versions.EnsureBegunAsync(act.At, cancellation);
        await db.SaveChangesAsync(cancellation);
        if (request.InBackground)
        {
            db.Add(WorkRow.Wanted(BuildArchiveWork.Kind, BuildArchiveWork.TheDataset, act));
        }

        return new Wanted(act.Id);
    }
}
