using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>Ends a house rule. What it let in keeps what it has.</summary>
public sealed class EndHouseRule(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long Id, string? Reason);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "end a house rule", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync<string>(door, act, async () =>
        {
            if (!door.By.Roles.Contains(Role.Curator))
            {
                return new Refusal(RefusalKind.NotAllowed, "Only a curator ends a house rule.");
            }

            var rule = await db.HouseRules.SingleOrDefaultAsync(r => r.Id == request.Id, cancellation);
            return rule is null
                ? new Refusal(RefusalKind.NotFound, "There is no such house rule.")
                : rule.End(door.By, act) is { } refusal ? refusal : rule.Text;
        }, cancellation);
    }
}
