using Accession.Core.Numbers;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Finding;

/// <summary>Which of the sheets that somebody may see are meant by a number, in whatever spelling.</summary>
public sealed class TypedNumbers(AccessionDb db)
{
    /// <param name="Certain">
    /// The number of a sheet, where the text follows its pattern or is just that number; null when there is none.
    /// </param>
    /// <param name="Possible">The numbers of sheets that it may be, one for each series.</param>
    public sealed record Meant(string? Certain, IReadOnlyList<string> Possible);

    private sealed record Read(long SeriesId, long? Number, long? Bare);

    public async Task<Meant> FindAsync(
        string typed, IQueryable<Specimen> sheets, CancellationToken cancellation)
    {
        var text = typed.Trim();
        // A number from before is known only to the letter, but nobody minds how its letters are typed.
        string[] spellings = [text, text.ToUpperInvariant(), text.ToLowerInvariant()];
        var toTheLetter = await sheets.Where(s => spellings.Contains(s.CatalogNumber))
            .Select(s => s.CatalogNumber).Distinct().ToListAsync(cancellation);
        if (!text.Any(char.IsAsciiDigit))
        {
            return new(toTheLetter is [var one] ? one : null, toTheLetter);   // no series counts it
        }

        var read = (await db.Series.Where(s => s.Use == SeriesUse.Specimens).OrderBy(s => s.Id)
            .Select(s => new { s.Id, s.PatternText }).ToListAsync(cancellation))
            .ConvertAll(s => ReadBy(s.Id, NumberPattern.Read(s.PatternText).Value, text));
        var numbers = read.SelectMany(one => new[] { one.Number, one.Bare }).OfType<long>().Distinct().ToList();
        var series = read.Select(one => one.SeriesId).ToList();
        if (numbers.Count == 0)
        {
            return Certainly([.. toTheLetter.Where(IsNoMereCount)], toTheLetter, []);
        }

        // By what the series counts: a sheet that was taken over may bear the number in a spelling of its own.
        var there = await sheets
            .Where(s => series.Contains(s.SeriesId) && numbers.Contains(s.Number) && s.Repeat == 0)
            .Select(s => new { s.SeriesId, s.Number, s.CatalogNumber }).ToListAsync(cancellation);
        var certain = there
            .Where(sheet => read.Any(one => one.SeriesId == sheet.SeriesId && one.Number == sheet.Number))
            .Select(sheet => sheet.CatalogNumber)
            .Union(toTheLetter.Where(IsNoMereCount)).ToList();
        var possible = there
            .Where(sheet => read.Any(one => one.SeriesId == sheet.SeriesId && one.Bare == sheet.Number))
            .Select(sheet => sheet.CatalogNumber);
        return Certainly(certain, toTheLetter, possible);
    }

    private static Meant Certainly(
        IReadOnlyList<string> certain, IEnumerable<string> toTheLetter, IEnumerable<string> possible) =>
        new(certain is [var only] ? only : null, [.. certain.Union(toTheLetter).Union(possible)]);

    // Digits alone may as well be a collector's number.
    private static bool IsNoMereCount(string number) => !number.All(char.IsAsciiDigit);

    private static Read ReadBy(long seriesId, NumberPattern pattern, string text) =>
        new(seriesId, pattern.NumberIn(text), pattern.BareNumberIn(text));
}
