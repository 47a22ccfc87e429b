using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Localities;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// Corrects one field of many gatherings after a preview: all that were chosen, or none. What was kept as a
/// duplicate of one of them changes with it.
/// </summary>
public sealed class CorrectMany(
    AccessionDb db, Corrections corrections, CorrectedRecords records, InstitutionClock institution,
    TimeProvider clock)
{
    /// <summary>The most sheets of one act.</summary>
    public const int Most = 200;

    /// <summary>A gathering as it was seen in the preview.</summary>
    public sealed record Chosen(long GatheringId, Guid Version);

    /// <summary>What is to be done.</summary>
    public sealed record Request(IReadOnlyList<Chosen> Gatherings, FactChange Change, string? Reason);

    /// <summary>What would be done to the gatherings of these sheets and to their duplicates.</summary>
    public async Task<IReadOnlyList<CorrectedRecords.Preview>> PreviewAsync(
        IReadOnlyCollection<long> gatheringIds, FactChange change, CancellationToken cancellation)
    {
        var all = await corrections.TogetherAsync(gatheringIds, cancellation);
        db.ChangeTracker.Clear();
        return await records.PreviewAsync(
            [.. all.Select(one => one.Id)], change, institution.Day(clock.GetUtcNow().UtcDateTime), cancellation);
    }

    public Task<Outcome<CorrectRecord.Corrected>> RunAsync(
        Request request, Door door, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var act = Act.Of(door, "correct many records", now, request.Reason);
        return db.CarryOutAsync<CorrectRecord.Corrected>(
            door, act,
            async () =>
            {
                if (CorrectRecord.WhyNot(door.By, request.Reason) is { } refusal)
                {
                    return refusal;
                }

                if (request.Gatherings.Count == 0)
                {
                    return new Refusal(RefusalKind.Invalid, "Tick the records that are to be corrected.");
                }

                var ids = request.Gatherings.Select(one => one.GatheringId).ToList();
                var gatherings = await db.Gatherings.Where(g => ids.Contains(g.Id)).OrderBy(g => g.Id)
                    .ToListAsync(cancellation);
                var seen = request.Gatherings.ToLookup(one => one.GatheringId, one => one.Version);
                if (gatherings.Count < seen.Count || gatherings.Exists(g => !seen[g.Id].Contains(g.Version)))
                {
                    return new Refusal(RefusalKind.Outdated,
                        "Some of these records were changed since you looked. Nothing was done; look at the preview "
                        + "again and repeat it.");
                }

                if (await WhyUnseenAsync(gatherings, request.Change, cancellation) is { } unseen)
                {
                    return unseen;
                }

                var changed = await corrections.ApplyAsync(
                    gatherings.ConvertAll(one => (one, request.Change)), null, institution.Day(now), act,
                    cancellation);
                return changed.IsRefused
                    ? changed.Refusals.ToList()
                    : new CorrectRecord.Corrected(act.Id, changed.Value);
            },
            cancellation);
    }

    // Duplicates are not parted, and no protected place is changed by whoever did not see it.
    private async Task<Refusal?> WhyUnseenAsync(
        List<Gathering> gatherings, FactChange change, CancellationToken cancellation)
    {
        var all = await PreviewOfAllAsync(gatherings, change, cancellation);
        var ids = gatherings.ConvertAll(one => one.Id);
        return all.FirstOrDefault(one => ids.Contains(one.GatheringId) && one.WhyNot.Count > 0) is { } bad
            ? bad.WhyNot[0] with { Reason = $"{bad.Label}: {bad.WhyNot[0].Reason}" }
            : all.FirstOrDefault(one => !ids.Contains(one.GatheringId) && one.Changes.Count > 0) is { } left
                ? new(RefusalKind.Invalid,
                    $"{left.Label} is a record of the same gathering as one you ticked, and changes with it. Tick both "
                    + "or neither.")
                : null;
    }

    private async Task<IReadOnlyList<CorrectedRecords.Preview>> PreviewOfAllAsync(
        List<Gathering> gatherings, FactChange change, CancellationToken cancellation)
    {
        var all = await corrections.TogetherAsync(gatherings.ConvertAll(one => one.Id), cancellation);
        return await records.PreviewAsync(
            [.. all.Select(one => one.Id)], change, institution.Day(clock.GetUtcNow().UtcDateTime), cancellation);
    }
}
