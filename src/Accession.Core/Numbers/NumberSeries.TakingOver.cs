using Accession.Core.Outcomes;

namespace Accession.Core.Numbers;

public sealed partial class NumberSeries
{
    /// <summary>The series of the numbers from before; see <see cref="SeriesUse.FromBefore"/>.</summary>
    public static NumberSeries FromBefore() =>
        new() { Name = "Numbers from before", Use = SeriesUse.FromBefore, PatternText = "", Next = 1 };

    /// <summary>Counts one more number from before that is different from all others.</summary>
    /// <returns>Its place among them.</returns>
    /// <exception cref="InvalidOperationException">The series issues its numbers.</exception>
    public long CountFromBefore() => Use == SeriesUse.FromBefore
        ? Next++
        : throw new InvalidOperationException($"The series {Name} issues its numbers, and nothing is counted into it.");

    /// <summary>
    /// Goes on behind the highest number that sheets bear which are taken over, so that none of their numbers is ever
    /// issued. What the counter passes, and what lies ready up to there, becomes a roll: each of its numbers is on a
    /// sheet that is taken over, or unused until a sheet that bears it is found and scanned. A closed series stays so.
    /// </summary>
    /// <param name="highest">The highest number that those sheets bear and no roll has.</param>
    /// <param name="ready">All numbers of this series that lie ready.</param>
    /// <param name="rolls">The rolls of this series.</param>
    /// <param name="rollName">What the rolls are to be called, of at most 80 characters; a number is added.</param>
    /// <param name="act">The act of taking over.</param>
    /// <returns>What came of it, or why nothing can be taken over as long as a sheet bears that number.</returns>
    public Outcome<OpenedSeries> GoBehindTakenOver(
        long highest, IReadOnlyList<ReadyNumber> ready, IReadOnlyList<Roll> rolls, string rollName, Act act)
    {
        var paper = new PaperNumber(0, highest);
        var between = UnknownUpTo(paper, ready, rolls);
        if (WhyTooFar(highest, between.Sum(range => range.Last - range.First + 1)) is { } refusal)
        {
            return refusal;
        }

        var taken = rolls.Select(roll => roll.Name).ToHashSet(StringComparer.Ordinal);
        List<Roll> made = [];
        foreach (var (first, last) in between)
        {
            var name = Enumerable.Range(1, int.MaxValue - 1).Select(i => i == 1 ? rollName : $"{rollName}, {i}")
                .First(taken.Add);
            made.Add(Roll.FromPaper(this, name, first, last, act));
        }

        GoOnBehind(paper);
        return new OpenedSeries(
            SeriesEntry.Of(this, SeriesEntryKind.WentBehindTakenOver, Pattern.Write(highest, 0), act), made,
            [.. ready.Where(number => number.Number <= highest)], 0);
    }

    /// <summary>
    /// Why the counter would go too far; null when it would not. A slip of the pen must not use a series up.
    /// </summary>
    /// <param name="highest">The highest number.</param>
    /// <param name="between">How many numbers would become a roll.</param>
    public Refusal? WhyTooFar(long highest, long between) => between <= MostBetween
        ? null
        : new(RefusalKind.Conflict,
            $"A sheet of the list bears {Pattern.Write(highest, 0)}, more than a million numbers ahead of the series "
            + $"{Name}. Look at that row: if the number is a slip, correct it and send the list again. Nothing was "
            + "taken over.");
}
