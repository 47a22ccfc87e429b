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
            async () => await db.Users.SingleOrDefaultAsync(a => a.Id == accountId, cancellation) switch
            {
                null => new Refusal(RefusalKind.NotFound, "There is no such person."),
                { ClosedAt: not null } closed => new Refusal(RefusalKind.Conflict,
                    $"The account of {closed.DisplayName} is closed. Open it again first."),
                var account => new Invitation(
                    account.DisplayName, await people.MakeLinkAsync(account, LinkLasts, cancellation)),
            },
            cancellation);

    private async Task<Outcome<Invitation>> LetInAsync(Request request, CancellationToken cancellation)
    {
        var userName = request.UserName?.Trim() ?? "";
        var displayName = request.DisplayName?.Trim() ?? "";
        if (userName.Length == 0 || displayName.Length is 0 or > 200)
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
        if (changed.IsRefused)
        {
            return changed.Refusals.ToList();
        }

        return new Invitation(displayName, await people.MakeLinkAsync(account, LinkLasts, cancellation));
    }
}
