using Accession.Core.Numbers;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests.Numbers;

public sealed class TakenOverNumbersTests
{
    private static readonly Act TakingOver = Act.Of(
        Door.System, "take sheets over", new DateTime(2026, 3, 1, 9, 0, 0, DateTimeKind.Utc));

    // A pattern with letters knows its numbers in any spelling, but digits alone are another herbarium's.
    [Theory]
    [InlineData("DEMO-H0000000", "DEMO-H0001234", 1234L)]
    [InlineData("DEMO-H0000000", "demo-h 1234", 1234L)]
    [InlineData("DEMO-H0000000", "0001234", null)]
    [InlineData("DEMO-H0000000", "1234", null)]
    [InlineData("DEMO-H0000000", "DEMO-H1234a", null)]
    [InlineData("DEMO-H0000000", "194227/9", null)]   // seven digits, and not one number
    [InlineData("0000000", "0001234", 1234L)]
    [InlineData("0000000", "194.2279", null)]
    [InlineData("0000000", "1234", null)]
    [InlineData("19-0000", "19-1334", 1334L)]
    [InlineData("19-0000", "191334", null)]
    public void A_borne_number_is_one_of_a_series_or_none(string pattern, string borne, long? number) =>
        Assert.Equal(number, NumberPattern.Read(pattern).Value.NumberBorneIn(borne));

    [Fact]
    public void The_counter_goes_behind_and_what_it_passes_stands_on_rolls()
    {
        var series = Begin();
        var printed = Roll.Register(series, "printed", 10, 19, [], TakingOver).Value;
        var went = series.GoBehindTakenOver(25, [], [printed], "taken over as 2026.0001", TakingOver).Value;

        Assert.Equal([(1L, 9L), (20L, 25L)], went.Rolls.Select(roll => (roll.First, roll.Last)));
        Assert.Equal(
            ["taken over as 2026.0001", "taken over as 2026.0001, 2"], went.Rolls.Select(roll => roll.Name));
        Assert.Equal(26, series.Next);
        Assert.Equal((SeriesEntryKind.WentBehindTakenOver, "H0025"), (went.Entry.Kind, went.Entry.PaperHighest));

        // Once more under the same lot: the rolls have names of their own, and nothing is passed twice.
        var again = series.GoBehindTakenOver(
            30, [], [printed, .. went.Rolls], "taken over as 2026.0001", TakingOver).Value;
        Assert.Equal(("taken over as 2026.0001, 3", 26L, 30L),
            again.Rolls.Select(roll => (roll.Name, roll.First, roll.Last)).Single());
        Assert.Equal("H0031", series.Issue(0, [printed, .. went.Rolls, .. again.Rolls]).Value.Written);
    }

    [Fact]
    public void What_lies_ready_up_to_there_is_nobodys_any_more()
    {
        var series = Begin();
        var ready = series.LayReady([]).Value;
        var went = series.GoBehindTakenOver(5, ready, [], "taken over", TakingOver).Value;
        Assert.Equal([1L, 2, 3, 4, 5], went.NoLongerReady.Select(number => number.Number));
        Assert.Equal((1L, 5L), went.Rolls.Select(roll => (roll.First, roll.Last)).Single());
        Assert.Equal(ReadyNumber.AtATime + 1, series.Next);
    }

    [Fact]
    public void A_closed_series_goes_behind_and_stays_closed()
    {
        var series = Begin();
        _ = series.Close(SeriesEntryKind.Closed, Act.Of(Door.System, "close", TakingOver.At, "a pause")).Value;
        _ = series.GoBehindTakenOver(5, [], [], "taken over", TakingOver).Value;
        Assert.Equal((true, 6L), (series.IsClosed, series.Next));
    }

    [Fact]
    public void A_slip_of_the_pen_does_not_use_a_series_up()
    {
        var series = NumberSeries.Begin("Sheets", SeriesUse.Specimens, "H0000000").Value;
        var refusal = Assert.Single(series.GoBehindTakenOver(9_999_999, [], [], "taken over", TakingOver).Refusals);
        Assert.Contains("more than a million numbers ahead", refusal.Reason, StringComparison.Ordinal);
        Assert.Equal(1, series.Next);
    }

    [Fact]
    public void Numbers_from_before_are_counted_and_never_issued()
    {
        var before = NumberSeries.FromBefore();
        Assert.Equal((1L, 2L), (before.CountFromBefore(), before.CountFromBefore()));
        Assert.Throws<InvalidOperationException>(() => Begin().CountFromBefore());
        Assert.Equal(RefusalKind.Invalid,
            Assert.Single(NumberSeries.Begin("More", SeriesUse.FromBefore, "H0000").Refusals).Kind);
    }

    private static NumberSeries Begin() => NumberSeries.Begin("Sheets", SeriesUse.Specimens, "H0000").Value;
}
