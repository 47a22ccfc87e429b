using Accession.Core.Numbers;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests.Numbers;

public class ClosedSeriesTests
{
    private static readonly DateOnly Restored = new(2026, 11, 25);

    [Fact]
    public void A_closed_series_issues_nothing_and_says_why_and_who_opens_it()
    {
        var series = Begin("H0000");
        Close(series);

        foreach (var refusal in new[] { series.Issue(0, []).Refusals, series.LayReady([]).Refusals }.Select(Assert.Single))
        {
            Assert.Equal(RefusalKind.Conflict, refusal.Kind);
            Assert.Contains("the disk broke", refusal.Reason, StringComparison.Ordinal);
            Assert.Contains("administrator", refusal.Reason, StringComparison.Ordinal);
        }

        Assert.Equal(1, series.Next);
    }

    [Fact]
    public void It_is_closed_by_hand_once_and_only_with_a_reason()
    {
        var series = Begin("H0000");
        Assert.True(series.Close(SeriesEntryKind.Closed, Acting(null)).IsRefused);
        Assert.True(series.Close(SeriesEntryKind.Opened, Acting("why")).IsRefused);
        Assert.Equal(SeriesEntryKind.Closed, series.Close(SeriesEntryKind.Closed, Acting("why")).Value.Kind);
        Assert.Contains("closed already", Assert.Single(
            series.Close(SeriesEntryKind.Closed, Acting("why")).Refusals).Reason, StringComparison.Ordinal);
        // Whoever restores need not know that it was closed.
        Assert.False(series.Close(SeriesEntryKind.ClosedAfterRestore, Acting("again")).IsRefused);
        Assert.Equal("again", series.ClosedBecause);
    }

    [Fact]
    public void What_lies_between_register_and_paper_becomes_rolls_round_those_that_are_there()
    {
        var series = Begin("H0000");
        var ready = series.LayReady([]).Value.Where(number => number.Number is not (1 or 3)).ToList();   // 1, 3 on sheets
        var roll = Roll.Register(series, "printer's roll", 70, 79, [], Acting(null)).Value;
        Close(series);

        var opened = series.Open(new(0, 82), ready, [roll], Restored, Acting("seen")).Value;

        // 2 lies below the register's highest, and nobody knows whether it went on a sheet in the days that were lost.
        Assert.Equal([(2, 2), (4, 69), (80, 82)], opened.Rolls.Select(r => (r.First, r.Last)));
        Assert.Equal(
            ["before the restore of 25 Nov 2026, Test", "before the restore of 25 Nov 2026, Test, 2",
                "before the restore of 25 Nov 2026, Test, 3"],
            opened.Rolls.Select(r => r.Name));
        Assert.Equal(ready, opened.NoLongerReady);
        Assert.Equal("H0082", opened.Entry.PaperHighest);
        Assert.Equal("H0083", series.Issue(0, [roll, .. opened.Rolls]).Value.Written);
    }

    [Fact]
    public void What_lies_ready_above_the_paper_stays_ready()
    {
        var series = Begin("H0000");
        var ready = series.LayReady([]).Value.Skip(3).ToList();
        Close(series);

        var opened = series.Open(new(0, 5), ready, [], Restored, Acting("seen")).Value;

        Assert.Equal((4, 5), opened.Rolls.Select(r => (r.First, r.Last)).Single());
        Assert.Equal(ready.Take(2), opened.NoLongerReady);
        Assert.Equal(ReadyNumber.AtATime + 1, series.Next);
    }

    [Theory]
    [InlineData(3)]                                      // the register's own highest
    [InlineData(2)]                                      // lower
    [InlineData(0)]                                      // nothing on paper
    public void Paper_that_shows_nothing_new_sets_nothing_aside(long paper)
    {
        var series = Begin("H0000");
        for (var i = 0; i < 3; i++)
        {
            series.Issue(0, []);
        }

        Close(series);
        Assert.Empty(series.Open(new(0, paper), [], [], Restored, Acting("seen")).Value.Rolls);
        Assert.Equal("H0004", series.Issue(0, []).Value.Written);
    }

    [Theory]
    [InlineData(-1, "run from 1")]
    [InlineData(100_000_000, "run from 1")]
    [InlineData(1_000_001, "more than a million")]
    public void A_slip_of_the_hand_opens_nothing(long paper, string reason)
    {
        var series = Begin("H00000000");
        Close(series);
        var refusal = Assert.Single(series.Open(new(0, paper), [], [], Restored, Acting("seen")).Refusals);
        Assert.Contains(reason, refusal.Reason, StringComparison.Ordinal);
        Assert.True(series.IsClosed);
        Assert.Equal(1_000_000, series.Open(new(0, 1_000_000), [], [], Restored, Acting("seen")).Value.OnRolls);
        Assert.True(series.Open(new(0, 1), [], [], Restored, Acting("seen")).IsRefused);
    }

    [Theory]
    [InlineData(2025, 9, 0, "2026.0003")]                // last year's paper says nothing of this year's
    [InlineData(2026, 2, 0, "2026.0003")]
    [InlineData(2026, 6, 4, "2026.0007")]
    [InlineData(2027, 2, 2, "2027.0003")]                // the register was of the year before
    public void Numbers_of_lots_are_stepped_over_for_lots_have_no_rolls(int year, long paper, long skipped, string next)
    {
        var series = Begin("YYYY.0000", SeriesUse.Accessions);
        series.Issue(2026, []);
        series.Issue(2026, []);
        Close(series);
        var opened = series.Open(new(year, paper), [], [], Restored, Acting("seen")).Value;
        Assert.Empty(opened.Rolls);
        Assert.Equal(skipped, opened.Skipped);
        Assert.Equal(next, series.Issue(year, []).Value.Written);
    }

    [Theory]
    [InlineData("H0000", "H0012", 0, 12)]
    [InlineData("H0000", "12", 0, 12)]                   // the series is known, so digits alone are enough
    [InlineData("H0000", "X0012", null, null)]
    [InlineData("H0000", "H00012345", null, null)]
    [InlineData("YYYY.0000", "2026.0007", 2026, 7)]
    [InlineData("YYYY.0000", "2026 0007", 2026, 7)]
    [InlineData("YYYY.0000", "0007", null, null)]        // of which year?
    [InlineData("A-YYYY-0000-B", "a20260007b", 2026, 7)]
    [InlineData("A000-YYYY", "A0072026", 2026, 7)]
    public void A_number_on_paper_is_read(string pattern, string text, int? year, int? number) => Assert.Equal(
        number is null ? null : new PaperNumber(year!.Value, number.Value),
        NumberPattern.Read(pattern).Value.PaperNumberIn(text));

    private static void Close(NumberSeries series) =>
        Assert.False(series.Close(SeriesEntryKind.ClosedAfterRestore, Acting("the disk broke")).IsRefused);

    private static NumberSeries Begin(string pattern, SeriesUse use = SeriesUse.Specimens) =>
        NumberSeries.Begin("Test", use, pattern).Value;

    private static Act Acting(string? why) =>
        Act.Of(Door.System, "close or open", new DateTime(2026, 11, 25, 9, 0, 0, DateTimeKind.Utc), why);
}
