using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Numbers;

/// <summary>
/// The runs of numbers that are on sheets, read from the index in its order: a run is known by its first number, which
/// has no neighbour below. Never is a list of the numbers themselves in memory.
/// </summary>
public sealed class NumbersOnSheets(AccessionDb db)
{
    /// <param name="Runs">At most as many as were asked for, the lowest first.</param>
    /// <param name="IsLast">Whether no number of the series is on a sheet above them.</param>
    public sealed record Found(IReadOnlyList<(long First, long Last)> Runs, bool IsLast);

    /// <summary>The first runs of a series above a number.</summary>
    public async Task<Found> AboveAsync(long seriesId, long after, int most, CancellationToken cancellation)
    {
        const string Sql = """
            SELECT number AS "First", before AS "Before" FROM (
                SELECT number, LAG(number) OVER (ORDER BY number) AS before
                FROM specimen WHERE series_id = {0} AND number > {1} AND repeat = 0) run
            WHERE before IS NULL OR before <> number - 1
            ORDER BY number LIMIT {2}
            """;
        var begins = await db.Database.SqlQueryRaw<Begin>(Sql, seriesId, after, most + 1).ToListAsync(cancellation);
        var isLast = begins.Count <= most;
        var end = isLast
            ? await db.Specimens.Where(s => s.SeriesId == seriesId).MaxAsync(s => (long?)s.Number, cancellation)
            : begins[most].Before;
        return new(
            [.. begins.Take(most).Select((run, i) => (run.First, i + 1 < begins.Count ? begins[i + 1].Before : end))
                .Select(run => (run.First, run.Item2!.Value))],
            isLast);
    }

    private sealed record Begin(long First, long? Before);
}
