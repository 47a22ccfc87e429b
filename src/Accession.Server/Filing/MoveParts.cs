using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Filing;

/// <summary>Puts sheets in a place: all of them, or none. The gate stands in <see cref="Part.Move"/>.</summary>
public sealed class MoveParts(AccessionDb db, TimeProvider clock)
{
    /// <summary>The act, as it stands in the trail.</summary>
    public const string What = "put sheets in a place";

    /// <summary>How many can be moved at once.</summary>
    public const int Most = 500;

    public sealed record Request(IReadOnlyList<string> Codes, long? PlaceId, string? Reason);

    public sealed record Moved(int Parts, string Place);

    public Task<Outcome<Moved>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, What, clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync(door, act, () => MoveAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<Moved>> MoveAsync(Request request, Act act, CancellationToken cancellation)
    {
        var codes = request.Codes.Distinct(StringComparer.Ordinal).ToList();
        if (codes.Count is 0 or > Most || act.Reason?.Length > Waiver.LongestReason)
        {
            return new Refusal(RefusalKind.Invalid,
                $"Scan one sheet at least and {Most} at most; a reason has {Waiver.LongestReason} characters at most.");
        }

        var place = await db.Places.SingleOrDefaultAsync(p => p.Id == request.PlaceId, cancellation);
        if (place is null)
        {
            return new Refusal(RefusalKind.Invalid, "Choose the place where they go.");
        }

        var parts = await db.Parts.Where(p => codes.Contains(p.Code)).OrderBy(p => p.Id).ToListAsync(cancellation);
        var found = parts.ToLookup(part => part.Code);
        List<Refusal> refusals =
        [
            .. codes.Where(code => found[code].Count() != 1).Select(code => new Refusal(RefusalKind.NotFound,
                found[code].Any()
                    ? $"{code} is on more than one sheet, so nobody knows which is meant."
                    : $"There is no sheet {code}.")),
        ];
        var followed = parts.Select(part => part.PlanId).OfType<long>().Distinct().ToList();
        var plans = await db.StepPlans.AsNoTracking().Where(plan => followed.Contains(plan.Id))
            .ToDictionaryAsync(plan => plan.Id, cancellation);
        refusals.AddRange(parts
            .Select(part => part.Move(place, part.PlanId is { } id ? plans[id] : null, act)).OfType<Refusal>());
        return refusals is [] ? new Moved(parts.Count, place.Name) : refusals;
    }
}
