using Accession.Core.Matching;
using Accession.Core.People;

namespace Accession.Core.Tests.Matching;

/// <summary>
/// What curators said of persons decides beside what the labels say. That one number in two years is no clash of a
/// collector who begins anew each year, and that namesakes are two people, is common practice, no published source.
/// </summary>
public sealed class KnownPersonsTests
{
    private static readonly Row Plain =
        new("J. R. Sandover", "812", "1957-06-14", "Rim of Dry Basin, S of Tilden", "Harney", "Poa secunda");

    private static readonly Row Elsewhere =
        Plain with { Date = "1999-02-03", County = "Malheur", Locality = "Owyhee breaks", Plant = "Carex alta" };

    [Fact]
    public void A_date_outside_the_years_of_the_other_sides_person_is_a_namesakes()
    {
        Assert.Equal(FindingKind.NumberClash, Compared(Plain, Elsewhere).Kind);
        foreach (var known in new[]
        {
            Known(("J. R. Sandover", 1, new(1950, 1960), null)),
            Known(("J. R. Sandover", 1, new(null, 1960), null)),
            Known(("J. R. Sandover", 2, new(1990, null), null)),
        })
        {
            var pair = Compared(Plain, Elsewhere, known);
            Assert.Equal(FindingKind.New, pair.Kind);
            Assert.Contains(pair.Evidence.Sentences(pair.Kind), s => s.Contains("Outside the years", StringComparison.Ordinal));
            Assert.Single(Findings.Of([new(1, pair)]).Members);
        }

        // Both dates inside, or nothing stated: a clash as before.
        Assert.Equal(
            FindingKind.NumberClash, Compared(Plain, Elsewhere, Known(("J. R. Sandover", 1, new(1950, 2000), null))).Kind);
        Assert.Equal(
            FindingKind.NumberClash, Compared(Plain, Elsewhere, Known(("J. R. Sandover", 1, CollectingYears.Any, null))).Kind);
    }

    [Fact]
    public void Two_persons_of_one_name_in_different_years_are_two()
    {
        var known = Known(
            ("J. R. Sandover", 1, new(1950, 1960), null), ("Sandover, J.R.", 2, new(1990, null), null));
        var pair = Compared(Plain, Elsewhere, known);
        Assert.Equal(FindingKind.New, pair.Kind);
        Assert.Contains(pair.Evidence.Sentences(pair.Kind), s => s.Contains("these are two people", StringComparison.Ordinal));
        Assert.Equal(FindingKind.SameGathering, Compared(Plain, Plain, known).Kind);
    }

    [Fact]
    public void A_slip_of_the_year_at_the_same_place_is_still_asked_about()
    {
        var pair = Compared(Plain, Plain with { Date = "1987-06-14" }, Known(("J. R. Sandover", 1, new(1950, 1960), null)));
        Assert.Equal(FindingKind.SameGathering, pair.Kind);
        Assert.True(pair.Evidence.HasQuestion);
    }

    [Fact]
    public void Two_spellings_that_were_said_to_be_one_person_agree_fully()
    {
        var other = Plain with { Collector = "Jane Thornbury" };
        Assert.NotEqual(FindingKind.SameGathering, Compared(Plain, other).Kind);
        var pair = Compared(
            Plain, other,
            Known(("J. R. Sandover", 1, CollectingYears.Any, null), ("Jane Thornbury", 1, CollectingYears.Any, null)));
        Assert.Equal(FindingKind.SameGathering, pair.Kind);
        Assert.False(pair.Evidence.HasQuestion);
        Assert.Contains(
            "A curator has said that these are one person.", pair.Evidence.Sentences(pair.Kind));
    }

    [Fact]
    public void Spellings_that_were_said_to_be_two_persons_never_agree()
    {
        var other = Plain with { Collector = "Jane Sandover" };
        Assert.Equal(FindingKind.SameGathering, Compared(Plain, other).Kind);
        var known = Known(
            ("J. R. Sandover", 1, CollectingYears.Any, null), ("Jane Sandover", 2, CollectingYears.Any, null));
        // All else the same: somebody must look. Otherwise they are two people with one number.
        Assert.Equal(FindingKind.Possible, Compared(Plain, other, known).Kind);
        Assert.Equal(FindingKind.New, Compared(Plain, Elsewhere with { Collector = "Jane Sandover" }, known).Kind);
    }

