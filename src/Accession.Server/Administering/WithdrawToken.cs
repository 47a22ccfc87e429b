using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// Withdraws a token: one of one's own, or, as an administrator, a device's or anybody's. From then on it opens
/// nothing.
/// </summary>
public sealed class WithdrawToken(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long TokenId);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "withdraw a token", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(
            door, act, () => WithdrawAsync(request.TokenId, door.By, act, cancellation), cancellation);
    }

    private async Task<Outcome<string>> WithdrawAsync(
        long id, Actor by, Act act, CancellationToken cancellation)
    {
        var token = await db.ApiTokens.SingleOrDefaultAsync(t => t.Id == id, cancellation);
        var mayWithdraw = token is not null
            && (by.Roles.Contains(Role.Administrator) || (token.AccountId is not null && token.AccountId == by.Id));
        if (token is null || !mayWithdraw)
        {
            return new Refusal(RefusalKind.NotFound, "There is no such token of yours.");
        }

        if (token.WithdrawnAt is not null)
        {
            return new Refusal(RefusalKind.Conflict, $"{token.Name} was withdrawn before.");
        }

        token.Withdraw(act);
        return token.Name;
    }
}
