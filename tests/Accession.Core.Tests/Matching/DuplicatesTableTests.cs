using Accession.Core.Matching;

namespace Accession.Core.Tests.Matching;

/// <summary>
/// What pairs of labels are to each other. Common practice, no published source, where nothing else is said; people
/// and places are invented.
/// </summary>
public sealed class DuplicatesTableTests
{
    private const string Text = "Rim of Dry Basin, 9 miles S of Tilden";

    // Gathering and duplicate as in the International Code of Nomenclature for algae, fungi, and plants, Art. 8.2, 8.3.
    private static readonly Row Plain = new(
        "J. R. Sandover", "812", "2026-06-14", Text, "Harney", "Lomatium hendersonii", "Apiaceae", "43.58642",
        "-119.05417");

    [Fact]
    public void Another_spelling_of_one_label_is_the_same_gathering()
    {
        var other = Plain with
        {
            Collector = "Sandover, Jane R.",
            Date = "14.VI.2026",
            County = "",
            Locality = "",
            Latitude = "43.58700",
            Longitude = "-119.05500",
        };
        var found = Plain.Against(other);
        Assert.Equal(FindingKind.SameGathering, found.Kind);
        Assert.Equal(Slip.WithinTwoHundredMeters, found.Evidence.Where.Slip);
    }

    [Fact]
    public void An_equal_row_is_a_repeat_only_by_an_identity()
    {
        var found = Plain.Against(Plain);
        Assert.Equal(FindingKind.SameGathering, found.Kind);
        Assert.Equal(FindingKind.Repeat, found.AsRepeat().Kind);
    }

    [Fact]
    public void Another_date_and_county_under_one_number_are_a_clash()
    {
        var found = Plain.Against(Plain with
        {
            Date = "2025-05-02",
            County = "Malheur",
            Locality = "Owyhee breaks, upper spring",
            Latitude = "",
            Longitude = "",
        });
        Assert.Equal(FindingKind.NumberClash, found.Kind);
    }

    [Fact]
    public void One_contradiction_without_a_name_is_possible() =>
        Assert.Equal(FindingKind.Possible, Plain.Against(Plain with { Date = "2025-02-27" }).Kind);

    [Fact]
    public void A_year_series_read_without_its_year_is_never_the_same()
    {
        var series = Plain with { Number = "2026-14" };
        Assert.NotEqual(FindingKind.SameGathering, series.Against(Plain with { Number = "14", Date = "2025" }).Kind);
        var sameDay = series.Against(Plain with { Number = "14" });
        Assert.Equal(FindingKind.Possible, sameDay.Kind);
        Assert.Equal(Slip.YearOfSeries, sameDay.Evidence.Number.Slip);
    }

    [Theory]
    [InlineData("1234", "1234A", FindingKind.Possible)]   // "suffix differs"
    [InlineData("1234", "1234 bis", FindingKind.Possible)]
    [InlineData("733A", "733B", FindingKind.New)]   // two suffixes are two gatherings
    [InlineData("1234a", "1234-A", FindingKind.SameGathering)]   // one suffix in two spellings
    [InlineData("H-812", "812", FindingKind.SameGathering)]   // a prefix on one side, and all else agrees
    [InlineData("H-812", "MH-812", FindingKind.New)]   // two series
    [InlineData("JRS-1234", "1234", FindingKind.SameGathering)]   // the collector's initials
    [InlineData("No. 812", "812", FindingKind.SameGathering)]
    [InlineData("811", "812", FindingKind.Possible)]   // one digit, and plant, place and day are the same
    [InlineData("812", "821", FindingKind.Possible)]   // swapped, and numbers of one day all the same
    [InlineData("812", "912", FindingKind.SameGathering)]   // a digit, and a hundred gatherings apart
    [InlineData("812", "12", FindingKind.SameGathering)]   // a digit lost
    [InlineData("850", "812", FindingKind.New)]
    public void Numbers_decide(string one, string other, FindingKind kind) =>
        Assert.Equal(kind, (Plain with { Number = one }).Against(Plain with { Number = other }).Kind);

