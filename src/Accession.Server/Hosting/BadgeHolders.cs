using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Hosting;

/// <summary>
/// What the holder of a badge may do at a bench: asked of the register each time, so that a role that was taken away
/// takes the badge with it at once, and a closed account too. Work at a bench is all that a badge gives: who
/// administrates signs in.
/// </summary>
public sealed class BadgeHolders(AccessionDb db)
{
    private static readonly Role[] AtBench = [Role.Curator, Role.Technician];

    /// <summary>The holder as the operations know people; null when a bench is no place for them.</summary>
    public async Task<Actor?> FindAsync(string accountId, CancellationToken cancellation)
    {
        var name = await db.Users.Where(user => user.Id == accountId && user.ClosedAt == null)
            .Select(user => user.DisplayName).SingleOrDefaultAsync(cancellation);
        var given = await db.UserRoles.Where(link => link.UserId == accountId)
            .Join(db.Roles, link => link.RoleId, role => role.Id, (_, role) => role.Name!).ToListAsync(cancellation);
        var roles = AtBench.Where(role => given.Contains(role.ToString())).ToHashSet();
        return name is null || roles.Count == 0 ? null : new Actor(accountId, name, roles);
    }
}
