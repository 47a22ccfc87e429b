using System.Globalization;
using System.Runtime.CompilerServices;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Localities;

/// <summary>
/// The one class that reads exact places. It takes who asks, and every look is an act on record; search, lists and
/// exports have no way here.
/// </summary>
public sealed class ExactLocalities(AccessionDb db, TimeProvider clock)
{
    private const int LooksOfAnEntry = 100;

    /// <summary>An exact place in words, for a person who may see it.</summary>
    public sealed record Shown(
        string Municipality, string Locality, string Coordinates, string Elevation, string Habitat, string Remarks);

    /// <summary>Shows the exact place of a protected gathering, and puts the look on record.</summary>
    public Task<Outcome<Shown>> LookAsync(long gatheringId, Door asked, CancellationToken cancellation)
    {
        // Without the key nothing of the answer is stored with the act; looking again is looking again.
        var door = asked with { RequestKey = null };
        return db.CarryOutAsync<Shown>(
            door,
            Act.Of(door, "look at an exact place", clock.GetUtcNow().UtcDateTime, $"gathering {gatheringId}"),
            async () =>
            {
                if (!door.By.MaySeeExactLocalities)
                {
                    return new Refusal(RefusalKind.NotAllowed, "Exact places of protected plants are for curators.");
                }

                return await HeldAsync(gatheringId, cancellation) is { } exact
                    ? Show(exact)
                    : new Refusal(RefusalKind.NotFound, "Nothing is kept apart for this gathering.");
            },
            cancellation);
    }

    /// <summary>
    /// Shows the exact places of protected gatherings for their labels, and puts the looks on record: an entry for each
    /// hundred.
    /// </summary>
    public async Task<Outcome<Dictionary<long, Shown>>> LookForLabelsAsync(
        IReadOnlyList<long> gatheringIds, Door asked, CancellationToken cancellation)
    {
        var door = asked with { RequestKey = null };
        Dictionary<long, Shown> shown = [];
        foreach (var some in gatheringIds.Chunk(LooksOfAnEntry))
        {
            var act = Act.Of(
                door, "look at exact places to print labels", clock.GetUtcNow().UtcDateTime,
                $"gatherings {string.Join(", ", some)}");
            var looked = await db.CarryOutAsync<List<ExactLocality>>(
                door, act,
                async () => door.By.MaySeeExactLocalities
                    ? await db.Set<ExactLocality>().Where(exact => some.Contains(exact.GatheringId))
                        .ToListAsync(cancellation)
                    : new Refusal(RefusalKind.NotAllowed, "Exact places of protected plants are for curators."),
                cancellation);
            if (looked.IsRefused)
            {
                return looked.Refusals.ToList();
            }

            looked.Value.ForEach(exact => shown[exact.GatheringId] = Show(exact));
        }

        return shown;
    }

    /// <summary>Protects the place of a gathering, or lifts the protection, within the act of the caller.</summary>
    public async Task<Refusal?> ProtectAsync(
        Gathering gathering, LocalityProtection.Decision decision, Act act, CancellationToken cancellation)
    {
        var held = await HeldAsync(gathering.Id, cancellation);
        var exact = gathering.Protect(decision, held, act);
        if (exact.IsRefused)
        {
            return exact.Refusals[0];
        }

        if (decision.Category == SensitivityCategory.NotSensitive)
        {
            db.RemoveRange(held is null ? [] : new[] { held });
        }
        else if (held is null)
        {
            db.Add(exact.Value);
        }

        // The words of the place are taken from where sheets are found, or given back, in the same act.
        foreach (var sheet in await db.Specimens.Include(s => s.Gathering).AsSplitQuery()
            .Where(s => s.GatheringId == gathering.Id).ToListAsync(cancellation))
        {
            sheet.TellWords();
        }

        return null;
    }

    /// <summary>
    /// The protected gatherings whose public place does not follow from the exact one. For <c>verify</c>: it learns
    /// which, never what.
    /// </summary>
    public async IAsyncEnumerable<long> WronglyShownAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        var held = db.Set<ExactLocality>().AsNoTracking().OrderBy(exact => exact.GatheringId)
            .Select(exact => new { Exact = exact, exact.Gathering.Place, exact.Gathering.Protection });
        await foreach (var row in held.AsAsyncEnumerable().WithCancellation(cancellation))
        {
            if (row.Exact.AsEveryoneMayKnow(row.Place, row.Protection) != row.Place)
            {
                yield return row.Exact.GatheringId;
            }
        }
    }

    private Task<ExactLocality?> HeldAsync(long gatheringId, CancellationToken cancellation) =>
        db.Set<ExactLocality>().SingleOrDefaultAsync(exact => exact.GatheringId == gatheringId, cancellation);

    private static Shown Show(ExactLocality exact) => new(
        exact.Municipality,
        exact.Locality,
        exact.CoordinatesVerbatim.Length > 0
            ? exact.CoordinatesVerbatim
            : string.Create(CultureInfo.InvariantCulture, $"{exact.Latitude}, {exact.Longitude}").Trim(',', ' '),
        exact.ElevationVerbatim,
        exact.Habitat,
        exact.Remarks);
}
