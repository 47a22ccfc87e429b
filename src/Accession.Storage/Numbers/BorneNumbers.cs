using Accession.Core.Numbers;
using Accession.Core.Specimens;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Numbers;

/// <summary>
/// What the numbers are in this register that sheets bear which are taken over: numbers of a series here or from
/// before, borne for the first time or again. It is asked inside the transaction that writes the sheets.
/// </summary>
public sealed class BorneNumbers(AccessionDb db)
{
    /// <summary>A sheet that is taken over, by the row it stands on.</summary>
    public sealed record Sheet(long RowId, string Written);

    /// <param name="Numbers">What to write for each row.</param>
    /// <param name="Void">Why the number of a row is void here, so that its sheet cannot be taken over.</param>
    public sealed record Found(
        IReadOnlyDictionary<long, Specimen.Borne> Numbers, IReadOnlyDictionary<long, string> Void);

    private sealed record Of(long RowId, string Written, long SeriesId, long? Number);

    private sealed record Count(long SeriesId, long Number, string Written, int Sheets);

    private sealed record Gone(long SeriesId, long First, long Last, string Why, string By, DateTime At);

    /// <summary>Finds what the numbers of a slice of sheets are, in the order of the sheets.</summary>
    /// <param name="sheets">The sheets.</param>
    /// <param name="fromBefore">
    /// The series of the numbers from before, held: nobody else takes sheets over meanwhile.
    /// </param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<Found> OfAsync(
        IReadOnlyList<Sheet> sheets, NumberSeries fromBefore, CancellationToken cancellation)
    {
        var patterns = await PatternsAsync(cancellation);
        var all = sheets.Select(sheet => Read(sheet, patterns, fromBefore)).ToList();
        var isVoid = await VoidAsync(all, cancellation);
        var there = (await ThereAsync(all, fromBefore, cancellation)).ToDictionary(
            count => Key(count.SeriesId, count.Number, count.Written, fromBefore),
            count => (count.Number, count.Sheets));
        Dictionary<long, Specimen.Borne> numbers = [];
        foreach (var one in all.Where(one => !isVoid.ContainsKey(one.RowId)))
        {
            var key = Key(one.SeriesId, one.Number ?? 0, one.Written, fromBefore);
            var (number, before) = there.TryGetValue(key, out var known)
                ? known
                : (one.Number ?? fromBefore.CountFromBefore(), 0);
            there[key] = (number, before + 1);
            numbers.Add(one.RowId, new(one.Written, one.SeriesId, number, before));
        }

        return new(numbers, isVoid);
    }

    private async Task<List<(long SeriesId, NumberPattern Pattern)>> PatternsAsync(CancellationToken cancellation) =>
        (await db.Series.Where(s => s.Use == SeriesUse.Specimens).OrderBy(s => s.Id)
            .Select(s => new { s.Id, s.PatternText }).ToListAsync(cancellation))
            .ConvertAll(s => (s.Id, NumberPattern.Read(s.PatternText).Value));

    private static Of Read(
        Sheet sheet, List<(long SeriesId, NumberPattern Pattern)> patterns, NumberSeries fromBefore)
    {
        foreach (var (seriesId, pattern) in patterns)
        {
            if (pattern.NumberBorneIn(sheet.Written) is { } number)
            {
                return new(sheet.RowId, sheet.Written, seriesId, number);
            }
        }

        return new(sheet.RowId, sheet.Written, fromBefore.Id, null);
    }

    // Numbers of a series are the same in any spelling; those from before only to the letter.
    private static (long SeriesId, long Number, string Written) Key(
        long seriesId, long number, string written, NumberSeries fromBefore) =>
        seriesId == fromBefore.Id ? (seriesId, 0, written) : (seriesId, number, "");

    private async Task<List<Count>> ThereAsync(List<Of> all, NumberSeries fromBefore, CancellationToken cancellation)
    {
        List<Count> there = [];
        foreach (var ofSeries in all.Where(one => one.Number is not null).GroupBy(one => one.SeriesId))
        {
            var (id, numbers) = (ofSeries.Key, ofSeries.Select(one => one.Number!.Value).Distinct().ToList());
            var counted = await db.Specimens.Where(s => s.SeriesId == id && numbers.Contains(s.Number))
                .GroupBy(s => s.Number).Select(same => new { Number = same.Key, Sheets = same.Count() })
                .ToListAsync(cancellation);
            there.AddRange(counted.Select(same => new Count(id, same.Number, "", same.Sheets)));
        }

        var (before, texts) = (fromBefore.Id, all.Where(one => one.Number is null).Select(one => one.Written)
            .Distinct().ToList());
        var same = texts.Count == 0
            ? []
            : await db.Specimens.Where(s => texts.Contains(s.CatalogNumber) && s.SeriesId == before)
                .GroupBy(s => new { s.Number, s.CatalogNumber })
                .Select(s => new { s.Key.Number, s.Key.CatalogNumber, Sheets = s.Count() })
                .ToListAsync(cancellation);
        there.AddRange(same.Select(s => new Count(before, s.Number, s.CatalogNumber, s.Sheets)));
        return there;
    }

    // Whoever scans a barcode of these rolls, or makes it void, is done before or waits.
    private async Task<Dictionary<long, string>> VoidAsync(List<Of> all, CancellationToken cancellation)
    {
        Dictionary<long, string> found = [];
        foreach (var ofSeries in all.Where(one => one.Number is not null).GroupBy(one => one.SeriesId))
        {
            var (id, low, high) = (
                ofSeries.Key, ofSeries.Min(one => one.Number!.Value), ofSeries.Max(one => one.Number!.Value));
            await db.Rolls.AsNoTracking().Held()
                .Where(roll => roll.SeriesId == id && roll.Last >= low && roll.First <= high)
                .OrderBy(roll => roll.Id).ToListAsync(cancellation);
            var gone = await db.Voids
                .Where(v => v.SeriesId == id && v.Last >= low && v.First <= high
                    && !db.VoidsTakenBack.Any(back => back.VoidId == v.Id))
                .Select(v => new Gone(v.SeriesId, v.First, v.Last, v.Act.Reason ?? "", v.Act.ActorName, v.Act.At))
                .ToListAsync(cancellation);
            foreach (var one in ofSeries)
            {
                if (gone.FirstOrDefault(v => v.First <= one.Number && one.Number <= v.Last) is { } isVoid)
                {
                    found.Add(one.RowId,
                        $"{one.Written} is void here ({isVoid.Why}; {isVoid.By}), yet this sheet bears it. Take the "
                        + "void back, under Every number, and then take this row as written; or leave it out.");
                }
            }
        }

        return found;
    }
}
