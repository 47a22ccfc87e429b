using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// Makes a badge for the person who asks, and withdraws the one before: a lost badge says nobody's name any more. The
/// code is told once, and stands neither in the register nor in the act.
/// </summary>
public sealed class MakeBadge(AccessionDb db, TimeProvider clock)
{
    /// <param name="Name">Whose it is.</param>
    /// <param name="Code">The code; null where it was told before and nobody knows it any more.</param>
    public sealed record Made(string Name, string? Code);

    private sealed record Kept(string Name, string Hash);

    public async Task<Outcome<Made>> RunAsync(Door door, CancellationToken cancellation)
    {
        var code = Badge.NewCode();
        var act = Act.Of(door, "make a badge", clock.GetUtcNow().UtcDateTime);
        var kept = await db.CarryOutAsync(door, act, () => MakeAsync(code, door, act, cancellation), cancellation);
        return kept.IsRefused
            ? kept.Refusals.ToList()
            : new Made(kept.Value.Name, kept.Value.Hash == Badge.Hash(code) ? code : null);
    }

    private async Task<Outcome<Kept>> MakeAsync(string code, Door door, Act act, CancellationToken cancellation)
    {
        if (!door.By.Roles.Overlaps([Role.Curator, Role.Technician]))
        {
            return new Refusal(RefusalKind.NotAllowed, "A badge is for those who work at the benches.");
        }

        foreach (var before in await db.Badges.Where(b => b.AccountId == door.By.Id && b.WithdrawnAt == null)
            .ToListAsync(cancellation))
        {
            before.Withdraw(act);
        }

        var badge = Badge.Of(code, door.By.Id!, act);
        db.Add(badge);
        return new Kept(door.By.Name, badge.CodeHash);
    }
}
