using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// Changes what an account is for, closes it, opens it again, or takes its second factor away. Accounts are never
/// deleted: what they did stays in the trail under their name.
/// </summary>
public sealed class ChangeAccount(
    AccessionDb db, UserManager<Account> accounts, AccountWork work, TimeProvider clock)
{
    public sealed record Work(string AccountId, IReadOnlyList<Role> Roles, string? Counties);

    /// <summary>Gives an account just these roles and counties; it has them at the latest a minute later.</summary>
    public Task<Outcome<string>> RunAsync(Work request, Door door, CancellationToken cancellation) => OnAsync(
        request.AccountId, door, "change what an account is for", string.Join(", ", request.Roles),
        async (account, _) =>
        {
            if (!request.Roles.Contains(Role.Administrator)
                && await work.WhyNeededAsync(account, cancellation) is { } needed)
            {
                return needed;
            }

            var given = await work.GiveAsync(account, request.Roles, request.Counties, cancellation);
            return given.IsRefused ? given.Refusals.ToList() : account.DisplayName;
        },
        cancellation);

    /// <summary>Closes an account: it is signed out everywhere within a minute, and nothing opens it.</summary>
    public Task<Outcome<string>> CloseAsync(string accountId, Door door, CancellationToken cancellation) => OnAsync(
        accountId, door, "close an account", null,
        async (account, act) =>
        {
            if (account.ClosedAt is not null)
            {
                return new Refusal(RefusalKind.Conflict, $"The account of {account.DisplayName} is closed already.");
            }

            if (await work.WhyNeededAsync(account, cancellation) is { } needed)
            {
                return needed;
            }

            account.ClosedAt = clock.GetUtcNow().UtcDateTime;
            await db.SignInLinks.Where(link => link.AccountId == accountId && link.UsedAt == null)
                .ExecuteUpdateAsync(row => row.SetProperty(link => link.UsedAt, account.ClosedAt), cancellation);
            // Its badge says nothing while the account is closed; when it is opened again another is made.
            foreach (var badge in await db.Badges.Where(b => b.AccountId == accountId && b.WithdrawnAt == null)
                .ToListAsync(cancellation))
            {
                badge.Withdraw(act);
            }

            await accounts.UpdateSecurityStampAsync(account);
            return account.DisplayName;
        },
        cancellation);

    /// <summary>Opens a closed account again, with the work it had.</summary>
    public Task<Outcome<string>> OpenAsync(string accountId, Door door, CancellationToken cancellation) => OnAsync(
        accountId, door, "open an account again", null,
        async (account, _) =>
        {
            if (account.ClosedAt is null)
            {
                return new Refusal(RefusalKind.Conflict, $"The account of {account.DisplayName} is open already.");
            }

            account.ClosedAt = null;
            await accounts.UpdateAsync(account);
            return account.DisplayName;
        },
        cancellation);

    /// <summary>For somebody who lost the telephone and the recovery codes: no second factor, no passkeys.</summary>
    public Task<Outcome<string>> TakeSecondFactorAwayAsync(
        string accountId, Door door, CancellationToken cancellation) => OnAsync(
        accountId, door, "take a second factor and passkeys away", null,
        async (account, _) =>
        {
            await accounts.SetTwoFactorEnabledAsync(account, false);
            await accounts.ResetAuthenticatorKeyAsync(account);
            foreach (var passkey in await accounts.GetPasskeysAsync(account))
            {
                await accounts.RemovePasskeyAsync(account, passkey.CredentialId);
            }

            await accounts.UpdateSecurityStampAsync(account);
            return account.DisplayName;
        },
        cancellation);

    private Task<Outcome<string>> OnAsync(
        string accountId, Door door, string what, string? reason, Func<Account, Act, Task<Outcome<string>>> change,
        CancellationToken cancellation)
    {
        var act = Act.Of(door, what, clock.GetUtcNow().UtcDateTime, reason);
        return db.CarryOutAsync(
            door, act,
            async () => !door.By.Roles.Contains(Role.Administrator)
                ? new Refusal(RefusalKind.NotAllowed, "Accounts are for administrators.")
                : await db.Users.SingleOrDefaultAsync(user => user.Id == accountId, cancellation) is { } account
                    ? await change(account, act)
                    : new Refusal(RefusalKind.NotFound, "There is no such person."),
            cancellation);
    }
}
