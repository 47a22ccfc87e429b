using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>
/// Lets loads be listed again after the register was put back from a backup, behind the highest number on a slip.
/// </summary>
public sealed class OpenLoadNumbers(AccessionDb db, TimeProvider clock)
{
    /// <param name="Highest">The highest number on a slip; null when no load was listed since the backup.</param>
    public sealed record Request(int? Highest);

    /// <summary>Answers how many loads are on slips that the register does not know.</summary>
    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(
            door, "say which load is the highest", clock.GetUtcNow().UtcDateTime, request.Highest?.ToString("0", null));
        return db.CarryOutAsync<int>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Overlaps([Role.Curator, Role.Technician]))
                {
                    return new Refusal(RefusalKind.NotAllowed, "Freezers are for technicians and curators.");
                }

                var counter = await db.TagCounters.Held().SingleAsync(c => c.Kind == TagKind.Load, cancellation);
                if (counter.Open(0, request.Highest ?? 0, act, out var lost) is { } refusal)
                {
                    return refusal;
                }

                if (lost is not null)
                {
                    db.Add(lost);
                }

                return lost is null ? 0 : lost.Last - lost.First + 1;
            },
            cancellation);
    }
}
