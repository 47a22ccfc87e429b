using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>Withdraws a badge: one's own, or, as an administrator, anybody's.</summary>
public sealed class WithdrawBadge(AccessionDb db, TimeProvider clock)
{
    /// <summary>Answers whose it was.</summary>
    public Task<Outcome<string>> RunAsync(string accountId, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "withdraw a badge", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                var mayWithdraw = accountId == door.By.Id || door.By.Roles.Contains(Role.Administrator);
                var badge = mayWithdraw
                    ? await db.Badges.SingleOrDefaultAsync(
                        b => b.AccountId == accountId && b.WithdrawnAt == null, cancellation)
                    : null;
                if (badge is null)
                {
                    return new Refusal(RefusalKind.NotFound, "There is no such badge of yours in force.");
                }

                badge.Withdraw(act);
                return await db.Users.Where(user => user.Id == accountId).Select(user => user.DisplayName)
                    .SingleAsync(cancellation);
            },
            cancellation);
    }
}
