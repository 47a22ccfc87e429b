using Accession.Core.Gatherings;

namespace Accession.Core.Batches;

/// <summary>
/// What the dates of a list prove about the order of day and month: how many prove either, and the first of each kind
/// to show.
/// </summary>
public sealed class OrderTally
{
    private const int MostShown = 3;

    /// <summary>Dates that can only be day first, such as 25/12/1931.</summary>
    public int ProvingDayFirst { get; init; }

    /// <summary>Dates that can only be month first, such as 12/25/1931.</summary>
    public int ProvingMonthFirst { get; init; }

    /// <summary>Dates that can be either, such as 12/05/1931.</summary>
    public int Either { get; init; }

    /// <summary>The first few of each kind, with their lines.</summary>
    public IReadOnlyList<Shown> Examples { get; init; } = [];

    /// <summary>Whether somebody has to settle the order before the dates can be read.</summary>
    public bool NeedsAnswer => Either > 0;

    /// <summary>The order that the list itself proves; unsettled when it proves none, or both.</summary>
    public DayMonthOrder Proven => (ProvingDayFirst, ProvingMonthFirst) switch
    {
        ( > 0, 0) => DayMonthOrder.DayFirst,
        (0, > 0) => DayMonthOrder.MonthFirst,
        _ => DayMonthOrder.Unsettled,
    };

    /// <summary>A date of the list.</summary>
    /// <param name="Line">Its line in the file.</param>
    /// <param name="Text">The date to the letter.</param>
    /// <param name="Evidence">What it proves.</param>
    public sealed record Shown(int Line, string Text, DayMonthEvidence Evidence);

    /// <summary>The tally with one more date.</summary>
    /// <param name="line">Its line in the file.</param>
    /// <param name="text">The date to the letter.</param>
    /// <param name="evidence">What it proves.</param>
    public OrderTally With(int line, string text, DayMonthEvidence evidence)
    {
        if (evidence == DayMonthEvidence.None)
        {
            return this;
        }

        var isShown = Examples.Count(example => example.Evidence == evidence) < MostShown;
        return new()
        {
            ProvingDayFirst = ProvingDayFirst + (evidence == DayMonthEvidence.ProvesDayFirst ? 1 : 0),
            ProvingMonthFirst = ProvingMonthFirst + (evidence == DayMonthEvidence.ProvesMonthFirst ? 1 : 0),
            Either = Either + (evidence == DayMonthEvidence.Either ? 1 : 0),
            Examples = isShown ? [.. Examples, new(line, text, evidence)] : Examples,
        };
    }
}
