using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Localities;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// Takes back everything that one act corrected, by a reversing act; or nothing, where some of it was corrected again.
/// </summary>
public sealed class TakeCorrectionsBack(
    AccessionDb db, Corrections corrections, CorrectedRecords records, InstitutionClock institution,
    TimeProvider clock)
{
    public sealed record Request(long ActId, string? Reason);

    public Task<Outcome<CorrectRecord.Corrected>> RunAsync(
        Request request, Door door, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var act = Act.Of(door, "take corrections back", now, request.Reason);
        return db.CarryOutAsync<CorrectRecord.Corrected>(
            door, act,
            async () =>
            {
                if (CorrectRecord.WhyNot(door.By, request.Reason) is { } refusal)
                {
                    return refusal;
                }

                var back = await records.TakingBackAsync(request.ActId, cancellation);
                if (back.Count == 0)
                {
                    return new Refusal(RefusalKind.NotFound, "There is no such correction.");
                }

                if (await db.Corrections.AnyAsync(c => c.TakesBackActId == request.ActId, cancellation))
                {
                    return new Refusal(RefusalKind.Conflict, "It was taken back already.");
                }

                var gatherings = await db.Gatherings.Where(g => back.Keys.Contains(g.Id)).OrderBy(g => g.Id)
                    .ToListAsync(cancellation);
                var changed = await corrections.ApplyAsync(
                    gatherings.ConvertAll(one => (one, back[one.Id])), request.ActId, institution.Day(now), act,
                    cancellation);
                return changed.IsRefused
                    ? changed.Refusals.ToList()
                    : new CorrectRecord.Corrected(act.Id, changed.Value);
            },
            cancellation);
    }
}
