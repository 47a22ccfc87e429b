using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

public sealed class SeriesModel(
    AccessionDb db, BeginSeries begin, RegisterRoll register, CloseSeries close, OpenSeries open,
    InstitutionClock calendar, TimeProvider clock) : PageModel
{
    public IReadOnlyList<ShownSeries> AllSeries { get; private set; } = [];

    public IReadOnlyList<ShownRoll> AllRolls { get; private set; } = [];

    public bool MayChange => User.IsInRole(nameof(Role.Curator));

    public bool MayNumber => MayChange || User.IsInRole(nameof(Role.Technician));

    public bool MayOpen => User.IsInRole(nameof(Role.Administrator));

    /// <summary>The series that issue nothing.</summary>
    public IEnumerable<ShownSeries> Closed => AllSeries.Where(series => series.Closed is not null);

    /// <summary>What was typed as the highest number on paper and not taken, by its series.</summary>
    public (long SeriesId, string Text)? Typed { get; private set; }

    public sealed record ShownSeries(
        long Id, string Name, SeriesUse Use, string Pattern, string Next, ShownClosing? Closed);

    /// <param name="Since">When it was closed, as people read it.</param>
    public sealed record ShownClosing(string Because, string Since, bool AfterRestore);

    /// <summary>Whether this person prints barcodes.</summary>
    public bool MayPrint => User.IsInRole(nameof(Role.Curator)) || User.IsInRole(nameof(Role.Technician));

    public sealed record ShownRoll(
        long Id, string Name, string First, string Last, long Used, long Void, long Unused);

    public Task OnGetAsync(CancellationToken cancellation) => LoadAsync(cancellation);

    public async Task<IActionResult> OnPostSeriesAsync(
        string? seriesName, SeriesUse use, string? pattern, CancellationToken cancellation)
    {
        if (!MayChange)
        {
            return Forbid();
        }

        var outcome = await begin.RunAsync(new(seriesName, use, pattern), HttpContext.Door(), cancellation);
        return await AnswerAsync(outcome.Refusals, () => $"The series {outcome.Value} has begun.", cancellation);
    }

    public async Task<IActionResult> OnPostRollAsync(
        string? rollName, string? first, string? last, CancellationToken cancellation)
    {
        if (!MayChange)
        {
            return Forbid();
        }

        var outcome = await register.RunAsync(new(rollName, first, last), HttpContext.Door(), cancellation);
        return await AnswerAsync(
            outcome.Refusals,
            () => $"The roll {outcome.Value.Name} is registered: {outcome.Value.Numbers:N0} barcodes, "
                + $"{outcome.Value.First} to {outcome.Value.Last}.",
            cancellation);
    }

    public async Task<IActionResult> OnPostCloseAsync(long series, string? why, CancellationToken cancellation)
    {
        if (!MayOpen)
        {
            return Forbid();
        }

        var outcome = await close.RunAsync(new(series, why), HttpContext.Door(), cancellation);
        return await AnswerAsync(
            outcome.Refusals, () => $"The series {outcome.Value} is closed and issues nothing.", cancellation);
    }

    public async Task<IActionResult> OnPostOpenAsync(
        long series, string? paperHighest, CancellationToken cancellation)
    {
        if (!MayOpen)
        {
            return Forbid();
        }

        var outcome = await open.RunAsync(new(series, paperHighest), HttpContext.Door(), cancellation);
        Typed = (series, paperHighest ?? "");
        return await AnswerAsync(
            outcome.Refusals, () => $"The series {outcome.Value.Name} is open. {outcome.Value.Said}", cancellation);
    }

    private async Task<IActionResult> AnswerAsync(
        IReadOnlyList<Refusal> refusals, Func<string> said, CancellationToken cancellation)
    {
        if (refusals.Count == 0)
        {
            TempData["Said"] = said();
            return RedirectToPage();
        }

        await LoadAsync(cancellation);
        return this.Show(refusals);
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        var year = calendar.Day(clock.GetUtcNow().UtcDateTime).Year;
        var series = await db.Series.AsNoTracking().Where(s => s.Use != SeriesUse.FromBefore).OrderBy(s => s.Id)
            .ToListAsync(cancellation);
        var rolls = await db.Rolls.AsNoTracking().OrderBy(r => r.Id)
            .Select(r => new
            {
                Roll = r,
                Used = db.Specimens.LongCount(
                    s => s.SeriesId == r.SeriesId && s.Number >= r.First && s.Number <= r.Last && s.Repeat == 0),
                Void = db.Voids.Where(v => v.RollId == r.Id && !db.VoidsTakenBack.Any(back => back.VoidId == v.Id))
                    .Sum(v => v.Last - v.First + 1),
            })
            .ToListAsync(cancellation);
        var ready = await db.ReadyNumbers.Where(r => !r.IsWithheld).GroupBy(r => r.SeriesId)
            .Select(r => new { SeriesId = r.Key, Number = r.Min(n => n.Number) })
            .ToDictionaryAsync(r => r.SeriesId, r => r.Number, cancellation);
        var rollsOf = rolls.ToLookup(r => r.Roll.SeriesId, r => r.Roll);
        // Issuing from a copy that is never saved shows what the next number will be.
        AllSeries =
        [
            .. series.Select(s => new ShownSeries(
                s.Id, s.Name, s.Use, s.PatternText,
                s.IsClosed ? "none: closed"
                    : ready.TryGetValue(s.Id, out var lowest) ? s.Pattern.Write(lowest, 0)
                    : s.Issue(year, [.. rollsOf[s.Id]]) is { IsRefused: false } next ? next.Value.Written : "used up",
                ClosingOf(s))),
        ];
        var patterns = series.ToDictionary(s => s.Id, s => s.Pattern);
        AllRolls =
        [
            .. rolls.Select(r => new ShownRoll(
                r.Roll.Id, r.Roll.Name,
                patterns[r.Roll.SeriesId].Write(r.Roll.First, 0),
                patterns[r.Roll.SeriesId].Write(r.Roll.Last, 0),
                r.Used, r.Void, r.Roll.Last - r.Roll.First + 1 - r.Used - r.Void)),
        ];
    }

    private ShownClosing? ClosingOf(NumberSeries series) => series.IsClosed
        ? new(series.ClosedBecause!, calendar.Show(series.ClosedAt!.Value),
            series.ClosedAs == SeriesEntryKind.ClosedAfterRestore)
        : null;
}
