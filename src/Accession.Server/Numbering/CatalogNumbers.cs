using Accession.Core.Numbers;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>What a scanned or typed text means among the series that number sheets.</summary>
public sealed class CatalogNumbers(AccessionDb db)
{
    /// <summary>A text that follows the pattern of a series.</summary>
    /// <param name="Written">The number in the form that is stored and printed.</param>
    public sealed record Found(NumberSeries Series, long Number, string Written);

    /// <param name="Code">The one number it is; null when it follows no pattern.</param>
    /// <param name="Joined">The two numbers that ran together; null when it is not that.</param>
    public sealed record Meaning(Found? Code, (string First, string Second)? Joined);

    public async Task<Meaning> ReadAsync(string text, CancellationToken cancellation)
    {
        var all = await db.Series.AsNoTracking().Where(s => s.Use == SeriesUse.Specimens)
            .OrderBy(s => s.Id).ToListAsync(cancellation);
        List<Found> found = [];
        foreach (var series in all)
        {
            var pattern = series.Pattern;
            if (pattern.JoinedNumbersIn(text) is var (first, second))
            {
                return new(null, (pattern.Write(first, 0), pattern.Write(second, 0)));
            }

            if (pattern.NumberIn(text) is { } number)
            {
                found.Add(new(series, number, pattern.Write(number, 0)));
            }
        }

        // Digits alone may fit several series: then they are nobody's.
        return new(found is [var only] ? only : null, null);
    }
}
