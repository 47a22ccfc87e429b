using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>Lets a person in: an account with roles, and a link to sign in with once.</summary>
public sealed class CreateAccount(
    AccessionDb db, UserManager<Account> accounts, People people, TimeProvider clock)
{
    private static readonly TimeSpan LinkLasts = TimeSpan.FromDays(7);

    public sealed record Request(string? UserName, string? DisplayName, IReadOnlyList<Role> Roles);

    /// <summary>The link, told once.</summary>
    public sealed record Invitation(string DisplayName, string Link);

    public Task<Outcome<Invitation>> RunAsync(Request request, Door door, CancellationToken cancellation) =>
        db.CarryOutAsync(
            door, Act.Of(door, "let a person in", clock.GetUtcNow().UtcDateTime, request.DisplayName),
            () => LetInAsync(request, cancellation), cancellation);

    /// <summary>A new link for somebody who lost the old one.</summary>
    public Task<Outcome<Invitation>> LinkAgainAsync(string accountId, Door door, CancellationToken cancellation) =>
        db.CarryOutAsync<Invitation>(
            door, Act.Of(door, "make a sign-in link", clock.GetUtcNow().UtcDateTime),
            async () => await db.Users.SingleOrDefaultAsync(a => a.Id == accountId, cancellation) is { } account
                ? new Invitation(account.DisplayName, await people.MakeLinkAsync(account, LinkLasts, cancellation))
                : new Refusal(RefusalKind.NotFound, "There is no such person."),
            cancellation);

    private async Task<Outcome<Invitation>> LetInAsync(Request request, CancellationToken cancellation)
    {
        var userName = request.UserName?.Trim() ?? "";
        var displayName = request.DisplayName?.Trim() ?? "";
        if (userName.Length == 0 || displayName.Length is 0 or > 200 || request.Roles.Count == 0)
        {
            return new Refusal(RefusalKind.Invalid,
                "Write the person's name and e-mail address, and choose at least one kind of work.");
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

        await accounts.AddToRolesAsync(account, request.Roles.Select(role => role.ToString()));
        return new Invitation(displayName, await people.MakeLinkAsync(account, LinkLasts, cancellation));
    }
}
