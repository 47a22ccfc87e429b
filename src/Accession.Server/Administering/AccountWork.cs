using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// What an account is for: its roles, and the counties of a weed officer. Part of an act, never one by itself.
/// </summary>
public sealed class AccountWork(AccessionDb db, UserManager<Account> accounts)
{
    private static readonly char[] Lines = ['\r', '\n', ';'];

    /// <summary>Gives an account just these roles and counties, or says why not.</summary>
    /// <param name="counties">A county and its state a line, as "Harney, Oregon"; for weed officers only.</param>
    public async Task<Outcome<bool>> GiveAsync(
        Account account, IReadOnlyList<Role> roles, string? counties, CancellationToken cancellation)
    {
        if (roles.Count == 0 || !roles.All(Enum.IsDefined))
        {
            return new Refusal(RefusalKind.Invalid, "Choose at least one kind of work.");
        }

        var read = (counties ?? "").Split(Lines, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(CountyName.Read).ToList();
        List<Refusal> refusals =
            [.. read.Where(one => !one.IsRead).Select(one => new Refusal(RefusalKind.Invalid, one.Unreadable!.Reason))];
        if (roles.Contains(Role.WeedOfficer) != read.Count > 0)
        {
            refusals.Add(new(RefusalKind.Invalid, read.Count > 0
                ? "Counties are for weed officers: choose that work too, or leave the counties out."
                : "A weed officer sees only the counties named here. Write them, a line each, as \"Harney, Oregon\"."));
        }

        if (refusals.Count > 0)
        {
            return refusals;
        }

        var wanted = roles.Select(role => role.ToString()).ToHashSet();
        var has = await accounts.GetRolesAsync(account);
        await accounts.RemoveFromRolesAsync(account, has.Except(wanted));
        await accounts.AddToRolesAsync(account, wanted.Except(has));
        await db.AccountCounties.Where(c => c.AccountId == account.Id).ExecuteDeleteAsync(cancellation);
        db.AddRange(read.Select(one => one.Value).DistinctBy(county => county.Key)
            .Select(county => AccountCounty.Of(account.Id, county)));
        return true;
    }

    /// <summary>Why an administrator cannot be spared; null when there is another who can come in.</summary>
    public async Task<Refusal?> WhyNeededAsync(Account account, CancellationToken cancellation)
    {
        // Two administrators who close each other at once come one after the other, and the second finds the first
        // gone.
        await db.Roles.Where(role => role.Name == nameof(Role.Administrator))
            .ExecuteUpdateAsync(row => row.SetProperty(role => role.Name, role => role.Name), cancellation);
        var others = await db.Users.AnyAsync(
            user => user.Id != account.Id && user.ClosedAt == null
                && db.UserRoles.Any(link => link.UserId == user.Id
                    && db.Roles.Any(role => role.Id == link.RoleId && role.Name == nameof(Role.Administrator))),
            cancellation);
        return others || !await accounts.IsInRoleAsync(account, nameof(Role.Administrator))
            ? null
            : new(RefusalKind.Conflict,
                $"{account.DisplayName} is the only administrator who can come in. Let another one in first.");
    }
}
