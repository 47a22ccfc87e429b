using Accession.Core.Numbers;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>Which sheets somebody may mean who types a number, in whatever spelling.</summary>
public sealed class TypedNumbers(AccessionDb db)
{
    /// <param name="Certain">The sheet, where the text follows its pattern; null when there is none.</param>
    /// <param name="Possible">The sheets whose running number it may be, one for each series.</param>
    public sealed record Meant(string? Certain, IReadOnlyList<string> Possible);

    public async Task<Meant> FindAsync(string typed, CancellationToken cancellation)
    {
        var texts = await db.Series.Where(s => s.Use == SeriesUse.Specimens).OrderBy(s => s.Id)
            .Select(s => s.PatternText).ToListAsync(cancellation);
        List<NumberPattern> patterns = [.. texts.Select(text => NumberPattern.Read(text).Value)];
        var certain = Written(patterns, pattern => pattern.NumberIn(typed));
        var wanted = certain.Concat(Written(patterns, pattern => pattern.BareNumberIn(typed))).Distinct().ToList();
        var there = await db.Specimens.Where(s => wanted.Contains(s.CatalogNumber))
            .Select(s => s.CatalogNumber).ToListAsync(cancellation);
        return new(certain.Intersect(there).ToList() is [var only] ? only : null, there);
    }

    private static List<string> Written(List<NumberPattern> patterns, Func<NumberPattern, long?> read) =>
    [
        .. patterns.Select(pattern => read(pattern) is { } number ? pattern.Write(number, 0) : null).OfType<string>(),
    ];
}
