using Accession.Core.Outcomes;

namespace Accession.Core.Numbers;

/// <summary>
/// The rule and the counter that issue numbers. A number once on a sheet is never issued again. The counter is one row,
/// read and raised inside the transaction that uses the number, or that lays numbers ready for the next sheets (see
/// <see cref="ReadyNumber"/>), so there are no gaps.
/// </summary>
public sealed partial class NumberSeries
{
    private NumberSeries()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>What people call the series.</summary>
    public string Name { get; private set; } = "";

    /// <summary>What its numbers are put on.</summary>
    public SeriesUse Use { get; private set; }

    /// <summary>How its numbers look; see <see cref="NumberPattern"/>.</summary>
    public string PatternText { get; private set; } = "";

    /// <summary>The number that is issued next, from 1.</summary>
    public long Next { get; private set; }

    /// <summary>The year of the last number, where the numbers begin again each year; otherwise 0.</summary>
    public int Year { get; private set; }

    /// <summary>How its numbers look.</summary>
    /// <exception cref="InvalidOperationException">It is that of <see cref="SeriesUse.FromBefore"/>.</exception>
    public NumberPattern Pattern => NumberPattern.Read(PatternText).Value;

    /// <summary>Begins a series, or says what is wrong with its pattern.</summary>
    /// <param name="name">What people call it.</param>
    /// <param name="use">What its numbers are put on.</param>
    /// <param name="pattern">How its numbers look.</param>
    public static Outcome<NumberSeries> Begin(string name, SeriesUse use, string pattern)
    {
        if (use == SeriesUse.FromBefore)
        {
            return new Refusal(RefusalKind.Invalid, "Choose whether its numbers go on sheets or on accessions.");
        }

        var read = NumberPattern.Read(pattern);
        if (!read.IsRead)
        {
            return new Refusal(RefusalKind.Invalid, $"The pattern \"{pattern}\": {read.Unreadable.Reason}");
        }

        if (use == SeriesUse.Specimens && read.Value.HasYear)
        {
            return new Refusal(RefusalKind.Invalid,
                "The numbers of sheets never begin again, so their pattern has no year. Years are for accessions.");
        }

        return new NumberSeries { Name = name, Use = use, PatternText = pattern, Next = 1 };
    }

    /// <summary>Issues the next number, stepping over ranges that are printed on rolls.</summary>
    /// <param name="year">
    /// This year, for series that begin again each year. A year before that of the last number counts as that of the
    /// last number: a clock that goes wrong must not issue old numbers again.
    /// </param>
    /// <param name="rolls">The rolls of this series; numbers inside them are not the counter's to give.</param>
    /// <returns>
    /// The running number and how it is written; a conflict when the series is used up, or closed.
    /// </returns>
    public Outcome<IssuedNumber> Issue(int year, IReadOnlyList<Roll> rolls)
    {
        if (WhyItIssuesNothing() is { } closed)
        {
            return closed;
        }

        var pattern = Pattern;
        var begins = pattern.HasYear && year > Year;
        var counted = begins || !pattern.HasYear ? year : Year;
        var number = begins ? 1 : Next;
        while (rolls.FirstOrDefault(roll => roll.Contains(number)) is { } roll)
        {
            number = roll.Last + 1;
        }

        if (number > pattern.Largest)
        {
            return new Refusal(RefusalKind.Conflict,
                $"The series {Name} is used up: {pattern.Write(pattern.Largest, counted)} was its last number. "
                + "Begin a new series.");
        }

        Next = number + 1;
        Year = pattern.HasYear ? counted : Year;
        return new IssuedNumber(number, pattern.Write(number, counted));
    }

    /// <summary>
    /// Issues the next numbers and lays them ready, so that many can number sheets at once without waiting for the
    /// counter.
    /// </summary>
    /// <param name="rolls">The rolls of this series.</param>
    /// <returns>
    /// At most <see cref="ReadyNumber.AtATime"/> numbers, the lowest first; a conflict when the series is used up.
    /// </returns>
    public Outcome<IReadOnlyList<ReadyNumber>> LayReady(IReadOnlyList<Roll> rolls)
    {
        List<ReadyNumber> ready = [];
        while (ready.Count < ReadyNumber.AtATime)
        {
            var issued = Issue(0, rolls);
            if (issued.IsRefused)
            {
                return ready.Count > 0 ? ready : issued.Refusals.ToList();
            }

            ready.Add(ReadyNumber.Of(this, issued.Value, isFirst: ready.Count == 0));
        }

        return ready;
    }

    /// <summary>
    /// Takes back what lies ready above the last number in use, so that the counter stands right behind that number.
    /// </summary>
    /// <param name="ready">All numbers of this series that lie ready.</param>
    /// <returns>Those that are taken back; the counter will issue them again.</returns>
    public IReadOnlyList<ReadyNumber> TakeBack(IEnumerable<ReadyNumber> ready)
    {
        List<ReadyNumber> back = [];
        foreach (var number in ready.OrderByDescending(number => number.Number))
        {
            if (number.Number != Next - 1)
            {
                break;
            }

            Next--;
            back.Add(number);
        }

        return back;
    }
}

/// <summary>A number that was issued.</summary>
/// <param name="Number">The running number.</param>
/// <param name="Written">The number in the form that is stored and printed.</param>
public sealed record IssuedNumber(long Number, string Written);
