using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>Counts one more sheet of a gathering in the pile than the list promised.</summary>
public sealed class ExpectAnotherSheet(AccessionDb db, TimeProvider clock)
{
    public Task<Outcome<string>> RunAsync(long gatheringId, Door door, CancellationToken cancellation) =>
        db.CarryOutAsync<string>(
            door, Act.Of(door, "count one more sheet", clock.GetUtcNow().UtcDateTime, $"gathering {gatheringId}"),
            async () =>
            {
                var gathering = await db.Gatherings.SingleOrDefaultAsync(g => g.Id == gatheringId, cancellation);
                if (gathering is null)
                {
                    return new Refusal(RefusalKind.NotFound, "That gathering is not in the register.");
                }

                gathering.ExpectAnotherSheet();
                return $"{gathering.Label} counts {gathering.SheetsExpected} sheets now.";
            },
            cancellation);
}
