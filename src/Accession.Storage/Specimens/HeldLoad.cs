using Accession.Core.FreezerLoads;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Specimens;

/// <summary>
/// A load that is to be changed, read when whoever changed it before is done: a load and its entries are two
/// statements, and between them another act would be seen in one and not in the other.
/// </summary>
public static class HeldLoad
{
    /// <summary>The load of a number; null when there is none.</summary>
    public static async Task<FreezerLoad?> OfAsync(AccessionDb db, int number, CancellationToken cancellation)
    {
        await db.Loads.Held().Where(load => load.Number == number).Select(load => load.Id).ToListAsync(cancellation);
        return await db.Loads.SingleOrDefaultAsync(load => load.Number == number, cancellation);
    }
}
