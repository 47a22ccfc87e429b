using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Filing;

/// <summary>Takes back the sheets that somebody last put in a place together: all of them, or none.</summary>
public sealed class TakeMoveBack(AccessionDb db, MovesBack moves, TimeProvider clock)
{
    /// <summary>What somebody last moved and can take back.</summary>
    /// <param name="ActId">The act of moving.</param>
    /// <param name="Sheets">How many sheets.</param>
    /// <param name="Place">Where they went.</param>
    /// <param name="At">When, in UTC.</param>
    public sealed record Last(long ActId, int Sheets, string Place, DateTime At);

    /// <summary>The last move of somebody that counts; null when there is none.</summary>
    public async Task<Last?> LastOfAsync(string? who, CancellationToken cancellation)
    {
        var entry = await db.Parts.SelectMany(p => p.Places)
            .Where(e => e.TakenBackActId == null && e.Act.ActorId == who && e.Act.What == MoveParts.What)
            .OrderByDescending(e => e.Id)
            .Select(e => new
            {
                e.ActId,
                e.Act.At,
                Place = db.Places.Where(place => place.Id == e.PlaceId).Select(place => place.Name).Single(),
            })
            .FirstOrDefaultAsync(cancellation);
        return entry is null
            ? null
            : new(
                entry.ActId,
                await db.Parts.SelectMany(p => p.Places).CountAsync(e => e.ActId == entry.ActId, cancellation),
                entry.Place, entry.At);
    }

    /// <summary>Answers how many sheets stand where they stood before.</summary>
    /// <param name="actId">The act of moving, as the page showed it.</param>
    /// <param name="door">Who asks; only for their own last move.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<Outcome<int>> RunAsync(long actId, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take a move back", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => TakeBackAsync(actId, door.By, act, cancellation), cancellation);
    }

    private async Task<Outcome<int>> TakeBackAsync(long actId, Actor by, Act act, CancellationToken cancellation)
    {
        var last = by.Roles.Overlaps([Role.Curator, Role.Technician])
            ? await LastOfAsync(by.Id, cancellation)
            : null;
        if (last?.ActId != actId)
        {
            return new Refusal(RefusalKind.Conflict, "That is not your last move, or it was taken back already.");
        }

        await db.SaveChangesAsync(cancellation);   // the entries name this act
        var parts = await db.Parts.Include(p => p.Places).ThenInclude(e => e.Act).AsSplitQuery()
            .Where(p => p.Places.Any(e => e.ActId == actId)).OrderBy(p => p.Id).ToListAsync(cancellation);
        var followed = parts.Select(part => part.PlanId).OfType<long>().Distinct().ToList();
        var plans = await db.StepPlans.AsNoTracking().Where(plan => followed.Contains(plan.Id))
            .ToDictionaryAsync(plan => plan.Id, cancellation);
        List<Refusal> refusals = [];
        foreach (var part in parts)
        {
            var newest = part.Places.Where(e => e.TakenBackActId is null).MaxBy(e => e.Id);
            var refusal = newest?.ActId == actId
                ? await moves.TakeBackAsync(part, part.PlanId is { } id ? plans[id] : null, act, cancellation)
                : new(RefusalKind.Conflict,
                    $"{part.Code} was moved again since. Move it, rather than taking this back.");
            if (refusal is not null)
            {
                refusals.Add(refusal);
            }
        }

        return refusals is [] ? parts.Count : refusals;
    }
}
