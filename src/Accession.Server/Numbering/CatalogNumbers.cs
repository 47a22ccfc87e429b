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
    /// <param name="FromBefore">The number from before that the text is, to the letter; null when it is none.</param>
    public sealed record Meaning(Found? Code, (string First, string Second)? Joined, string? FromBefore = null);

    // Nobody minds how its letters are typed; otherwise it is known only to the letter.
    private async Task<string?> FromBeforeAsync(string text, CancellationToken cancellation)
    {
        string[] spellings = [text.Trim(), text.Trim().ToUpperInvariant(), text.Trim().ToLowerInvariant()];
        var found = await db.Specimens
            .Where(s => spellings.Contains(s.CatalogNumber)
                && db.Series.Any(series => series.Id == s.SeriesId && series.Use == SeriesUse.FromBefore))
            .Select(s => s.CatalogNumber).Distinct().ToListAsync(cancellation);
        return found.FirstOrDefault(number => number == spellings[0]) ?? (found is [var only] ? only : null);
    }

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
        return new(found is [var only] ? only : null, null, await FromBeforeAsync(text, cancellation));
    }
}