    [Fact]
    public void A_number_in_doubt_weighs_less_and_makes_no_clash()
    {
        var doubted = Plain with { Number = "812?" };
        var same = Plain.Against(doubted);
        Assert.Equal(FindingKind.SameGathering, same.Kind);
        Assert.Equal(Slip.NumberDoubted, same.Evidence.Number.Slip);
        Assert.True(same.Weight < Plain.Against(Plain).Weight);
        var elsewhere = doubted with
        {
            Date = "2025-05-02",
            County = "Malheur",
            Locality = "Owyhee breaks",
            Latitude = "",
            Longitude = "",
        };
        Assert.Equal(FindingKind.Possible, Plain.Against(elsewhere).Kind);
    }

    [Fact]
    public void Near_numbers_of_a_day_are_no_finding()
    {
        for (var number = 811; number <= 850; number++)
        {
            var near = Plain with
            {
                Number = $"{number}",
                Plant = number % 2 == 0 ? "Artemisia arbuscula" : "Poa secunda",
                Family = "",
            };
            Assert.Equal(
                number == 812 ? FindingKind.SameGathering : FindingKind.New, Plain.Against(near).Kind);
        }
    }

    [Fact]
    public void Sheets_without_a_number_need_team_full_date_place_and_plant()
    {
        var one = Plain with { Number = "s.n." };
        Assert.Equal(FindingKind.SameGathering, one.Against(one).Kind);
        Assert.Equal(FindingKind.Possible, one.Against(one with { Plant = "Poa secunda", Family = "Poaceae" }).Kind);
        var month = one with { Date = "2026-06" };
        Assert.Equal(FindingKind.Possible, month.Against(month).Kind);
        Assert.Equal(
            FindingKind.Possible, one.Against(one with { Locality = "", Latitude = "", Longitude = "" }).Kind);
    }

    [Fact]
    public void A_number_lost_on_one_sheet_is_asked_about()
    {
        var found = Plain.Against(Plain with { Number = "" });
        Assert.Equal(FindingKind.SameGathering, found.Kind);
        Assert.True(found.Evidence.HasQuestion);
        Assert.Equal(FindingKind.Possible, Plain.Against(Plain with { Number = "", Plant = "Poa secunda" }).Kind);
    }

    [Theory]
    [InlineData("Sandover & Pell", "Pell & Sandover", FindingKind.SameGathering, EvidenceNotes.WhoseNumber)]
    [InlineData("Sandover & Pell", "Sandover", FindingKind.SameGathering, EvidenceNotes.None)]
    [InlineData("Sandover & Pell", "Pell", FindingKind.SameGathering, EvidenceNotes.WhoseNumber)]
    [InlineData("Sandover & Pell", "Holt & Pell", FindingKind.Possible, EvidenceNotes.None)]
    [InlineData("A. van der Holt", "Holt, A. v. d.", FindingKind.SameGathering, EvidenceNotes.None)]
    [InlineData("J. Sandover", "Jane Sandover", FindingKind.SameGathering, EvidenceNotes.None)]
    [InlineData("J. R. Sandover", "J. R. Sandovre", FindingKind.SameGathering, EvidenceNotes.None)]
    [InlineData("I. Müller", "I. Mueller", FindingKind.SameGathering, EvidenceNotes.None)]
    [InlineData("J. R. Sandover", "J.R.S.", FindingKind.SameGathering, EvidenceNotes.Question)]
    [InlineData("M. Flores-Macías", "M. Flores M.", FindingKind.SameGathering, EvidenceNotes.None)]
    [InlineData("J. Sandover", "K. Sandover", FindingKind.Possible, EvidenceNotes.None)]
    [InlineData("J. Sandover", "T. Holt", FindingKind.Possible, EvidenceNotes.None)]
    [InlineData("J. Sandover", "Anon.", FindingKind.SameGathering, EvidenceNotes.Question)]
    [InlineData("Harney Weed Crew", "Harney Weed Crew", FindingKind.SameGathering, EvidenceNotes.None)]
    public void Collectors_decide(string one, string other, FindingKind kind, EvidenceNotes asked)
    {
        var found = (Plain with { Collector = one }).Against(Plain with { Collector = other });
        Assert.Equal(kind, found.Kind);
        Assert.Equal(asked, found.Evidence.Notes & (EvidenceNotes.WhoseNumber | EvidenceNotes.Question));
    }

    [Fact]
    public void A_changed_order_of_a_team_is_possible_when_a_field_is_missing()
    {
        var one = Plain with { Collector = "Sandover & Pell", Date = "" };
        Assert.Equal(FindingKind.Possible, one.Against(Plain with { Collector = "Pell & Sandover" }).Kind);
    }

