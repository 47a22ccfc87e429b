using Accession.Core.Numbers;
using Accession.Core.Specimens;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Finding;

/// <summary>Which of the sheets that somebody may see are meant by a number, in whatever spelling.</summary>
public sealed class TypedNumbers(AccessionDb db, BorneToTheLetter borne)
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
        var toTheLetter = await ToTheLetterAsync(text, sheets, cancellation);
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

    // A number from before is known only to the letter, but nobody minds how its letters are typed.
    private async Task<List<string>> ToTheLetterAsync(
        string text, IQueryable<Specimen> sheets, CancellationToken cancellation)
    {
        var there = await borne.Ask(db, text, text.ToUpperInvariant(), text.ToLowerInvariant())
            .ToListAsync(cancellation);
        return there.Count == 0
            ? there
            : await sheets.Where(s => there.Contains(s.CatalogNumber)).Select(s => s.CatalogNumber).Distinct()
                .ToListAsync(cancellation);
    }

    private static Meant Certainly(
        IReadOnlyList<string> certain, IEnumerable<string> toTheLetter, IEnumerable<string> possible) =>
        new(certain is [var only] ? only : null, [.. certain.Union(toTheLetter).Union(possible)]);

    // Digits alone may as well be a collector's number.
    private static bool IsNoMereCount(string number) => !number.All(char.IsAsciiDigit);

    private static Read ReadBy(long seriesId, NumberPattern pattern, string text) =>
        new(seriesId, pattern.NumberIn(text), pattern.BareNumberIn(text));
}

/// <summary>
/// Which of three spellings are numbers of sheets. Whatever is typed into the find box asks this first, so it is made
/// ready once for a register.
/// </summary>
public sealed class BorneToTheLetter
{
    internal Func<AccessionDb, string, string, string, IAsyncEnumerable<string>> Ask { get; } = EF.CompileAsyncQuery(
        (AccessionDb db, string first, string second, string third) => db.Specimens
            .Where(s => s.CatalogNumber == first || s.CatalogNumber == second || s.CatalogNumber == third)
            .Select(s => s.CatalogNumber)
            .Distinct()
            .TagWith(AskedOften.Tag));
}
