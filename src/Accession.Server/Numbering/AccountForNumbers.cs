using Accession.Core.Numbers;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Numbers;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>
/// Accounts for the numbers of each series of sheets: counted by the database, and as ranges, so many at a time.
/// </summary>
public sealed class AccountForNumbers(AccessionDb db, NumbersOnSheets sheets, InstitutionClock calendar)
{
    private const int LastVoids = 50;

    /// <param name="Unaccounted">
    /// How many issued numbers are nowhere; below 0 when some are in two places. Anything but 0 is a fault.
    /// </param>
    /// <param name="After">The number above which the next page begins; null when all is shown.</param>
    public sealed record SeriesAccount(
        long Id, string Name, bool IsClosed, long OnSheets, long Unused, long Void, long Ready, long Unaccounted,
        string Next, IReadOnlyList<RollAccount> Rolls, IReadOnlyList<ShownRange> Ranges, long? After);

    /// <param name="FromBefore">How many different numbers follow no series.</param>
    /// <param name="Repeated">How many numbers more than one sheet bears, of whatever series.</param>
    /// <param name="Sheets">How many sheets bear these.</param>
    public sealed record BorneAccount(long FromBefore, long Repeated, long Sheets);

    public sealed record RollAccount(
        string Name, string First, string Last, string By, long OnSheets, long Unused, long Void);

    /// <param name="Words">Why they are void, or where they lie.</param>
    public sealed record ShownRange(
        string First, string Last, long Numbers, NumberState State, string Roll, string Words);

    /// <param name="TakenBack">By whom, when and why it was taken back; null when it stands.</param>
    public sealed record ShownVoid(
        long Id, string First, string Last, long Numbers, string Roll, string Reason, string By, string? TakenBack);

    /// <summary>The accounts, with at most so many runs of numbers on sheets, above a number.</summary>
    /// <param name="only">The one series asked for; null for all.</param>
    public async Task<IReadOnlyList<SeriesAccount>> OfAsync(
        long? only, long after, int runs, CancellationToken cancellation)
    {
        var all = await db.Series.AsNoTracking()
            .Where(s => s.Use == SeriesUse.Specimens && (only == null || s.Id == only))
            .OrderBy(s => s.Id).ToListAsync(cancellation);
        List<SeriesAccount> accounts = [];
        foreach (var series in all)
        {
            accounts.Add(await OfSeriesAsync(series, after, runs, cancellation));
        }

        return accounts;
    }

    /// <summary>The last entries by which numbers became void, the newest first.</summary>
    public Task<IReadOnlyList<ShownVoid>> LastVoidsAsync(CancellationToken cancellation) =>
        VoidsAsync(null, LastVoids, cancellation);

    /// <summary>The entries by which numbers became void, the newest first, so many before an entry.</summary>
    public async Task<IReadOnlyList<ShownVoid>> VoidsAsync(long? before, int take, CancellationToken cancellation)
    {
        var entries = await db.Voids.Where(v => before == null || v.Id < before)
            .OrderByDescending(v => v.Id).Take(take)
            .Select(v => new
            {
                v.Id,
                v.First,
                v.Last,
                v.Act.Reason,
                v.Act.ActorName,
                v.Act.At,
                Roll = db.Rolls.Where(roll => roll.Id == v.RollId).Select(roll => roll.Name).Single(),
                Pattern = db.Series.Where(s => s.Id == v.SeriesId).Select(s => s.PatternText).Single(),
                Back = db.VoidsTakenBack.Where(back => back.VoidId == v.Id)
                    .Select(back => new { back.Act.Reason, back.Act.ActorName, back.Act.At }).FirstOrDefault(),
            })
            .ToListAsync(cancellation);
        return
        [
            .. entries.Select(v => new ShownVoid(
                v.Id, Written(v.Pattern, v.First), Written(v.Pattern, v.Last), v.Last - v.First + 1, v.Roll,
                v.Reason ?? "", $"{v.ActorName}, {calendar.ShowDay(v.At)}",
                v.Back is null ? null : $"{v.Back.Reason}; {v.Back.ActorName}, {calendar.ShowDay(v.Back.At)}")),
        ];
    }

    /// <summary>What came with numbers on it; null while nothing did.</summary>
    public async Task<BorneAccount?> BorneAsync(CancellationToken cancellation)
    {
        var counted = await db.Series.Where(s => s.Use == SeriesUse.FromBefore).Select(s => (long?)s.Next)
            .SingleOrDefaultAsync(cancellation);
        if (counted is not { } next)
        {
            return null;
        }

        var again = await db.Specimens.LongCountAsync(s => s.Repeat > 0, cancellation);
        var numbers = await db.Specimens.LongCountAsync(s => s.Repeat > 0 && s.Repeat == 1, cancellation);
        return new(next - 1, numbers, again + numbers);
    }

