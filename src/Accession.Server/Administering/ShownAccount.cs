using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>A person with access, as administrators see it: nothing of it opens anything.</summary>
/// <param name="Counties">What a weed officer sees, as "Harney, Oregon".</param>
/// <param name="ClosedAt">When the account was closed, in UTC; null while it opens.</param>
public sealed record ShownAccount(
    string Id, string DisplayName, string UserName, IReadOnlyList<Role> Roles, IReadOnlyList<string> Counties,
    DateTime? ClosedAt, bool HasSecondStep)
{
    /// <summary>The people whom a query finds, in its order.</summary>
    public static async Task<IReadOnlyList<ShownAccount>> OfAsync(
        AccessionDb db, IQueryable<Account> accounts, CancellationToken cancellation)
    {
        var people = await accounts
            .Select(user => new { user.Id, user.DisplayName, user.UserName, user.ClosedAt, user.TwoFactorEnabled })
            .ToListAsync(cancellation);
        var ids = people.ConvertAll(person => person.Id);
        var roles = (await db.UserRoles.Where(link => ids.Contains(link.UserId))
            .Join(db.Roles, link => link.RoleId, role => role.Id, (link, role) => new { link.UserId, role.Name })
            .ToListAsync(cancellation)).ToLookup(role => role.UserId, role => Enum.Parse<Role>(role.Name!));
        var counties = (await db.AccountCounties.Where(c => ids.Contains(c.AccountId)).OrderBy(c => c.Written)
            .ToListAsync(cancellation)).ToLookup(county => county.AccountId, county => county.Written);
        return people.ConvertAll(person => new ShownAccount(
            person.Id, person.DisplayName, person.UserName!, [.. roles[person.Id].Order()], [.. counties[person.Id]],
            person.ClosedAt, person.TwoFactorEnabled));
    }
}
