using Accession.Core.Determinations;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Determining;

/// <summary>
/// Puts on record what a slip says. A curator says at once whether its name counts; what a determiner says waits for a
/// curator.
/// </summary>
public sealed class RecordOpinion(AccessionDb db, InstitutionClock institution, TimeProvider clock)
{
    /// <summary>An opinion about a specimen.</summary>
    /// <param name="SpecimenId">The specimen.</param>
    /// <param name="Slip">What the slip says.</param>
    /// <param name="Counts">Whether its name counts from now on; a curator's to say.</param>
    public sealed record Request(long SpecimenId, Opinion.Typed Slip, bool Counts);

    /// <summary>What was recorded.</summary>
    /// <param name="Name">The name of the opinion.</param>
    /// <param name="Waits">Whether a curator has still to say whether it counts.</param>
    /// <param name="Counts">Whether it is the current name now.</param>
    /// <param name="IsDenied">Whether the name was denied, and no other given.</param>
    public sealed record Recorded(string Name, bool Waits, bool Counts, bool IsDenied = false);

    public Task<Outcome<Recorded>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var act = Act.Of(door, "record a determination", now);
        return db.CarryOutAsync(
            door, act, () => RecordAsync(request, act, door.By, institution.Day(now), cancellation), cancellation);
    }

    private async Task<Outcome<Recorded>> RecordAsync(
        Request request, Act act, Actor by, DateOnly today, CancellationToken cancellation)
    {
        var isCurator = by.Roles.Contains(Role.Curator);
        if (!isCurator && !by.Roles.Contains(Role.Determiner))
        {
            return new Refusal(RefusalKind.NotAllowed, "Naming sheets is for determiners and curators.");
        }

        var opinion = Opinion.Read(request.Slip, today);
        if (opinion.IsRefused)
        {
            return opinion.Refusals.ToList();
        }

        var specimen = await db.Specimens.Include(s => s.Gathering).AsSplitQuery()
            .SingleOrDefaultAsync(s => s.Id == request.SpecimenId, cancellation);
        if (specimen is null)
        {
            return new Refusal(RefusalKind.NotFound, "That sheet is not in the register.");
        }

        var recorded = specimen.Record(opinion.Value, act);
        if (recorded.IsRefused)
        {
            return recorded.Refusals.ToList();
        }

        var isDenied = opinion.Value.Kind == DeterminationKind.Rejection;
        var counts = isCurator && request.Counts && !isDenied;
        if (isCurator)
        {
            // The key of the opinion is known once it is stored; all of it is one act.
            await db.SaveChangesAsync(cancellation);
            if (specimen.Choose(recorded.Value.Id, counts, act) is { } refusal)
            {
                return refusal;
            }
        }

        return new Recorded(opinion.Value.Name, Waits: !isCurator, counts, isDenied);
    }
}
