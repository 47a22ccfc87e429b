using Accession.Core.Numbers;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests.Numbers;

public class NumberSeriesTests
{
    private static readonly Act Registering =
        Act.Of(Door.System, "register a roll", new DateTime(2026, 3, 1, 9, 0, 0, DateTimeKind.Utc));

    [Fact]
    public void Counts_from_one_without_a_gap_and_steps_over_rolls()
    {
        var series = Begin("H000");
        var rolls = new List<Roll> { Register(series, 3, 5, []) };
        rolls.Add(Register(series, 6, 6, rolls));
        rolls.Add(Register(series, 8, 9, rolls));

        Assert.Equal(
            ["H001", "H002", "H007", "H010", "H011"],
            Enumerable.Range(0, 5).Select(_ => series.Issue(2026, rolls).Value.Written));
        Assert.Equal(12, series.Next);
    }

    [Fact]
    public void Ends_with_its_last_number_and_stays_ended()
    {
        var series = Begin("H000");
        var rolls = new List<Roll> { Register(series, 2, 999, []) };
        Assert.Equal("H001", series.Issue(2026, rolls).Value.Written);
        for (var again = 0; again < 2; again++)
        {
            var refusal = Assert.Single(series.Issue(2026, rolls).Refusals);
            Assert.Equal(RefusalKind.Conflict, refusal.Kind);
            Assert.Contains("H999 was its last number", refusal.Reason, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Begins_again_with_the_year_and_never_goes_back_to_an_old_one()
    {
        var series = Begin("YYYY.0000", SeriesUse.Accessions);
        Assert.Equal(
            ["2025.0001", "2025.0002", "2026.0001", "2026.0002", "2027.0001"],
            new[] { 2025, 2025, 2026, 2025, 2027 }.Select(year => series.Issue(year, []).Value.Written));
    }

    [Fact]
    public void Sheets_have_no_year_in_their_number()
    {
        var refusal = Assert.Single(NumberSeries.Begin("Sheets", SeriesUse.Specimens, "YYYY.0000").Refusals);
        Assert.Equal(RefusalKind.Invalid, refusal.Kind);
    }

    [Theory]
    [InlineData(0, 5, RefusalKind.Invalid)]
    [InlineData(9, 8, RefusalKind.Invalid)]
    [InlineData(5, 10_000_000, RefusalKind.Invalid)]
    [InlineData(5, 1_000_005, RefusalKind.Invalid)]      // one more than a million
    [InlineData(2, 8, RefusalKind.Conflict)]             // H0000002 may be on a sheet
    [InlineData(8, 10, RefusalKind.Conflict)]            // a roll begins at 10
    [InlineData(20, 25, RefusalKind.Conflict)]           // and ends at 20
    [InlineData(12, 13, RefusalKind.Conflict)]
    [InlineData(1, 30, RefusalKind.Conflict)]
    public void A_range_that_may_be_in_use_is_no_roll(long first, long last, RefusalKind kind)
    {
        var series = Begin("H0000000");
        series.Issue(2026, []);
        series.Issue(2026, []);
        var others = new[] { Register(series, 10, 20, []) };

        var roll = Roll.Register(series, "another", first, last, others, Registering);

        Assert.Equal(kind, Assert.Single(roll.Refusals).Kind);
    }

    [Fact]
    public void A_roll_may_begin_where_the_counter_stands_and_end_a_million_later()
    {
        var series = Begin("H0000000");
        series.Issue(2026, []);
        var roll = Register(series, 2, 1_000_001, []);
        Assert.True(roll.Contains(2) && roll.Contains(1_000_001) && !roll.Contains(1) && !roll.Contains(1_000_002));
        Assert.Equal("H1000002", series.Issue(2026, [roll]).Value.Written);
    }

    [Fact]
    public void Numbers_are_laid_ready_in_order_and_the_first_of_a_laying_says_so()
    {
        var series = Begin("H0000");
        var roll = Register(series, 3, 5, []);

        var ready = series.LayReady([roll]).Value;

        Assert.Equal(ReadyNumber.AtATime, ready.Count);
        Assert.Equal(["H0001", "H0002", "H0006", "H0007"], ready.Take(4).Select(number => number.Written));
        Assert.Equal([true, false, false, false], ready.Take(4).Select(number => number.IsFirstOfLaying));
        Assert.Equal(ready[^1].Number + 1, series.Next);
    }

    [Fact]
    public void A_series_lays_what_it_has_left_and_then_is_used_up()
    {
        var series = Begin("H000");
        var roll = Register(series, 10, 999, []);
        Assert.Equal(9, series.LayReady([roll]).Value.Count);
        Assert.Equal(RefusalKind.Conflict, Assert.Single(series.LayReady([roll]).Refusals).Kind);
    }

    [Fact]
    public void What_lies_ready_above_the_last_number_in_use_is_taken_back_and_nothing_below_it()
    {
        var series = Begin("H0000");
        var ready = series.LayReady([]).Value;
        // 2 lies ready again because whoever took it failed; 1 and 3 are on sheets.
        var left = ready.Where(number => number.Number is not (1 or 3)).ToList();

        var back = series.TakeBack(left);

        Assert.Equal(4, series.Next);
        Assert.Equal(left.Skip(1), back.Reverse());
        Assert.Equal("H0004", series.Issue(2026, []).Value.Written);
    }

    [Fact]
    public void Accessions_have_no_rolls() => Assert.Equal(
        RefusalKind.Invalid,
        Assert.Single(
            Roll.Register(Begin("YYYY.0000", SeriesUse.Accessions), "roll", 1, 2, [], Registering).Refusals).Kind);

    private static NumberSeries Begin(string pattern, SeriesUse use = SeriesUse.Specimens) =>
        NumberSeries.Begin("Test", use, pattern).Value;

    private static Roll Register(NumberSeries series, long first, long last, IReadOnlyList<Roll> others) =>
        Roll.Register(series, $"roll {first}", first, last, others, Registering).Value;
}
