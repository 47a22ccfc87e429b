using System.Globalization;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Storage.Numbers;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>
/// Gives a series that begins the numbers of its pattern that sheets bear already which were taken over, so that it
/// never issues them. Done within the act that begins it.
/// </summary>
public sealed class AdoptBorne(AccessionDb db, NumberIssuer numbers)
{
    private const int Chunk = 500;

    private sealed record Sheet(long Id, long Place, string CatalogNumber);

    /// <returns>Why the series cannot begin; null when it has its numbers.</returns>
    public async Task<Refusal?> RunAsync(NumberSeries series, Act act, CancellationToken cancellation)
    {
        if (!await db.Series.AnyAsync(s => s.Use == SeriesUse.FromBefore, cancellation))
        {
            return null;
        }

        await db.SaveChangesAsync(cancellation);
        var fromBefore = await numbers.HoldFromBeforeAsync(cancellation);
        var (pattern, highest) = (series.Pattern, 0L);
        for (var after = 0L; ;)
        {
            var (from, before) = (after, fromBefore.Id);
            var sheets = await db.Specimens.Where(s => s.SeriesId == before && s.Id > from)
                .OrderBy(s => s.Id).Take(Chunk).Select(s => new Sheet(s.Id, s.Number, s.CatalogNumber))
                .ToListAsync(cancellation);
            if (sheets.Count == 0)
            {
                break;
            }

            after = sheets[^1].Id;
            var ours = sheets.Select(sheet => (sheet.Id, Number: pattern.NumberBorneIn(sheet.CatalogNumber)))
                .Where(sheet => sheet.Number is not null).Select(sheet => (sheet.Id, sheet.Number!.Value)).ToList();
            highest = Math.Max(highest, ours.Select(sheet => sheet.Value).DefaultIfEmpty().Max());
            await MoveAsync(series.Id, ours, cancellation);
        }

        return highest == 0 ? null : GoBehind(series, highest, act);
    }

    private async Task MoveAsync(
        long seriesId, List<(long Id, long Number)> sheets, CancellationToken cancellation)
    {
        if (sheets.Count == 0)
        {
            return;
        }

        // Spellings of one number were told apart until now, and are sheets of one number from now on.
        var wanted = sheets.Select(sheet => sheet.Number).Distinct().ToList();
        var bearing = await db.Specimens.Where(s => s.SeriesId == seriesId && wanted.Contains(s.Number))
            .GroupBy(s => s.Number).Select(same => new { Number = same.Key, Sheets = same.Count() })
            .ToDictionaryAsync(same => same.Number, same => same.Sheets, cancellation);
        var values = string.Join(", ", sheets.Select(sheet =>
        {
            var repeat = bearing.GetValueOrDefault(sheet.Number);
            bearing[sheet.Number] = repeat + 1;
            return string.Create(CultureInfo.InvariantCulture, $"({sheet.Id}, {sheet.Number}, {repeat})");
        }));
        var moved = $"""
            WITH ours (id, number, repeat) AS (VALUES {values})
            UPDATE specimen SET series_id = {seriesId}, number = ours.number, repeat = ours.repeat
            FROM ours WHERE specimen.id = ours.id
            """;
        await db.Database.ExecuteSqlRawAsync(moved, cancellation);
        var ids = sheets.Select(sheet => sheet.Id).ToList();
        await db.Parts.Where(part => ids.Contains(part.SpecimenId)).ExecuteUpdateAsync(
            part => part.SetProperty(
                p => p.Repeat, p => db.Specimens.Where(s => s.Id == p.SpecimenId).Select(s => s.Repeat).Single()),
            cancellation);
    }

    private Refusal? GoBehind(NumberSeries series, long highest, Act act)
    {
        var went = series.GoBehindTakenOver(highest, [], [], $"taken over before {series.Name}", act);
        if (went.IsRefused)
        {
            return went.Refusals[0];
        }

        db.Add(went.Value.Entry);
        db.AddRange(went.Value.Rolls);
        return null;
    }
}
