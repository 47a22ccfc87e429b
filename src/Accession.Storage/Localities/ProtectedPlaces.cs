using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Localities;

/// <summary>
/// Keeps the protection of duplicates alike: whoever sees the place of one sheet knows that of all the others. Nothing
/// is shown here.
/// </summary>
public sealed class ProtectedPlaces(AccessionDb db, ExactLocalities exact)
{
    /// <summary>Protects a gathering as the one it is a duplicate of, within the transaction of the caller.</summary>
    /// <param name="gathering">The duplicate, which is in the register already.</param>
    /// <param name="first">The gathering it is a duplicate of.</param>
    /// <param name="now">When.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task ProtectLikeAsync(Gathering gathering, long first, DateTime now, CancellationToken cancellation)
    {
        var decision = await db.Gatherings.AsNoTracking()
            .Where(g => g.Id == first && g.Protection != SensitivityCategory.NotSensitive)
            .SelectMany(g => g.Protections).OrderByDescending(entry => entry.Id)
            .Select(entry => new LocalityProtection.Decision(entry.Category, entry.ReviewOn))
            .FirstOrDefaultAsync(cancellation);
        if (decision is null)
        {
            return;
        }

        var act = Act.Of(
            Door.System, "protect a place", now,
            $"Its sheets are duplicates of gathering {first}, whose place is protected.");
        if (await exact.ProtectAsync(gathering, decision, act, cancellation) is { } refusal)
        {
            throw new InvalidOperationException(refusal.Reason);
        }
    }

    /// <summary>Protects a gathering and all its duplicates alike, or lifts the protection, within one act.</summary>
    /// <returns>Why nothing was changed; null when it was.</returns>
    public async Task<Refusal?> ProtectAsync(
        Gathering gathering, LocalityProtection.Decision decision, Act act, CancellationToken cancellation)
    {
        var first = gathering.DuplicateOfId ?? gathering.Id;
        var others = await db.Gatherings
            .Where(g => (g.Id == first || g.DuplicateOfId == first) && g.Id != gathering.Id
                && g.Protection != decision.Category)
            .ToListAsync(cancellation);
        if (await exact.ProtectAsync(gathering, decision, act, cancellation) is { } refusal)
        {
            return refusal;
        }

        foreach (var other in others)
        {
            await exact.ProtectAsync(other, decision, act, cancellation);
        }

        return null;
    }
}
