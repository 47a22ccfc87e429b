using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Server.Hosting;

namespace Accession.Server.Tracking;

/// <summary>
/// Says in which years a person collected. Within them the person's spellings hold; a sheet of another year is not
/// theirs, and may be another's of the same spelling.
/// </summary>
public sealed class StatePersonYears(
    PersonInHand hand, SharedSpellings shared, FoundAnew found, InstitutionClock clock, TimeProvider time)
{
    public sealed record Request(long Id, string? First, string? Last, string? How);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, "state the years of a collector", request.How);
        return hand.OnAsync(
            request.Id, door, act,
            async person =>
            {
                var today = clock.Day(time.GetUtcNow().UtcDateTime);
                var years = CollectingYears.Read(request.First, request.Last, today.Year);
                if (years.IsRefused)
                {
                    return [.. years.Refusals];
                }

                if (act.Reason is null)
                {
                    return [new(RefusalKind.Invalid, "Write how you know in which years this person collected.")];
                }

                var written = person.Written.ToList();
                var refusals = await shared.WhyNotAsync(person.Id, years.Value, written, cancellation);
                if (refusals is [] && person.Collected(years.Value, act) is { } refusal)
                {
                    refusals = [refusal];
                }

                if (refusals is [])
                {
                    await found.WantAsync(written, act, cancellation);
                }

                return refusals;
            },
            cancellation);
    }
}
