using Accession.Core.People;

namespace Accession.Core.Tests.People;

/// <summary>
/// What numbers and dates say of the way of numbering. That a collector's numbers rise with the date is common practice,
/// no published source; the kinds of numbers are those that the readers' labelled samples have.
/// </summary>
public sealed class NumberingRunsTests
{
    [Fact]
    public void Numbers_that_rise_over_the_years_are_one_run_for_life()
    {
        var evidence = NumberingRuns.Of(Numbered((1931, [1, 5, 9]), (1932, [14, 20]), (1940, [310, 311, 330])));

        Assert.Equal(NumberingHabit.OneRun, evidence.Habit);
        Assert.Equal((8, 7, 7, 0), (evidence.Read, evidence.Rises, evidence.Steps, evidence.Restarts));
    }

    [Fact]
    public void Numbers_in_disorder_within_a_season_are_one_run_where_each_year_goes_on_above_the_last()
    {
        var evidence = NumberingRuns.Of(Numbered((1931, [4, 1, 3, 2]), (1932, [9, 6, 8, 7]), (1934, [30, 21, 25, 20])));

        Assert.Equal(NumberingHabit.OneRun, evidence.Habit);
        Assert.Equal((2, 2, 0), (evidence.GoOn, evidence.YearChanges, evidence.Restarts));
        // One change of year is not enough for that, and years that overlap show nothing.
        Assert.Null(NumberingRuns.Of(Numbered((1931, [4, 1, 3, 2]), (1932, [9, 6, 8, 7]))).Habit);
        Assert.Null(NumberingRuns.Of(Numbered((1931, [4, 1, 9, 2]), (1932, [8, 7, 18, 9]), (1934, [30, 17, 25, 20]))).Habit);
    }

    [Fact]
    public void Numbers_that_fall_to_low_ones_with_each_year_begin_anew()
    {
        var evidence = NumberingRuns.Of(Numbered((1931, [1, 40, 90]), (1932, [3, 60, 120]), (1933, [2, 30])));

        Assert.Equal(NumberingHabit.RestartsYearly, evidence.Habit);
        Assert.Equal((2, 2), (evidence.Restarts, evidence.YearChanges));
    }

    [Fact]
    public void Numbers_with_their_own_year_before_them_begin_anew_however_they_are_written()
    {
        string[] numbers = ["2024-1", "2024-2", "24-3", "2024/4", "2025-1", "2025-02", "25-3", "2025-4"];
        var evidence = NumberingRuns.Of(numbers.Select((number, at) => new DatedNumber(
            new(at < 4 ? 2024 : 2025, 5, 1 + at), number)));

        Assert.Equal(NumberingHabit.RestartsYearly, evidence.Habit);
        Assert.Equal(8, evidence.WithYear);
    }

    [Fact]
    public void Runs_under_prefixes_of_their_own_are_of_projects()
    {
        var evidence = NumberingRuns.Of(
        [
            .. Numbered((1931, [1, 2, 3, 4, 5])).Select(one => one with { Number = $"A-{one.Number}" }),
            .. Numbered((1931, [1, 2, 3, 4, 5])).Select(one => new DatedNumber(one.Day.AddDays(-3), $"B-{one.Number}")),
        ]);

        Assert.Equal(NumberingHabit.ByProject, evidence.Habit);
        Assert.Equal(["a", "b"], evidence.Prefixes);
    }

    [Fact]
    public void One_slip_hides_nothing_and_too_few_or_disordered_numbers_show_nothing()
    {
        Assert.Equal(
            NumberingHabit.OneRun,
            NumberingRuns.Of(Numbered((1931, [1, 2, 3, 4, 5, 6, 7]), (1932, [8, 90, 10, 11, 12, 13]))).Habit);
        // Of one year nobody knows how it goes on.
        Assert.Null(NumberingRuns.Of(Numbered((1931, [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]))).Habit);
        Assert.Null(NumberingRuns.Of(Numbered((1931, [1, 2, 3, 4, 5, 6, 7]))).Habit);
        Assert.Null(NumberingRuns.Of(Numbered((1931, [9, 2, 7, 1, 8, 3, 6, 4, 5]))).Habit);
        // One fall is no habit: it may be another person, or another notebook.
        Assert.Null(NumberingRuns.Of(Numbered((1931, [1, 40, 90, 120]), (1932, [3, 60, 120, 121]))).Habit);
        Assert.Equal(0, NumberingRuns.Of([]).Read);
    }

    [Fact]
    public void What_is_no_number_is_left_out()
    {
        string[] odd = ["s.n.", "", "12-19", "99999999999999999999", "\u200f\u0661\u0662", "½", "—", "12 & 14"];
        var numbers = odd.Select(number => new DatedNumber(new(1931, 5, 1), number)).ToList();
        var evidence = NumberingRuns.Of(numbers);

        Assert.Null(evidence.Habit);
        Assert.InRange(evidence.Read, 0, 2);
    }

    // A number a day, the numbers of each year in their order.
    private static IEnumerable<DatedNumber> Numbered(params (int Year, int[] Numbers)[] years) =>
        years.SelectMany(year => year.Numbers.Select((number, at) => new DatedNumber(
            new DateOnly(year.Year, 4, 1).AddDays(at * 5), $"{number}")));
}
