using Accession.Core.Numbers;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests.Numbers;

public class NumberAccountTests
{
    [Fact]
    public void Every_number_is_in_one_range_and_a_range_has_one_fate()
    {
        var roll = Register(241, 500);
        var account = new NumberAccount(
            [(1, 200), (202, 240), (250, 260)], [roll], [Make(roll, 241, 241), Make(roll, 242, 243)], [201, 501, 502], 503);

        Assert.Equal(
            [
                (1, 200, NumberState.OnSheet), (201, 201, NumberState.Ready), (202, 240, NumberState.OnSheet),
                (241, 241, NumberState.Void), (242, 243, NumberState.Void), (244, 249, NumberState.Unused),
                (250, 260, NumberState.OnSheet), (261, 500, NumberState.Unused), (501, 502, NumberState.Ready),
                (503, 510, NumberState.NotIssued),
            ],
            account.Ranges(1, 510).Select(r => ((int)r.First, (int)r.Last, r.State)));
    }

    [Fact]
    public void A_run_of_sheets_is_told_apart_where_a_roll_begins() => Assert.Equal(
        [(1, 4, (string?)null), (5, 6, "roll"), (7, 8, null)],
        new NumberAccount([(1, 8)], [Register(5, 6)], [], [], 9).Ranges(1, 8)
            .Select(r => ((int)r.First, (int)r.Last, r.Roll?.Name)));

    [Fact]
    public void What_was_issued_and_is_nowhere_or_in_two_places_is_said()
    {
        var roll = Register(8, 9);
        var account = new NumberAccount([(1, 3), (8, 8), (12, 12)], [roll], [Make(roll, 8, 8)], [3, 11], 10);
        Assert.Equal(
            [(3, 7), (8, 8), (11, 12)],
            account.Ranges(1, 12).Where(r => r.State == NumberState.Unaccounted)
                .Select(r => ((int)r.First, (int)r.Last)));
    }

    [Fact]
    public void A_page_begins_and_ends_inside_a_range() => Assert.Equal(
        [(3, 5, NumberState.OnSheet), (6, 7, NumberState.Unused)],
        new NumberAccount([(1, 5)], [Register(6, 9)], [], [], 6).Ranges(3, 7)
            .Select(r => ((int)r.First, (int)r.Last, r.State)));

    [Theory]
    [InlineData(250, 249, null, "torn", "run upwards")]
    [InlineData(240, 250, null, "torn", "stand on one roll")]
    [InlineData(500, 501, null, "torn", "stand on one roll")]
    [InlineData(250, 260, 255L, "torn", "H0255 is on a sheet")]
    [InlineData(245, 260, null, "torn", "H0251 is void already: barcode torn")]
    [InlineData(250, 260, null, null, "why")]
    public void What_cannot_be_void_is_refused_with_the_first_reason(
        int first, int last, long? onSheet, string? why, string words)
    {
        var roll = Register(241, 500);
        var refusal = Assert.Single(VoidedNumbers.Make(
            roll, first, last, onSheet, [Make(roll, 256, 256), Make(roll, 251, 252)], Acting(why)).Refusals);
        Assert.Contains(words, refusal.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_void_is_taken_back_once_with_a_reason_while_no_sheet_bears_it()
    {
        var of = Make(Register(241, 500), 241, 241);
        Assert.False(VoidTakenBack.Take(of, false, false, Acting("found")).IsRefused);
        Assert.Equal(RefusalKind.Invalid, Assert.Single(VoidTakenBack.Take(of, false, false, Acting(null)).Refusals).Kind);
        Assert.Equal(RefusalKind.Conflict, Assert.Single(VoidTakenBack.Take(of, true, false, Acting("x")).Refusals).Kind);
        Assert.Equal(RefusalKind.Conflict, Assert.Single(VoidTakenBack.Take(of, false, true, Acting("x")).Refusals).Kind);
    }

    private static VoidedNumbers Make(Roll roll, long first, long last) =>
        VoidedNumbers.Make(roll, first, last, null, [], Acting("barcode torn")).Value;

    private static Roll Register(long first, long last) => Roll.Register(
        NumberSeries.Begin("Test", SeriesUse.Specimens, "H0000").Value, "roll", first, last, [], Acting(null)).Value;

    private static Act Acting(string? why) =>
        Act.Of(Door.System, "make numbers void", new DateTime(2026, 11, 25, 9, 0, 0, DateTimeKind.Utc), why);
}
