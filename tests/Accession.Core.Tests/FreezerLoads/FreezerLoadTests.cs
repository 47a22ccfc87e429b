using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;

namespace Accession.Core.Tests.FreezerLoads;

public sealed class FreezerLoadTests
{
    private static readonly DateTime At = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);

    private static readonly Actor Curator = new("c", "Orla Finch", new HashSet<Role> { Role.Curator });

    private static readonly Actor Technician = new("t", "Bram Ash", new HashSet<Role> { Role.Technician });

    [Fact]
    public void Nothing_is_added_to_a_running_load_unless_its_clock_begins_again()
    {
        var load = Running();

        var refused = load.Add("bundle 2", null, beginAgain: false, ActAt(24));
        Assert.Equal(RefusalKind.Conflict, refused.Refusals[0].Kind);
        Assert.Contains("the clock begins again", refused.Refusals[0].Reason, StringComparison.Ordinal);
        Assert.Equal(At, load.ClockFrom);

        Assert.False(load.Add("bundle 2", null, beginAgain: true, ActAt(24)).IsRefused);
        Assert.Equal(At.AddHours(24), load.ClockFrom);
        Assert.Null(load.TakeOut(At.AddHours(72), ActAt(72)));

        // 72 hours since the lid was first closed, but 48 since it was last opened.
        var rule = load.ReleaseUnder(HouseRuleTests.Rule(), new(2026, 3, 6), ActAt(72));
        Assert.Contains("it was 48 h", rule.Refusals[0].Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(LoadStanding.Listed, false)]
    [InlineData(LoadStanding.Running, false)]
    [InlineData(LoadStanding.TakenOut, true)]
    [InlineData(LoadStanding.NotProved, true)]
    [InlineData(LoadStanding.Failed, false)]     // it is repeated in full: common practice, no published source
    [InlineData(LoadStanding.Waived, false)]
    public void Is_waived(LoadStanding standing, bool isWaived)
    {
        var load = Standing(standing);
        Assert.Equal(isWaived, !load.Waive(Curator, ActAt(80, "Paper only, nothing to eat in it.")).IsRefused);
    }

    [Theory]
    [InlineData(LoadStanding.TakenOut, true)]
    [InlineData(LoadStanding.NotProved, true)]
    [InlineData(LoadStanding.Running, false)]
    [InlineData(LoadStanding.Failed, false)]
    public void Comes_in_under_a_house_rule(LoadStanding standing, bool comesIn)
    {
        var cleared = Standing(standing).ReleaseUnder(HouseRuleTests.Rule(), new(2026, 3, 5), ActAt(80));

        Assert.Equal(comesIn, !cleared.IsRefused);
        if (comesIn)
        {
            Assert.Equal((ClearedBy.HouseRule, At.AddHours(73), At.AddHours(97)),
                (cleared.Value.By, cleared.Value.At, cleared.Value.MayOpenFrom));
        }
    }

    [Fact]
    public void A_waiver_needs_a_curator_and_a_reason()
    {
        var load = Standing(LoadStanding.TakenOut);
        Assert.Equal(RefusalKind.NotAllowed, load.Waive(Technician, ActAt(80, "In a hurry.")).Refusals[0].Kind);
        Assert.Equal(RefusalKind.Invalid, load.Waive(Curator, ActAt(80)).Refusals[0].Kind);
        Assert.Equal(LoadStanding.TakenOut, load.Standing);
    }

    [Fact]
    public void The_lid_is_closed_once_on_something_and_not_in_the_future()
    {
        var load = Listed();
        Assert.Equal(RefusalKind.Invalid, load.CloseLid(At, 0, ActAt(0))!.Kind);
        Assert.Equal(RefusalKind.Invalid, load.CloseLid(At.AddHours(1), 1, ActAt(0))!.Kind);
        Assert.Null(load.CloseLid(At, 1, ActAt(0)));
        Assert.Equal(RefusalKind.Conflict, load.CloseLid(At, 1, ActAt(0))!.Kind);
        Assert.Equal(RefusalKind.Invalid, load.TakeOut(At.AddHours(-1), ActAt(5))!.Kind);
    }

    [Theory]
    [InlineData(LoadStanding.Failed, true)]
    [InlineData(LoadStanding.NotProved, true)]
    [InlineData(LoadStanding.TakenOut, false)]
    [InlineData(LoadStanding.Waived, false)]
    public void Is_repeated(LoadStanding standing, bool isRepeated) =>
        Assert.Equal(isRepeated, !Standing(standing).Repeat(8, ActAt(90)).IsRefused);

    [Theory]
    [InlineData("-20", -20, "−20 °C")]
    [InlineData("−20,5 °C", -20.5, "−20.5 °C")]
    [InlineData("-23.3", -23.3, "−23.3 °C")]
    public void Temperatures_are_read_and_written(string written, double celsius, string shown)
    {
        Assert.Equal((decimal)celsius, Celsius.Read(written).Value);
        Assert.Equal(shown, Celsius.Words((decimal)celsius));
    }

    private static FreezerLoad Standing(LoadStanding standing)
    {
        var load = standing == LoadStanding.Listed ? Listed() : Running();
        if (standing is LoadStanding.Listed or LoadStanding.Running)
        {
            return load;
        }

        Assert.Null(load.TakeOut(At.AddHours(73), ActAt(73)));
        switch (standing)
        {
            case LoadStanding.Failed:
                Assert.Null(load.Record(failed: true, ActAt(74, "The power was off.")));
                break;
            case LoadStanding.NotProved:
                Assert.Null(load.Record(failed: false, ActAt(74, "Nobody looked.")));
                break;
            case LoadStanding.Waived:
                Assert.False(load.Waive(Curator, ActAt(74, "Photographs only.")).IsRefused);
                break;
        }

        Assert.Equal(standing, load.Standing);
        return load;
    }

    private static FreezerLoad Running()
    {
        var load = Listed();
        Assert.Null(load.CloseLid(At, 1, ActAt(0)));
        return load;
    }

    private static FreezerLoad Listed()
    {
        var freezer = Freezer.Named("Freezer 1", "Cellar", false, ActAt(-1)).Value;
        var regime = Regime.Write(new("Three days", -30, 72, 1, 0, 24, "Invented"), 1, ActAt(-1)).Value;
        return FreezerLoad.List(7, freezer, regime, ActAt(-1));
    }

    private static Act ActAt(int hours, string? reason = null) =>
        Act.Of(Door.System, "treat", At.AddHours(hours), reason);
}
