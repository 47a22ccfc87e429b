namespace Accession.Core.Numbers;

/// <summary>
/// Accounts for the numbers of a series: every one is on a sheet, unused on a roll, void with a reason, ready, or not
/// issued yet. What is none of these is said, not left out.
/// </summary>
/// <param name="Sheets">The runs of numbers on sheets, the lowest first, without two that touch.</param>
/// <param name="Rolls">The rolls of the series.</param>
/// <param name="Voids">What is void now.</param>
/// <param name="Ready">The numbers that lie ready.</param>
/// <param name="Next">The number the counter issues next.</param>
public sealed record NumberAccount(
    IReadOnlyList<(long First, long Last)> Sheets,
    IReadOnlyList<Roll> Rolls,
    IReadOnlyList<VoidedNumbers> Voids,
    IReadOnlyList<long> Ready,
    long Next)
{
    /// <summary>Numbers that follow one another and have one fate.</summary>
    /// <param name="First">The first of them.</param>
    /// <param name="Last">The last of them.</param>
    /// <param name="State">What became of them.</param>
    /// <param name="Roll">The roll they stand on; null when the counter gave them.</param>
    /// <param name="Void">The entry that made them void; null when they are not.</param>
    public sealed record Range(long First, long Last, NumberState State, Roll? Roll, VoidedNumbers? Void);

    /// <summary>All numbers from one to another, as ranges in their order; no number is left out.</summary>
    /// <param name="from">The first number, from 1.</param>
    /// <param name="to">The last number.</param>
    public IEnumerable<Range> Ranges(long from, long to)
    {
        Range? range = null;
        foreach (var (first, last) in Pieces(from, to))
        {
            var piece = PieceOf(first, last);
            if (range is not null && range with { Last = last } == piece with { First = range.First })
            {
                range = range with { Last = last };
                continue;
            }

            if (range is not null)
            {
                yield return range;
            }

            range = piece;
        }

        if (range is not null)
        {
            yield return range;
        }
    }

    // Within a piece nothing begins or ends, so its first number speaks for all.
    private IEnumerable<(long First, long Last)> Pieces(long from, long to)
    {
        var begins = Sheets
            .Concat(Rolls.Select(roll => (roll.First, roll.Last)))
            .Concat(Voids.Select(one => (one.First, one.Last)))
            .Concat(Ready.Select(number => (number, number)))
            .SelectMany(span => new[] { span.Item1, span.Item2 + 1 })
            .Append(Next)
            .Append(from)
            .Where(begin => begin >= from && begin <= to)
            .Distinct().Order().ToList();
        return begins.Select((begin, i) => (begin, i + 1 < begins.Count ? begins[i + 1] - 1 : to));
    }

    private Range PieceOf(long first, long last)
    {
        var roll = Rolls.FirstOrDefault(roll => roll.Contains(first));
        var gone = Voids.FirstOrDefault(one => one.First <= first && first <= one.Last);
        var isOnSheet = Sheets.Any(run => run.First <= first && first <= run.Last);
        var isReady = Ready.Contains(first);
        var state = (isOnSheet, gone is not null, isReady, roll is not null) switch
        {
            (true, false, false, true) => NumberState.OnSheet,
            (true, false, false, false) when first < Next => NumberState.OnSheet,
            (false, true, false, true) => NumberState.Void,
            (false, false, false, true) => NumberState.Unused,
            (false, false, true, false) when first < Next => NumberState.Ready,
            (false, false, false, false) when first >= Next => NumberState.NotIssued,
            _ => NumberState.Unaccounted,
        };
        return new(first, last, state, roll, gone);
    }
}
