using Accession.Core.Outcomes;

namespace Accession.Core.Numbers;

/// <summary>
/// Numbers of a roll that will never be on a sheet: barcodes that are torn, lost or misprinted. An entry, never edited;
/// one made by mistake is taken back by another, see <see cref="VoidTakenBack"/>.
/// </summary>
public sealed class VoidedNumbers
{
    private VoidedNumbers()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The roll they stand on.</summary>
    public long RollId { get; private set; }

    /// <summary>The series of that roll.</summary>
    public long SeriesId { get; private set; }

    /// <summary>The first number that is void.</summary>
    public long First { get; private set; }

    /// <summary>The last number that is void.</summary>
    public long Last { get; private set; }

    /// <summary>The act that made them void: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that made them void: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Makes unused numbers of a roll void, or says why they cannot be.</summary>
    /// <param name="roll">The roll they stand on, with its series.</param>
    /// <param name="first">The first number.</param>
    /// <param name="last">The last number, on the same roll.</param>
    /// <param name="firstOnSheet">The lowest number of the range that is on a sheet; null when none is.</param>
    /// <param name="others">What is void on this roll.</param>
    /// <param name="act">The act, with its reason, of at most 200 characters.</param>
    public static Outcome<VoidedNumbers> Make(
        Roll roll, long first, long last, long? firstOnSheet, IReadOnlyList<VoidedNumbers> others, Act act)
    {
        var pattern = roll.Series.Pattern;
        if (act.Reason is not { Length: > 0 and <= 200 })
        {
            return new Refusal(RefusalKind.Invalid,
                "Say in at most 200 characters why: barcode torn, lost, misprinted. Whoever scans the number reads "
                + "it.");
        }

        if (last < first || !roll.Contains(first) || !roll.Contains(last))
        {
            return new Refusal(RefusalKind.Invalid,
                $"The numbers run upwards and stand on one roll; \"{roll.Name}\" has {pattern.Write(roll.First, 0)} to "
                + $"{pattern.Write(roll.Last, 0)}.");
        }

        if (firstOnSheet is { } used)
        {
            return new Refusal(RefusalKind.Conflict,
                $"{pattern.Write(used, 0)} is on a sheet, and a number on a sheet is never void. If that sheet was "
                + "numbered by mistake, its record stays and says so, and the right sheet gets a number of its own.");
        }

        return others.Where(o => o.First <= last && first <= o.Last).MinBy(o => o.First) is { } already
            ? new Refusal(RefusalKind.Conflict,
                $"{pattern.Write(Math.Max(first, already.First), 0)} is void already: {already.Act.Reason}.")
            : new VoidedNumbers
            {
                RollId = roll.Id,
                SeriesId = roll.SeriesId,
                First = first,
                Last = last,
                Act = act,
            };
    }
}
