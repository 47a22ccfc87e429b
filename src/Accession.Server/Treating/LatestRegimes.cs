using Accession.Core.FreezerLoads;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>The regimes that can be chosen: of each name the latest edition.</summary>
internal static class LatestRegimes
{
    public static async Task<IReadOnlyList<Regime>> OfAsync(AccessionDb db, CancellationToken cancellation) =>
        await db.Regimes.AsNoTracking()
            .Where(r => !db.Regimes.Any(later => later.Name == r.Name && later.Edition > r.Edition))
            .OrderBy(r => r.Id).ToListAsync(cancellation);
}
