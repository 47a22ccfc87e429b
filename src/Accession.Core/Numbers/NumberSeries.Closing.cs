using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.Numbers;

public sealed partial class NumberSeries
{
    /// <summary>The most numbers that opening puts on rolls: more than that was a slip of the hand.</summary>
    public const long MostBetween = 1_000_000;

    /// <summary>Why it is closed; null while it is open. Computed from the entries.</summary>
    public SeriesEntryKind? ClosedAs { get; private set; }

    /// <summary>Since when it is closed, in UTC; null while it is open. Computed from the entries.</summary>
    public DateTime? ClosedAt { get; private set; }

    /// <summary>The words of who closed it; null while it is open. Computed from the entries.</summary>
    public string? ClosedBecause { get; private set; }

    /// <summary>Whether it issues nothing until an administrator opens it.</summary>
    public bool IsClosed => ClosedAs is not null;

    /// <summary>Why it issues nothing, and who opens it; null while it is open.</summary>
    public Refusal? WhyItIssuesNothing() => IsClosed
        ? new(RefusalKind.Conflict,
            $"The series {Name} is closed: {ClosedBecause}. It issues no number until an administrator has entered the "
            + "highest number seen on paper, under Series and rolls.")
        : null;

    /// <summary>Closes the series, so that it issues nothing.</summary>
    /// <param name="kind">Why: by hand, or because the register was restored.</param>
    /// <param name="act">The act, with its reason, of at most 200 characters.</param>
    /// <returns>The entry, or why it cannot be closed.</returns>
    public Outcome<SeriesEntry> Close(SeriesEntryKind kind, Act act)
    {
        if (kind == SeriesEntryKind.Opened || act.Reason is not { Length: > 0 and <= 200 })
        {
            return new Refusal(RefusalKind.Invalid,
                "Say in at most 200 characters why the series is closed: whoever is refused a number reads it.");
        }

        if (IsClosed && kind == SeriesEntryKind.Closed)
        {
            return new Refusal(RefusalKind.Conflict, $"The series {Name} is closed already: {ClosedBecause}.");
        }

        (ClosedAs, ClosedAt, ClosedBecause) = (kind, act.At, act.Reason);
        return SeriesEntry.Of(this, kind, "", act);
    }

    /// <summary>
    /// Opens the series with the highest number seen on paper. Whatever the register does not know up to there may be
    /// on a sheet: of a series of sheets it becomes a roll, used when its numbers are scanned; the counter steps over
    /// it. What lies ready above the paper's number is ready as before.
    /// </summary>
    /// <param name="paper">The highest number seen on paper.</param>
    /// <param name="ready">All numbers of this series that lie ready.</param>
    /// <param name="rolls">The rolls of this series.</param>
    /// <param name="closedOn">The day it was closed, in the institution's zone; the rolls are named by it.</param>
    /// <param name="act">The act of opening.</param>
    /// <returns>What came of it, or why it cannot be opened.</returns>
    public Outcome<OpenedSeries> Open(
        PaperNumber paper, IReadOnlyList<ReadyNumber> ready, IReadOnlyList<Roll> rolls, DateOnly closedOn, Act act)
    {
        var pattern = Pattern;
        if (!IsClosed)
        {
            return new Refusal(RefusalKind.Conflict, $"The series {Name} is open: somebody opened it already.");
        }

        if (paper.Number < 0 || paper.Number > pattern.Largest)
        {
            return new Refusal(RefusalKind.Invalid,
                $"The numbers of {Name} run from 1 to {pattern.Largest}. Read the number on paper again.");
        }

        var between = UnknownUpTo(paper, ready, rolls);
        var count = between.Sum(range => range.Last - range.First + 1);
        if (count > MostBetween)
        {
            return new Refusal(RefusalKind.Invalid,
                $"Between the register and {pattern.Write(paper.Number, paper.Year)} lie more than a million numbers. "
                + "Read the number on paper again; nothing was opened.");
        }

        var named = RollName(closedOn);
        var made = Use == SeriesUse.Accessions
            ? []
            : between.Select((range, i) => Roll.FromPaper(
                this, i == 0 ? named : $"{named}, {i + 1}", range.First, range.Last, act)).ToList();
        GoOnBehind(paper);
        (ClosedAs, ClosedAt, ClosedBecause) = (null, null, null);
        var highest = paper.Number == 0 ? "" : pattern.Write(paper.Number, paper.Year);
        return new OpenedSeries(
            SeriesEntry.Of(this, SeriesEntryKind.Opened, highest, act), made,
            [.. ready.Where(number => number.Number <= paper.Number)],
            Use == SeriesUse.Accessions ? count : 0);
    }

    // What the counter has not given out, and what it laid ready and nobody had taken when the register was kept.
    private List<(long First, long Last)> UnknownUpTo(
        PaperNumber paper, IReadOnlyList<ReadyNumber> ready, IReadOnlyList<Roll> rolls)
    {
        List<(long First, long Last)> ranges = [];
        foreach (var number in ready.Select(r => r.Number).Where(n => n <= paper.Number).Order())
        {
            Join(number, number);
        }

        var next = paper.Year > Year ? 1 : Next;
        if (paper.Year < Year)
        {
            return ranges;
        }

        foreach (var roll in rolls.Where(roll => roll.Last >= next).OrderBy(roll => roll.First))
        {
            Join(next, Math.Min(roll.First - 1, paper.Number));
            next = Math.Max(next, roll.Last + 1);
        }

        Join(next, paper.Number);
        return ranges;

        void Join(long first, long last)
        {
            if (last < first)
            {
                return;
            }

            if (ranges.Count > 0 && ranges[^1].Last == first - 1)
            {
                ranges[^1] = (ranges[^1].First, last);
            }
            else
            {
                ranges.Add((first, last));
            }
        }
    }

    private void GoOnBehind(PaperNumber paper)
    {
        if (paper.Year > Year)
        {
            (Year, Next) = (paper.Year, paper.Number + 1);
        }
        else if (paper.Year == Year)
        {
            Next = Math.Max(Next, paper.Number + 1);
        }
    }

    // At most 100 characters, and of its own among the rolls of all series.
    private string RollName(DateOnly closedOn)
    {
        var day = closedOn.ToString("d MMM yyyy", CultureInfo.InvariantCulture);
        var name = Name.Length <= 50 ? Name : Name[..50] + "…";
        return ClosedAs == SeriesEntryKind.ClosedAfterRestore
            ? $"before the restore of {day}, {name}"
            : $"before the closing of {day}, {name}";
    }
}
