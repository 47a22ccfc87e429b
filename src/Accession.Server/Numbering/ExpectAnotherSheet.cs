using System.Globalization;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Batches;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>Counts one more sheet of a gathering in the pile than the list promised.</summary>
public sealed class ExpectAnotherSheet(AccessionDb db, TimeProvider clock)
{
    /// <summary>The act, as it stands in the trail.</summary>
    public const string What = "count one more sheet";

    private const string Which = "gathering ";

    public Task<Outcome<string>> RunAsync(long gatheringId, Door door, CancellationToken cancellation) =>
        db.CarryOutAsync<string>(
            door, Act.Of(door, What, clock.GetUtcNow().UtcDateTime, $"{Which}{gatheringId}"),
            async () =>
            {
                var gathering = await db.Gatherings.SingleOrDefaultAsync(g => g.Id == gatheringId, cancellation);
                if (gathering is null)
                {
                    return new Refusal(RefusalKind.NotFound, "That gathering is not in the register.");
                }

                if (await ClosedBatch.WhyNoSheetAsync(db, gathering.AccessionId, cancellation) is { } closed)
                {
                    return closed;
                }

                gathering.ExpectAnotherSheet();
                return $"{gathering.Label} counts {gathering.SheetsExpected} sheets now.";
            },
            cancellation);

    /// <summary>The gathering that such an act counted, from its reason; null when it names none.</summary>
    public static long? GatheringOf(string? reason) =>
        reason?.StartsWith(Which, StringComparison.Ordinal) == true
        && long.TryParse(reason.AsSpan(Which.Length), CultureInfo.InvariantCulture, out var id)
            ? id
            : null;
}
