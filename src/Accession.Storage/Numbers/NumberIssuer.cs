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
    /// <returns>The series; a refusal when there is none of this use under this key.</returns>
    public async Task<Outcome<NumberSeries>> HoldAsync(long seriesId, SeriesUse use, CancellationToken cancellation)
    {
        // Writing the row is the one lock that both databases know. What was loaded before may be old.
        var held = await db.Series.Where(series => series.Id == seriesId && series.Use == use)
            .ExecuteUpdateAsync(row => row.SetProperty(series => series.Next, series => series.Next), cancellation);
        if (held == 0)
        {
            return new Refusal(RefusalKind.Invalid, use == SeriesUse.Specimens
                ? "Choose a series whose numbers go on sheets."
                : "Choose a series whose numbers go on accessions.");
        }

        if (db.Series.Local.FindEntry(seriesId) is { } loaded)
        {
            await loaded.ReloadAsync(cancellation);
        }

        return await db.Series.SingleAsync(series => series.Id == seriesId, cancellation);
    }

    /// <summary>The next number of a series.</summary>
    public async Task<Outcome<IssuedNumber>> NextAsync(
        long seriesId, SeriesUse use, int year, CancellationToken cancellation)
    {
        var series = await HoldAsync(seriesId, use, cancellation);
        if (series.IsRefused)
        {
            return series.Refusals.ToList();
        }

        var next = series.Value.Next;
        var ahead = await db.Rolls.Where(roll => roll.SeriesId == seriesId && roll.Last >= next)
            .ToListAsync(cancellation);
        return series.Value.Issue(year, ahead);
    }
}
