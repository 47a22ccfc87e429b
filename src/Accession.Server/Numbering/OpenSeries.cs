using System.Globalization;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Numbers;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>
/// Opens a closed series with the highest number that was seen on paper. What lies between the register and the paper
/// becomes a roll, so that a sheet that bears such a number can be scanned and nobody else gets it.
/// </summary>
public sealed class OpenSeries(AccessionDb db, NumberIssuer numbers, InstitutionClock calendar, TimeProvider clock)
{
    /// <summary>What is entered when no paper bears a number of the series.</summary>
    public const string NoneOnPaper = "none";

    /// <param name="PaperHighest">The number as typed or scanned, or "none".</param>
    public sealed record Request(long SeriesId, string? PaperHighest);

    /// <param name="Said">What came of it, in sentences.</param>
    public sealed record Opened(string Name, string Said);

    public Task<Outcome<Opened>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var paper = request.PaperHighest?.Trim() ?? "";
        var act = Act.Of(
            door, "open a number series", clock.GetUtcNow().UtcDateTime, $"highest on paper: {Shown(paper)}");
        return db.CarryOutAsync(
            door, act,
            async () => door.By.Roles.Contains(Role.Administrator)
                ? await OpenAsync(request.SeriesId, paper, act, cancellation)
                : new Refusal(RefusalKind.NotAllowed, "Only an administrator opens a series."),
            cancellation);
    }

    private async Task<Outcome<Opened>> OpenAsync(
        long seriesId, string typed, Act act, CancellationToken cancellation)
    {
        if (await numbers.HoldAsync(seriesId, cancellation) is not { } series)
        {
            return new Refusal(RefusalKind.NotFound, "That series is not here.");
        }

        var paper = Read(series, typed);
        if (paper.IsRefused)
        {
            return paper.Refusals.ToList();
        }

        var ready = await numbers.HoldReadyAsync(seriesId, cancellation);
        var rolls = await db.Rolls.Where(roll => roll.SeriesId == seriesId).ToListAsync(cancellation);
        var highest = await HighestAsync(series, cancellation);
        var opened = series.Open(
            paper.Value, ready, rolls, calendar.Day(series.ClosedAt ?? act.At), act);
        if (opened.IsRefused)
        {
            return opened.Refusals.ToList();
        }

        db.Add(opened.Value.Entry);
        db.AddRange(opened.Value.Rolls);
        db.RemoveRange(opened.Value.NoLongerReady);
        ready.Except(opened.Value.NoLongerReady).ToList().ForEach(number => number.Release());
        return new Opened(series.Name, Say(series, opened.Value, highest));
    }

    private Outcome<PaperNumber> Read(NumberSeries series, string typed)
    {
        if (typed.Equals(NoneOnPaper, StringComparison.OrdinalIgnoreCase))
        {
            return PaperNumber.None;
        }

        if (typed.Length == 0)
        {
            return new Refusal(RefusalKind.Invalid,
                $"Enter the highest number of {series.Name} that is on any sheet, label or list, or the word none when "
                + "no paper bears one.");
        }

        if (series.Pattern.PaperNumberIn(typed) is not { } paper)
        {
            return new Refusal(RefusalKind.Invalid,
                $"\"{Shown(typed)}\" is no number of {series.Name}: its numbers look like {series.PatternText}.");
        }

        var year = calendar.Day(clock.GetUtcNow().UtcDateTime).Year;
        return paper.Year <= year
            ? paper
            : new Refusal(RefusalKind.Invalid,
                $"{series.Pattern.Write(paper.Number, paper.Year)} is of a year that has not begun. "
                + "Read the number on paper again.");
    }

    // The highest the register knows to be in use; a barcode of a roll ahead of the counter says nothing of it.
    private async Task<string?> HighestAsync(NumberSeries series, CancellationToken cancellation)
    {
        if (series.Use == SeriesUse.Accessions)
        {
            return series.Next > 1 ? series.Pattern.Write(series.Next - 1, series.Year) : null;
        }

        var below = series.Next;
        var number = await db.Specimens.Where(s => s.SeriesId == series.Id && s.Number < below)
            .MaxAsync(s => (long?)s.Number, cancellation);
        return number is { } last ? series.Pattern.Write(last, 0) : null;
    }

    private static string Say(NumberSeries series, OpenedSeries opened, string? highest)
    {
        var register = highest is null ? "The register knows no number of it" : $"The register reaches {highest}";
        var paper = opened.Entry.PaperHighest;
        if (opened.Skipped > 0)
        {
            return $"{register}, the paper {paper}: the counter goes on behind it. {Count(opened.Skipped)} of lots "
                + "that the register does not know: take their lists in again.";
        }

        if (opened.Rolls.Count == 0)
        {
            return $"{register}{(paper.Length > 0 ? $", the paper {paper}" : "")}: nothing lies between, "
                + "and no number was set aside.";
        }

        var names = string.Join(" and ", opened.Rolls.Select(roll => $"\"{roll.Name}\""));
        return $"{register}, the paper {paper}. {Count(opened.OnRolls)} between that may be on sheets, and stand on "
            + $"the roll {names} now: scan each sheet that bears one.";
    }

    private static string Count(long numbers) => numbers == 1
        ? "There is 1 number"
        : string.Create(CultureInfo.InvariantCulture, $"There are {numbers:N0} numbers");

    private static string Shown(string text) => text.Length <= 60 ? text : text[..60] + "…";
}
