using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>Accounts and the one-time links that open them. No account is ever made with a password.</summary>
public sealed class People(
    AccessionDb db, UserManager<Account> accounts, RoleManager<IdentityRole> roles, TimeProvider clock)
{
    /// <summary>Makes sure that every role exists.</summary>
    public async Task EnsureRolesAsync()
    {
        foreach (var role in Enum.GetNames<Role>())
        {
            if (!await roles.RoleExistsAsync(role))
            {
                Check(await roles.CreateAsync(new IdentityRole(role)));
            }
        }
    }

    /// <summary>Finds or makes an account with these roles.</summary>
    public async Task<Account> EnsureAsync(string userName, string displayName, params Role[] itsRoles)
    {
        var account = await accounts.FindByNameAsync(userName);
        if (account is null)
        {
            account = new Account { UserName = userName, DisplayName = displayName };
            Check(await accounts.CreateAsync(account));
            Check(await accounts.AddToRolesAsync(account, itsRoles.Select(role => role.ToString())));
        }

        return account;
    }

    /// <summary>A link that signs this person in, once; earlier unused ones of the same person stop working.</summary>
    public async Task<string> MakeLinkAsync(Account account, TimeSpan validFor, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        await db.SignInLinks
            .Where(link => link.AccountId == account.Id && link.UsedAt == null)
            .ExecuteUpdateAsync(row => row.SetProperty(link => link.UsedAt, now), cancellation);
        var (link, token) = SignInLink.For(account, now + validFor);
        db.Add(link);
        await db.SaveChangesAsync(cancellation);
        return $"/sign-in/{token}";
    }

    /// <summary>Uses up a link; null when it does not open.</summary>
    public async Task<Account?> UseLinkAsync(string token, CancellationToken cancellation)
    {
        var hash = SignInLink.Hash(token);
        var now = clock.GetUtcNow().UtcDateTime;
        // One conditional update decides between two browsers that press the button at once.
        var used = await db.SignInLinks
            .Where(link => link.TokenHash == hash && link.UsedAt == null && link.ExpiresAt > now
                && db.Users.Any(user => user.Id == link.AccountId && user.ClosedAt == null))
            .ExecuteUpdateAsync(row => row.SetProperty(link => link.UsedAt, now), cancellation);
        return used == 1
            ? await db.Users.SingleAsync(
                user => db.SignInLinks.Any(link => link.TokenHash == hash && link.AccountId == user.Id), cancellation)
            : null;
    }

    /// <summary>
    /// The administrator whom a fresh register begins with; null once any administrator has signed in.
    /// </summary>
    public async Task<Account?> FirstAdministratorAsync(CancellationToken cancellation)
    {
        var administrators = await accounts.GetUsersInRoleAsync(nameof(Role.Administrator));
        var ids = administrators.Select(account => account.Id).ToList();
        var someoneCame = administrators.Any(account => account.PasswordHash is not null)
            || await db.Acts.AnyAsync(act => ids.Contains(act.ActorId!), cancellation);
        return someoneCame
            ? null
            : administrators.FirstOrDefault()
                ?? await EnsureAsync("administrator", "Administrator", Role.Administrator);
    }

    private static void Check(IdentityResult result)
    {
        if (!result.Succeeded)
        {
            throw new InvalidOperationException(string.Join(" ", result.Errors.Select(error => error.Description)));
        }
    }
}
