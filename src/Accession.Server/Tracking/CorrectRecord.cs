using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Localities;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// Corrects facts of one accepted gathering with a reason. All records that were kept as its duplicates change with it.
/// </summary>
public sealed class CorrectRecord(
    AccessionDb db, Corrections corrections, InstitutionClock institution, TimeProvider clock)
{
    /// <summary>What is to stand.</summary>
    /// <param name="GatheringId">The gathering.</param>
    /// <param name="Seen">The version that was seen; null where the door has asked already.</param>
    /// <param name="Typed">What was typed into each field that is meant.</param>
    /// <param name="Reason">Why.</param>
    public sealed record Request(
        long GatheringId, Guid? Seen, IReadOnlyDictionary<CorrectedField, string?> Typed, string? Reason);

    /// <summary>What was done.</summary>
    /// <param name="ActId">The act, by which it can be looked up and taken back.</param>
    /// <param name="Gatherings">How many records were changed.</param>
    public sealed record Corrected(long ActId, int Gatherings);

    public Task<Outcome<Corrected>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var act = Act.Of(door, "correct a record", now, request.Reason);
        return db.CarryOutAsync<Corrected>(
            door, act,
            async () =>
            {
                if (WhyNot(door.By, request.Reason) is { } refusal)
                {
                    return refusal;
                }

                var all = await corrections.TogetherAsync([request.GatheringId], cancellation);
                if (all.Find(one => one.Id == request.GatheringId) is not { } gathering)
                {
                    return new Refusal(RefusalKind.NotFound, "That gathering is not in the register.");
                }

                if (request.Seen is { } seen && seen != gathering.Version)
                {
                    return await WhoWasFasterAsync(gathering.Id, cancellation);
                }

                var change = new FactChange.Set(request.Typed);
                var changed = await corrections.ApplyAsync(
                    all.ConvertAll(one => (one, (FactChange)change)), null, institution.Day(now), act, cancellation);
                return changed.IsRefused ? changed.Refusals.ToList() : new Corrected(act.Id, changed.Value);
            },
            cancellation);
    }

    /// <summary>Why somebody may not correct records, or not so; null when they may.</summary>
    internal static Refusal? WhyNot(Actor by, string? reason) => !by.Roles.Contains(Role.Curator)
        ? new(RefusalKind.NotAllowed, "Correcting accepted records is for curators.")
        : reason?.Trim().Length > LongestReason
            ? new(RefusalKind.Invalid, $"The reason has more than {LongestReason:N0} characters.")
            {
                Field = nameof(Act.Reason),
            }
            : null;

    internal const int LongestReason = 2000;

    private async Task<Refusal> WhoWasFasterAsync(long gatheringId, CancellationToken cancellation)
    {
        var last = await db.Corrections.Where(c => c.GatheringId == gatheringId).OrderByDescending(c => c.Id)
            .Select(c => new { c.Act.ActorName, c.Act.At }).FirstOrDefaultAsync(cancellation);
        var who = last is null
            ? "Somebody changed this record since you opened it."
            : $"{last.ActorName} corrected this record at {institution.Show(last.At)}, and you had it open from "
                + "before.";
        return new(RefusalKind.Outdated,
            $"{who} Nothing of yours was saved: what stands now is beside each field, and what you typed is still in "
            + "it. Look at both and repeat it.");
    }
}
