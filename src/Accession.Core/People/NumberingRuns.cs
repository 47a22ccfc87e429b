using Accession.Core.Gatherings;

namespace Accession.Core.People;

/// <summary>One number of a collector with the day it was used.</summary>
/// <param name="Day">The collecting date, known to the day.</param>
/// <param name="Number">The number to the letter.</param>
public readonly record struct DatedNumber(DateOnly Day, string Number);

/// <summary>What the numbers of a collector say of the way of numbering.</summary>
/// <param name="Habit">What they show; null where they are too few, or show nothing.</param>
/// <param name="Read">How many numbers were read and counted.</param>
/// <param name="Rises">Of the steps from one day to a later one, how many went up.</param>
/// <param name="Steps">How many steps from one day to a later one there are.</param>
/// <param name="Restarts">Of the changes of year, how many went back to low numbers.</param>
/// <param name="GoOn">Of the changes of year, how many went on above all numbers of the year before.</param>
/// <param name="YearChanges">How many changes of year there are between years with enough numbers.</param>
/// <param name="WithYear">How many numbers have their own year before them, as 2026-14.</param>
/// <param name="Prefixes">The prefixes that have runs of their own, each from low numbers up.</param>
public sealed record NumberingEvidence(
    NumberingHabit? Habit,
    int Read,
    int Rises,
    int Steps,
    int Restarts,
    int GoOn,
    int YearChanges,
    int WithYear,
    IReadOnlyList<string> Prefixes);

/// <summary>
/// Proposes from the numbers and dates of a collector how they number. A collector's numbers rise with the date, in one
/// run for life, or in one that begins anew each year, or in several beside each other: common practice, no published
/// source. It is a proposal, and a person decides.
/// </summary>
public static class NumberingRuns
{
    /// <summary>Fewer numbers than these show nothing.</summary>
    public const int Fewest = 8;

    private const int FewestOfYear = 2;
    private const int FewestYears = 3;
    private const int FewestOfPrefix = 3;

    // A slip in one date or number of ten must not hide what the others show.
    private const double Mostly = 0.9;

    /// <summary>Reads numbers and dates, in any order; what cannot be read as a number is left out.</summary>
    /// <remarks>Numbers of one year alone show neither that they go on nor that they begin anew.</remarks>
    /// <param name="numbers">The numbers of one collector.</param>
    public static NumberingEvidence Of(IEnumerable<DatedNumber> numbers)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        var read = numbers.Select(Used.Of).OfType<Used>().OrderBy(one => one.Day).ThenBy(one => one.Serial).ToList();
        var withYear = read.Count(one => one.IsYears);
        var (rises, steps) = Steps(read);
        var (restarts, goOn, changes) = YearChanges(read);
        var prefixes = PrefixesWithRuns(read);
        NumberingHabit? habit = read.Count < Fewest ? null
            : withYear >= Mostly * read.Count ? NumberingHabit.RestartsYearly
            : prefixes.Count > 1 ? NumberingHabit.ByProject
            : changes >= FewestYears - 1 && restarts >= Mostly * changes && IsRisingInYears(read)
                ? NumberingHabit.RestartsYearly
            : restarts > 0 ? null
            : changes > 0 && rises >= Mostly * steps ? NumberingHabit.OneRun
            // Sheets numbered at home, after the season, are in no order of days.
            : changes >= FewestYears - 1 && goOn >= Mostly * changes ? NumberingHabit.OneRun
            : null;
        return new(habit, read.Count, rises, steps, restarts, goOn, changes, withYear, prefixes);
    }

    /// <summary>The serial number that a number is in its run; null where none can be read.</summary>
    /// <param name="number">The number with its day.</param>
    public static int? SerialOf(DatedNumber number) => Used.Of(number)?.Serial;

    // From each day to the next, by the lowest number of each: the order within a day is not known.
    private static (int Rises, int Steps) Steps(IReadOnlyList<Used> read)
    {
        var days = read.GroupBy(one => one.Day).Select(day => day.Min(one => one.Serial)).ToList();
        return (days.Zip(days.Skip(1)).Count(pair => pair.Second > pair.First), Math.Max(0, days.Count - 1));
    }

    // A year begins low where its lowest number is in the lower half of what the year before had come to, and below all
    // that it would be if the run went on.
    private static (int Restarts, int GoOn, int Changes) YearChanges(IReadOnlyList<Used> read)
    {
        var years = read.GroupBy(one => one.Day.Year).Where(year => year.Count() >= FewestOfYear)
            .Select(year => (Low: year.Min(one => one.Serial), High: year.Max(one => one.Serial))).ToList();
        var changes = years.Zip(years.Skip(1)).ToList();
        return (
            changes.Count(pair => pair.Second.Low < (pair.First.Low + pair.First.High) / 2.0),
            changes.Count(pair => pair.Second.Low > pair.First.High),
            changes.Count);
    }

    private static bool IsRisingInYears(IReadOnlyList<Used> read)
    {
        var steps = read.GroupBy(one => one.Day.Year).Select(year => Steps([.. year])).ToList();
        return steps.Sum(year => year.Rises) >= Mostly * steps.Sum(year => year.Steps);
    }

    private static List<string> PrefixesWithRuns(IReadOnlyList<Used> read)
    {
        var runs = read.GroupBy(one => one.Prefix).Where(run => run.Count() >= FewestOfPrefix).ToList();
        var counted = runs.Sum(run => run.Count());
        var areBeside = runs.Count > 1 && counted >= Mostly * read.Count && runs.All(run =>
        {
            var (rises, steps) = Steps([.. run]);
            return rises >= Mostly * steps;
        }) && Steps(read) is var (all, of) && all < Mostly * of;
        return areBeside ? [.. runs.Select(run => run.Key).Order(StringComparer.Ordinal)] : [];
    }

    private sealed record Used(DateOnly Day, int Serial, string Prefix, bool IsYears)
    {
        // Nine digits are more than anybody counts to.
        private const int MostDigits = 9;

        public static Used? Of(DatedNumber dated)
        {
            var reading = CollectorNumber.Read(dated.Number);
            if (!reading.IsRead || reading.Value.IsWithoutNumber || reading.Value.Numbers.Count != 1)
            {
                return null;
            }

            var number = reading.Value.Numbers[0];
            var runs = number.Number.Split([.. number.Number.Where(c => !char.IsAsciiDigit(c)).Distinct()])
                .Where(run => run.Length > 0).ToList();
            if (runs is [] || runs[^1].Length > MostDigits)
            {
                return null;
            }

            var year = dated.Day.Year % 100;
            var isYears = runs.Count == 2
                && (runs[0] == $"{dated.Day.Year}" || (runs[0].Length == 2 && runs[0] == $"{year:00}"));
            return new(dated.Day, int.Parse(runs[^1], null), LetterFolding.Key(number.Prefix), isYears);
        }
    }
}