    [Fact]
    public void A_suffix_on_one_side_may_be_father_and_son()
    {
        var son = Plain with { Collector = "J. R. Sandover, Jr.", Number = "5", Plant = "", Family = "" };
        var found = son.Against(son with { Collector = "J. R. Sandover" });
        Assert.Equal(FindingKind.Possible, found.Kind);
        Assert.Equal(Slip.SuffixOfName, found.Evidence.Who.Slip);
    }

    [Theory]
    [InlineData("03/04/2026", "04/03/2026", Slip.DayAndMonthSwapped)]
    [InlineData("1930-08-04", "1980-08-04", Slip.YearDigit)]
    [InlineData("2026-06-14", "2026-07-14", Slip.NeighbouringMonth)]
    [InlineData("2026-01-20", "2026-07-20", Slip.OtherMonth)]
    [InlineData("2026-01-01", "2026-06-14", Slip.DefaultDay)]
    [InlineData("2026-06-14", "2026-06-15", Slip.OneDayApart)]
    [InlineData("2026-06-20", "2026-06-28", Slip.DayDigit)]
    public void A_slip_of_the_date_is_asked_about_while_the_rest_agrees(string one, string other, Slip slip)
    {
        var found = (Plain with { Date = one }).Against(Plain with { Date = other });
        Assert.Equal(FindingKind.SameGathering, found.Kind);
        Assert.Equal(slip, found.Evidence.When.Slip);
        Assert.True(found.Evidence.HasQuestion);
        var placeless = Plain with { Locality = "", Latitude = "", Longitude = "", County = "" };
        Assert.Equal(
            FindingKind.Possible, (placeless with { Date = one }).Against(placeless with { Date = other }).Kind);
    }

    [Fact]
    public void Two_dates_a_lifetime_apart_are_two_people()
    {
        var found = (Plain with { Date = "1931-06-14" }).Against(Plain);
        Assert.Equal(FindingKind.New, found.Kind);
        Assert.Contains("95 years apart: two people of one name.", found.Evidence.Sentences(found.Kind));
        Assert.Equal(FindingKind.New, Findings.Of([new(7, found)]).Kind);
        Assert.Equal(7, Assert.Single(Findings.Of([new(7, found)]).Members).Id);
    }

    [Fact]
    public void Another_plant_never_breaks_a_pair()
    {
        var stoebe = Plain with { Plant = "Centaurea stoebe", Family = "Asteraceae" };
        var diffusa = stoebe.Against(stoebe with { Plant = "Centaurea diffusa" });
        Assert.Equal(FindingKind.SameGathering, diffusa.Kind);
        Assert.NotEqual(EvidenceNotes.None, diffusa.Evidence.Notes & EvidenceNotes.DeterminationDiffers);
        Assert.False(diffusa.Evidence.IsNeverInBulk);
        var grass = stoebe.Against(stoebe with { Plant = "Poa secunda", Family = "Poaceae" });
        Assert.Equal(FindingKind.SameGathering, grass.Kind);
        Assert.True(grass.Evidence.IsNeverInBulk);
    }

    [Fact]
    public void A_point_beyond_both_circles_contradicts_and_a_vague_one_does_not()
    {
        var far = Plain with { County = "", Locality = "", Latitude = "43.9", Longitude = "-119.05417" };
        Assert.Equal(Slip.WithinUncertainty, (far with { Latitude = "43.65" }).Against(
            Plain with { County = "", Locality = "" }).Evidence.Where.Slip);
        var found = far.Against(Plain with { County = "", Locality = "" });
        Assert.Equal(Slip.TooFarApart, found.Evidence.Where.Slip);
        Assert.Equal(FindingKind.Possible, found.Kind);
    }

    [Fact]
    public void A_missing_field_is_no_agreement()
    {
        var bare = new Row("J. R. Sandover", "812", "");
        var found = bare.Against(bare);
        Assert.Equal(FindingKind.Possible, found.Kind);
        Assert.Equal(Agreement.Missing, found.Evidence.When.Agreement);
        Assert.Equal(Agreement.Missing, found.Evidence.Where.Agreement);
        Assert.Equal(Agreement.Missing, found.Evidence.What.Agreement);
        var nothing = new Row("", "", "");
        Assert.Equal(FindingKind.New, nothing.Against(nothing).Kind);
        Assert.Empty(MatchKeys.Of(nothing.Signature, Identities.None));
    }
}
