using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests.FreezerLoads;

/// <summary>House rules are invented here; each institution makes its own.</summary>
public sealed class HouseRuleTests
{
    private static readonly DateTime At = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);

    private static readonly Actor Curator = new("c", "Orla Finch", new HashSet<Role> { Role.Curator });

    private static readonly Actor Technician = new("t", "Bram Ash", new HashSet<Role> { Role.Technician });

    [Theory]
    [InlineData(-30, 72, "2026-03-05", true)]
    [InlineData(-30, 71.9, "2026-03-05", false)]   // short by six minutes
    [InlineData(-35, 72, "2026-03-05", true)]      // colder than asked for
    [InlineData(-20, 168, "2026-03-05", true)]
    [InlineData(-20, 167, "2026-03-05", false)]
    [InlineData(-25, 168, "2026-03-05", true)]     // the line for -20 is met, that for -30 is not
    [InlineData(-18, 5000, "2026-03-05", false)]   // the rule says nothing of -18
    [InlineData(-30, 72, "2026-03-01", true)]      // the day itself
    [InlineData(-30, 72, "2026-02-28", false)]     // begun before the rule
    public void Lets_in(double celsius, double hours, string begun, bool letsIn) => Assert.Equal(
        letsIn,
        Rule().WhyNot((decimal)celsius, DateOnly.Parse(begun, null), TimeSpan.FromHours(hours)) is null);

    [Fact]
    public void Says_how_long_it_asks_for_and_how_long_it_was() => Assert.Equal(
        "The house rule asks for 72 h at −30 °C with the lid closed, and it was 71.9 h. Repeat the load.",
        Rule().WhyNot(-30, new(2026, 3, 5), TimeSpan.FromHours(71.99))!.Reason);

    [Theory]
    [InlineData("−30 72", -30, 72)]
    [InlineData("-20,5 168", -20.5, 168)]
    [InlineData("–18 °C 336", -18, 336)]
    public void Reads_lines(string line, double celsius, int hours) =>
        Assert.Equal([new RuleHours((decimal)celsius, hours)], RuleHours.ReadAll(line).Value);

    [Theory]
    [InlineData("")]
    [InlineData("72")]
    [InlineData("20 72")]       // above zero: a sign was lost
    [InlineData("-30 three")]
    [InlineData("-22F 72")]     // -22 °F is -30 °C; it is not read as if it were -22 °C
    public void Refuses_what_it_cannot_read(string lines) =>
        Assert.Equal(RefusalKind.Invalid, RuleHours.ReadAll(lines).Refusals[0].Kind);

    [Fact]
    public void Is_made_and_ended_by_curators_only()
    {
        Assert.Equal(RefusalKind.NotAllowed, Make(Technician).Refusals[0].Kind);
        var rule = Rule();
        Assert.Equal(RefusalKind.NotAllowed, rule.End(Technician, Act.Of(Door.System, "end", At))!.Kind);
        Assert.Null(rule.End(Curator, Act.Of(Door.System, "end", At)));
        Assert.Equal(RefusalKind.Conflict, rule.WhyNot(-30, new(2026, 3, 5), TimeSpan.FromHours(100))!.Kind);
    }

    internal static HouseRule Rule() => Make(Curator).Value;

    private static Outcome<HouseRule> Make(Actor by) => HouseRule.Make(
        "Three days at -30, a week at -20.", "Invented for this test", new(2026, 3, 1), 24,
        [new(-30, 72), new(-20, 168)], by, Act.Of(Door.System, "make a house rule", At));
}
