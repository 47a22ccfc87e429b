using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Numbers;

/// <summary>
/// Issues numbers without gaps: the counter row is locked first, then read and raised in the transaction that uses the
/// number. If that transaction fails, the number was never issued.
/// </summary>
public sealed class NumberIssuer(AccessionDb db)
{
    /// <summary>The series as it is now, held for this transaction: others who number wait here.</summary>
    public async Task<NumberSeries> HoldAsync(long seriesId, CancellationToken cancellation)
    {
        // Writing the row is the one lock that both databases know. What was loaded before may be old.
        await db.Series.Where(series => series.Id == seriesId)
            .ExecuteUpdateAsync(row => row.SetProperty(series => series.Next, series => series.Next), cancellation);
        if (db.Series.Local.FindEntry(seriesId) is { } loaded)
        {
            await loaded.ReloadAsync(cancellation);
        }

        return await db.Series.SingleAsync(series => series.Id == seriesId, cancellation);
    }

    /// <summary>The next number of a series.</summary>
    public async Task<Outcome<IssuedNumber>> NextAsync(long seriesId, int year, CancellationToken cancellation)
    {
        var series = await HoldAsync(seriesId, cancellation);
        var rolls = await db.Rolls.Where(roll => roll.SeriesId == seriesId).ToListAsync(cancellation);
        return series.Issue(year, rolls);
    }
}
