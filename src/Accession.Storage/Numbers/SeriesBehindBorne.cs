using Accession.Core.Batches;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Numbers;

/// <summary>
/// Sees to it that no series issues a number that a sheet bears which is taken over: the series go on behind the
/// highest of them in the very act of taking over, before the first sheet is written.
/// </summary>
public sealed class SeriesBehindBorne(AccessionDb db, NumberIssuer numbers)
{
    /// <param name="Series">The series as it is now.</param>
    /// <param name="Highest">The highest number on a sheet that it has still to issue, or that lies ready.</param>
    public sealed record Ahead(NumberSeries Series, long Highest);

    /// <summary>The series that would issue a number which one of these rows bears.</summary>
    public async Task<IReadOnlyList<Ahead>> OfAsync(IQueryable<BatchRow> rows, CancellationToken cancellation)
    {
        var all = await db.Series.AsNoTracking().Where(s => s.Use == SeriesUse.Specimens).OrderBy(s => s.Id)
            .ToListAsync(cancellation);
        var rolls = (await db.Rolls.AsNoTracking().ToListAsync(cancellation)).ToLookup(roll => roll.SeriesId);
        var ready = (await db.ReadyNumbers.Select(r => new { r.SeriesId, r.Number }).ToListAsync(cancellation))
            .Select(r => (r.SeriesId, r.Number)).ToHashSet();
        var patterns = all.ConvertAll(series => (Series: series, series.Pattern));
        Dictionary<long, long> highest = [];
        // One number at a time: a list may have millions.
        await foreach (var written in rows.Where(row => row.CatalogNumber != "").Select(row => row.CatalogNumber)
            .AsAsyncEnumerable().WithCancellation(cancellation))
        {
            foreach (var (series, pattern) in patterns)
            {
                if (pattern.NumberBorneIn(written) is { } number
                    && number > highest.GetValueOrDefault(series.Id)
                    && (ready.Contains((series.Id, number))
                        || (number >= series.Next && !rolls[series.Id].Any(roll => roll.Contains(number)))))
                {
                    highest[series.Id] = number;
                }
            }
        }

        return [.. all.Where(series => highest.ContainsKey(series.Id))
            .Select(series => new Ahead(series, highest[series.Id]))];
    }

    /// <summary>Lets them go on behind those numbers, within the act of taking over.</summary>
    /// <param name="rows">The rows that are taken over.</param>
    /// <param name="lotNumber">The lot they become; the rolls are called after it.</param>
    /// <param name="act">The act of taking over.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>Why nothing can be taken over; null when no series is in the way any more.</returns>
    public async Task<Refusal?> GoOnAsync(
        IQueryable<BatchRow> rows, string lotNumber, Act act, CancellationToken cancellation)
    {
        foreach (var (held, highest) in await OfAsync(rows, cancellation))
        {
            var series = (await numbers.HoldAsync(held.Id, cancellation))!;
            var ready = await numbers.HoldReadyAsync(series.Id, cancellation);
            var rolls = await db.Rolls.Where(roll => roll.SeriesId == series.Id).ToListAsync(cancellation);
            var name = series.Name.Length <= 50 ? series.Name : series.Name[..50] + "…";
            var went = series.GoBehindTakenOver(
                highest, ready, rolls, $"taken over as {lotNumber}, {name}", act);
            if (went.IsRefused)
            {
                return went.Refusals[0];
            }

            db.Add(went.Value.Entry);
            db.AddRange(went.Value.Rolls);
            db.RemoveRange(went.Value.NoLongerReady);
        }

        return null;
    }
}
