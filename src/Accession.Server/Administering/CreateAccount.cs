using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>Lets a person in: an account with roles, and a link to sign in with once.</summary>
public sealed class CreateAccount(
    AccessionDb db, UserManager<Account> accounts, AccountWork work, People people, TimeProvider clock)
{
    private static readonly TimeSpan LinkLasts = TimeSpan.FromDays(7);

    /// <summary>Who, and for what work; the counties of a weed officer are a line each.</summary>
    public sealed record Request(
        string? UserName, string? DisplayName, IReadOnlyList<Role> Roles, string? Counties = null);

    /// <summary>What the person comes in by.</summary>
    /// <param name="Link">The link, told once; null where it was told before and nobody knows it any more.</param>
    public sealed record Invitation(string AccountId, string DisplayName, string? Link);

    // What the act keeps: by the hash it is known whether this request made the link, or an earlier one.
    private sealed record Kept(string AccountId, string DisplayName, string LinkHash);

    public Task<Outcome<Invitation>> RunAsync(Request request, Door door, CancellationToken cancellation) =>
        InviteAsync(
            door, Act.Of(door, "let a person in", clock.GetUtcNow().UtcDateTime, request.DisplayName),
            () => LetInAsync(request, cancellation), cancellation);

    /// <summary>A new link for somebody who lost the old one.</summary>
    public Task<Outcome<Invitation>> LinkAgainAsync(string accountId, Door door, CancellationToken cancellation) =>
        InviteAsync(
            door, Act.Of(door, "make a sign-in link", clock.GetUtcNow().UtcDateTime),
            async () => await db.Users.SingleOrDefaultAsync(a => a.Id == accountId, cancellation) switch
            {
                null => new Refusal(RefusalKind.NotFound, "There is no such person."),
                { ClosedAt: not null } closed => new Refusal(RefusalKind.Conflict,
                    $"The account of {closed.DisplayName} is closed. Open it again first."),
                var account => account,
            },
            cancellation);

    private async Task<Outcome<Invitation>> InviteAsync(
        Door door, Act act, Func<Task<Outcome<Account>>> whom, CancellationToken cancellation)
    {
        string? link = null;
        var kept = await db.CarryOutAsync<Kept>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Contains(Role.Administrator))
                {
                    return new Refusal(RefusalKind.NotAllowed, "Accounts are for administrators.");
                }

                var account = await whom();
                if (account.IsRefused)
                {
                    return account.Refusals.ToList();
                }

                link = await people.MakeLinkAsync(account.Value, LinkLasts, cancellation);
                return new Kept(account.Value.Id, account.Value.DisplayName, SignInLink.Hash(link));
            },
            cancellation);
        return kept.IsRefused
            ? kept.Refusals.ToList()
            : new Invitation(
                kept.Value.AccountId, kept.Value.DisplayName,
                link is not null && kept.Value.LinkHash == SignInLink.Hash(link) ? link : null);
    }

    private async Task<Outcome<Account>> LetInAsync(Request request, CancellationToken cancellation)
    {
        var userName = request.UserName?.Trim() ?? "";
        var displayName = request.DisplayName?.Trim() ?? "";
        if (userName.Length is 0 or > 256 || displayName.Length is 0 or > 200)
        {
            return new Refusal(RefusalKind.Invalid, "Write the person's name and e-mail address or user name.");
        }

        var account = new Account
        {
            UserName = userName,
            Email = userName.Contains('@', StringComparison.Ordinal) ? userName : null,
            DisplayName = displayName,
        };
        var created = await accounts.CreateAsync(account);
        if (!created.Succeeded)
        {
            return created.Errors
                .Select(error => new Refusal(RefusalKind.Conflict, error.Description)).ToList();
        }

        var changed = await work.GiveAsync(account, request.Roles, request.Counties, cancellation);
        return changed.IsRefused ? changed.Refusals.ToList() : account;
    }
}
