using Accession.Core.Localities;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Localities;

/// <summary>
/// Gatherings of a register from before counties were compared get the key of their county, some thousand at a time, so
/// that nobody waits long for the one writer.
/// </summary>
public static class CountiesBroughtUp
{
    private const int Slice = 5_000;

    /// <summary>Gives every gathering without one its key; nothing is done where all have theirs.</summary>
    public static async Task RunAsync(AccessionDb db, CancellationToken cancellation)
    {
        var without = db.Gatherings.Where(g => g.CountyKey == null);
        while (await without.MinAsync(g => (long?)g.Id, cancellation) is { } first)
        {
            var last = first + Slice - 1;
            var places = await without.Where(g => g.Id >= first && g.Id <= last)
                .Select(g => new { g.Place.StateProvince, g.Place.County }).Distinct().ToListAsync(cancellation);
            foreach (var place in places)
            {
                var key = CountyName.KeyOf(place.StateProvince, place.County);
                await without
                    .Where(g => g.Id >= first && g.Id <= last
                        && g.Place.StateProvince == place.StateProvince && g.Place.County == place.County)
                    .ExecuteUpdateAsync(row => row.SetProperty(g => g.CountyKey, key), cancellation);
            }
        }
    }
}
