using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Arriving;

/// <summary>
/// Lets tags be issued again after the register was put back from a backup, behind the highest one that is on a parcel.
/// </summary>
public sealed class OpenTags(AccessionDb db, TimeProvider clock)
{
    /// <param name="Highest">The highest tag on a parcel; empty when none was given out since the backup.</param>
    public sealed record Request(string? Highest);

    /// <summary>Answers how many tags are on parcels that the register does not know.</summary>
    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "say which tag is the highest", clock.GetUtcNow().UtcDateTime, request.Highest);
        return db.CarryOutAsync<int>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Overlaps([Role.Curator, Role.Technician]))
                {
                    return new Refusal(RefusalKind.NotAllowed, "Parcels are for technicians and curators.");
                }

                var (year, number) = (0, 0);
                if (!string.IsNullOrWhiteSpace(request.Highest)
                    && !Parcel.TryReadTag(request.Highest, out year, out number))
                {
                    return new Refusal(RefusalKind.Invalid, "Write the tag as it stands on the parcel: Q2026-0014.");
                }

                if (year > act.At.Year + 1)
                {
                    return new Refusal(RefusalKind.Invalid, $"No tag of {year} can be on a parcel yet.");
                }

                var counter = await db.TagCounters.Held().SingleAsync(c => c.Kind == TagKind.Parcel, cancellation);
                if (counter.Open(year, number, act, out var lost) is { } refusal)
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