    private async Task<SeriesAccount> OfSeriesAsync(
        NumberSeries series, long after, int runs, CancellationToken cancellation)
    {
        var rolls = await db.Rolls.AsNoTracking().Where(roll => roll.SeriesId == series.Id)
            .OrderBy(roll => roll.First).Include(roll => roll.Act).ToListAsync(cancellation);
        var voids = await db.Voids.AsNoTracking().Include(v => v.Act)
            .Where(v => v.SeriesId == series.Id && !db.VoidsTakenBack.Any(back => back.VoidId == v.Id))
            .OrderBy(v => v.First).ToListAsync(cancellation);
        var ready = await db.ReadyNumbers.Where(r => r.SeriesId == series.Id).OrderBy(r => r.Number)
            .Select(r => r.Number).ToListAsync(cancellation);
        var onRolls = await db.Rolls.Where(roll => roll.SeriesId == series.Id)
            .Select(roll => new
            {
                roll.Id,
                Sheets = db.Specimens.LongCount(
                    s => s.SeriesId == roll.SeriesId && s.Number >= roll.First && s.Number <= roll.Last
                        && s.Repeat == 0),
            })
            .ToDictionaryAsync(roll => roll.Id, roll => roll.Sheets, cancellation);
        // A number is one number, however many sheets bear it.
        var onSheets = await db.Specimens.LongCountAsync(
            s => s.SeriesId == series.Id && s.Repeat == 0, cancellation);
        var shownRolls = rolls.Select(roll => OfRoll(series, roll, onRolls[roll.Id], voids)).ToList();
        // What the counter has passed and no roll has must be on sheets or ready.
        var counted = series.Next - 1
            - rolls.Sum(roll => Math.Max(0, Math.Min(roll.Last, series.Next - 1) - roll.First + 1));
        var (ranges, next) = await RangesAsync(series, rolls, voids, ready, (after, runs), cancellation);
        return new(
            series.Id, series.Name, series.IsClosed, onSheets, shownRolls.Sum(r => r.Unused),
            voids.Sum(v => v.Last - v.First + 1), ready.Count,
            counted - (onSheets - onRolls.Values.Sum()) - ready.Count,
            series.Pattern.Write(series.Next, 0), shownRolls, ranges, next);
    }

    private RollAccount OfRoll(
        NumberSeries series, Roll roll, long onSheets, List<VoidedNumbers> voids)
    {
        var gone = voids.Where(v => v.RollId == roll.Id).Sum(v => v.Last - v.First + 1);
        return new(
            roll.Name, series.Pattern.Write(roll.First, 0), series.Pattern.Write(roll.Last, 0),
            $"{roll.Act.ActorName}, {calendar.ShowDay(roll.Act.At)}",
            onSheets, roll.Last - roll.First + 1 - onSheets - gone, gone);
    }

    private async Task<(IReadOnlyList<ShownRange> Ranges, long? After)> RangesAsync(
        NumberSeries series, List<Roll> rolls, List<VoidedNumbers> voids, List<long> ready,
        (long After, int Runs) page, CancellationToken cancellation)
    {
        var found = await sheets.AboveAsync(series.Id, page.After, page.Runs, cancellation);
        var highest = found.Runs.Count > 0 ? found.Runs[^1].Last : page.After;
        var to = found.IsLast
            ? Math.Max(highest, Math.Max(series.Next - 1, rolls.Count > 0 ? rolls.Max(roll => roll.Last) : 0))
            : highest;
        var account = new NumberAccount(found.Runs, rolls, voids, ready, series.Next);
        var ranges = account.Ranges(page.After + 1, to)
            .Select(range => new ShownRange(
                series.Pattern.Write(range.First, 0), series.Pattern.Write(range.Last, 0),
                range.Last - range.First + 1, range.State, range.Roll?.Name ?? "",
                range.Void is { } gone
                    ? $"{gone.Act.Reason}; {gone.Act.ActorName}, {calendar.ShowDay(gone.Act.At)}"
                    : ""))
            .ToList();
        return (ranges, found.IsLast ? null : to);
    }

    private static string Written(string pattern, long number) => NumberPattern.Read(pattern).Value.Write(number, 0);
}
