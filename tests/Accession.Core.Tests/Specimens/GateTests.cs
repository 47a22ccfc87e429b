using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;

namespace Accession.Core.Tests.Specimens;

/// <summary>Nothing goes to the collection room untreated: not at first, not on return.</summary>
public sealed class GateTests
{
    private static readonly DateTime At = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);

    private static readonly StepPlan Plan = StepPlan.Write(
        StepPlan.Sheet, 1,
        [
            (Step.Treated, []), (Step.Numbered, []), (Step.Mounted, []), (Step.Filed, StepPlan.Before(Step.Filed)),
        ],
        null).Value;

    private static readonly Actor Curator = new("c", "Orla Finch", new HashSet<Role> { Role.Curator });

    /// <summary>Hours of what happened to a sheet that was numbered at hour 0, and whether it may come in at the end.</summary>
    [Theory]
    [InlineData("", 100, "untreated")]
    [InlineData("cleared 50, opens 74", 74, null)]
    [InlineData("cleared 50, opens 74", 73, "1 more hour,")]
    [InlineData("cleared 50, opens 74; outside 80; back 90", 100, "before it last came from outside")]
    [InlineData("cleared 50, opens 74; outside 80", 100, "comes from outside")]          // straight from outside
    [InlineData("outside 10; back 20; cleared 50, opens 74", 80, null)]
    [InlineData("outside 10; cleared 15, opens 16; back 20", 80, "before it last came from outside")]
    [InlineData("cleared 50, opens 74; outside 80; back 90; cleared 100, opens 124", 124, null)]
    public void Lets_in(string happened, int hour, string? refusal)
    {
        var part = Sheet();
        foreach (var one in happened.Split("; ", StringSplitOptions.RemoveEmptyEntries))
        {
            var words = one.Split(' ', ',');
            var then = int.Parse(words[1], null);
            switch (words[0])
            {
                case "cleared":
                    part.Clear(
                        new(At.AddHours(then), ClearedBy.HouseRule, At.AddHours(int.Parse(words[^1], null)), null, null),
                        Plan, ActAt(then));
                    break;
                default:
                    Assert.Null(part.Move(Place(words[0] == "outside" ? Zone.Outside : Zone.Quarantine), Plan, ActAt(then)));
                    break;
            }
        }

        var why = part.Move(Place(Zone.CollectionRoom), Plan, ActAt(hour));

        if (refusal is null)
        {
            Assert.Null(why);
            Assert.Equal(Zone.CollectionRoom, part.Zone);
        }
        else
        {
            Assert.Equal(RefusalKind.NotAllowed, why!.Kind);
            Assert.Contains(refusal, why.Reason, StringComparison.Ordinal);
            Assert.NotEqual(Zone.CollectionRoom, part.Zone);
        }
    }

    [Fact]
    public void A_sheet_out_of_a_cleared_parcel_inherits_what_cleared_it()
    {
        var parcel = Parcel.Receive((2026, 14), null, Details(), At.AddHours(-100), ActAt(-90));
        Assert.Equal("Q2026-0014", parcel.Tag);
        var early = Sheet(parcel);
        parcel.Clear(new(At, ClearedBy.HouseRule, At.AddHours(24), 3, 2), ActAt(1));
        var late = Sheet(parcel);

        Assert.False(early.IsCleared);
        Assert.True(late.IsCleared);
        var entry = Assert.Single(late.Clearances);
        Assert.Equal((3, 2, ClearedBy.HouseRule), (entry.LoadId, entry.HouseRuleId, entry.By));
        Assert.Equal((At.AddHours(24), Step.Numbered), (late.MayOpenFrom, late.NextStep));
        Assert.Equal(Step.Treated, early.NextStep);
    }

    [Fact]
    public void A_waiver_needs_a_curator_and_a_reason_and_waives_the_step()
    {
        var part = Sheet();
        Assert.Equal(RefusalKind.NotAllowed, part.Waive(
            new("t", "Bram Ash", new HashSet<Role> { Role.Technician }), Plan, ActAt(1, "Hurry."))!.Kind);
        Assert.Equal(RefusalKind.Invalid, part.Waive(Curator, Plan, ActAt(1))!.Kind);
        Assert.Null(part.Waive(Curator, Plan, ActAt(1, "A photograph.")));
        Assert.Equal((StepMark.Waived, Step.Numbered), (part.Steps[^1].Mark, part.NextStep));
        Assert.Null(part.Move(Place(Zone.CollectionRoom), Plan, ActAt(2)));
    }

    [Fact]
    public void A_sheet_that_was_here_before_stands_inside_and_is_treated_when_it_comes_back()
    {
        var gathering = Gathering();
        var part = Specimen.TakeOver(new("R-1", 1, 1, 0), gathering, "The Herbarium", "", ActAt(0)).Value.Parts[0];
        Assert.Equal((Zone.CollectionRoom, true, null), (part.Zone, part.IsCleared, part.NextStep));
        Assert.Null(part.Move(Place(Zone.CollectionRoom), null, ActAt(1)));

        Assert.Null(part.Move(Place(Zone.Outside), null, ActAt(2)));
        Assert.Equal((false, Step.Treated), (part.IsCleared, part.NextStep));
        Assert.NotNull(part.Move(Place(Zone.CollectionRoom), null, ActAt(3)));
    }

    [Theory]
    [InlineData("Treated Numbered Mounted Filed", null)]
    [InlineData("Numbered Mounted", "numbered and treated")]            // nothing goes in untreated
    [InlineData("Treated Numbered Filed Mounted", "Mounted must precede Filed")]
    [InlineData("Treated Numbered Treated", "stands twice")]
    public void A_plan_is_followed(string steps, string? refusal)
    {
        var plan = StepPlan.Write(StepPlan.Sheet, 2, [.. steps.Split(' ').Select(Enum.Parse<Step>)
            .Select(step => (step, StepPlan.Before(step)))], null);
        Assert.Equal(refusal is null, !plan.IsRefused);
        Assert.Contains(refusal ?? "", plan.IsRefused ? plan.Refusals[0].Reason : "", StringComparison.Ordinal);
    }

    private static Part Sheet(Parcel? parcel = null) => Specimen.NumberSheet(
        new(1, 1, "H001"), Gathering(), "The Herbarium", proven: false, Plan, parcel, ActAt(0)).Value.Parts[0];

    private static Place Place(Zone zone)
    {
        var place = Core.Specimens.Place.Named(zone.ToString(), zone, ActAt(-1)).Value;
        typeof(Place).GetProperty(nameof(place.Id))!.SetValue(place, 10L + (int)zone);
        return place;
    }

    private static ParcelDetails Details() =>
        new("Orla Finch", new(2026, 3, 1), "", 1, 0, "", "Shelf Q3");

    private static Gathering Gathering() => Core.Gatherings.Gathering.TakeIn(
        1, 1, 1,
        new RowReading(
            new FieldNotes { RecordedBy = "Orla Finch", RecordNumber = "101" }, new PublicPlace(), 2, []));

    private static Act ActAt(int hours, string? reason = null) =>
        Act.Of(Door.System, "treat", At.AddHours(hours), reason);
}