    [Fact]
    public void The_same_number_in_another_year_is_new_where_the_numbers_begin_anew()
    {
        var next = Elsewhere with { Date = "1958-05-01" };
        var yearly = Known(("J. R. Sandover", 1, CollectingYears.Any, NumberingHabit.RestartsYearly));
        Assert.Equal(FindingKind.NumberClash, Compared(Plain, next).Kind);
        Assert.Equal(
            FindingKind.NumberClash,
            Compared(Plain, next, Known(("J. R. Sandover", 1, CollectingYears.Any, NumberingHabit.OneRun))).Kind);

        var pair = Compared(Plain, next, yearly);
        Assert.Equal(FindingKind.New, pair.Kind);
        Assert.Contains(pair.Evidence.Sentences(pair.Kind), s => s.Contains("begins the numbers anew", StringComparison.Ordinal));
        Assert.False(pair.Evidence.HasQuestion);

        // In one year a number comes once, and what looks like a slip of the year is to be looked at.
        Assert.Equal(FindingKind.NumberClash, Compared(Plain, next with { Date = "1957-11-01" }, yearly).Kind);
        Assert.Equal(FindingKind.Possible, Compared(Plain, Plain with { Date = "1958-06-14" }, yearly).Kind);
        Assert.Equal(FindingKind.SameGathering, Compared(Plain, Plain, yearly).Kind);
    }

    [Fact]
    public void Nothing_said_changes_nothing_and_evidence_is_read_back_as_it_was()
    {
        var known = Known(("J. R. Sandover", 1, new(1950, 1960), NumberingHabit.RestartsYearly));
        foreach (var other in new[] { Plain, Elsewhere, Plain with { Date = "" }, Plain with { Collector = "" } })
        {
            Assert.Equal(Plain.Against(other), Compared(Plain, other, KnownPersons.Nobody));
            var evidence = Compared(Plain, other, known).Evidence;
            Assert.Equal(evidence, Evidence.FromPacked(evidence.Packed));
            Assert.True(evidence.Packed >= 0);
        }
    }

    [Fact]
    public void Any_pair_compares_the_same_both_ways_whatever_is_known()
    {
        string[] names = ["J. R. Sandover", "Sandover, Jane", "Jane Thornbury", "A. Pell & J. R. Sandover", "J.R.S.", ""];
        string[] dates = ["1957-06-14", "1958-06-14", "1999-02", "2026", "1957-06-14/1958-06-13", ""];
        string[] numbers = ["812", "1957-812", "s.n."];
        var known = Known(
            ("J. R. Sandover", 1, new(1950, 1960), NumberingHabit.RestartsYearly), ("J R Sandover", 2, new(1990, null), null),
            ("Jane Thornbury", 1, CollectingYears.Any, NumberingHabit.RestartsYearly), ("Jane Sandover", 3, new(null, 1958), null));
        List<Row> rows =
        [
            .. from name in names from date in dates from number in numbers
               select Plain with { Collector = name, Date = date, Number = number },
        ];
        foreach (var one in rows)
        {
            foreach (var other in rows)
            {
                Compared(one, other, known);
            }
        }
    }

    [Fact]
    public void What_was_said_concerns_the_rows_of_near_names()
    {
        var known = Known(("J. R. Sandover", 1, new(1950, 1960), null));
        Assert.True(known.MayConcern(Plain.Signature));
        Assert.True(known.MayConcern((Plain with { Collector = "Sandovre" }).Signature));
        Assert.False(known.MayConcern((Plain with { Collector = "A. Pell" }).Signature));
        Assert.False(known.MayConcern((Plain with { Collector = "" }).Signature));
    }

    private static KnownPersons Known(params (string Written, long Id, CollectingYears Years, NumberingHabit? Habit)[] all) =>
        new(all.Select(one => new KnownSpelling(one.Written, one.Id, one.Years, one.Habit)));

    private static Comparison Compared(Row one, Row other, KnownPersons? known = null)
    {
        Signature mine = one.Signature, theirs = other.Signature;
        var there = Comparison.Between(mine, theirs, known ?? KnownPersons.Nobody);
        Assert.Equal(there, Comparison.Between(theirs, mine, known ?? KnownPersons.Nobody));
        return there;
    }
}
