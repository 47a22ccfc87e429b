using Accession.Core.Gatherings;
using Accession.Core.Localities;

namespace Accession.Core.Tests.Gatherings;

/// <summary>What a curator types into an accepted record, and what follows from it.</summary>
public sealed class CorrectionTests
{
    private static readonly DateOnly Today = new(2026, 3, 5);

    private static readonly RecordedFacts Facts = new(
        new() { CollectorsVerbatim = "Ashgrvoe & Pell", RecordedBy = "Ashgrvoe | Pell", RecordNumber = "12O4" },
        new()
        {
            StateProvince = "Oregon",
            County = "Harny",
            Locality = "Dry wash  below the road",
            Latitude = 43.50833333333333,
            Longitude = -119.25,
            CoordinatePrecision = 0.0002777777777777778,
            UncertaintyInMeters = 30.5,
            MinimumElevationInMeters = 1255.8,
            MaximumElevationInMeters = 1255.8,
        });

    public static TheoryData<CorrectedField, string, string> Readings => new()
    {
        { CorrectedField.Collectors, "Ashgrove, J. R.; M. Pell", "J. R. Ashgrove | M. Pell" },
        { CorrectedField.Collectors, "s.coll.", "s.coll." },
        { CorrectedField.Number, "1204", "1204" },
        { CorrectedField.Number, "", "" },
        { CorrectedField.Date, "14 Jun 2024", "2024-06-14" },
        { CorrectedField.Date, "Jun 1931", "1931-06" },
        { CorrectedField.Coordinates, "43.5864, -119.0542", "43.5864 -119.0542 0.0001" },
        { CorrectedField.Coordinates, "", "" },
        { CorrectedField.Uncertainty, "100 ft", "30.5" },
        { CorrectedField.Elevation, "4,120 ft", "1255.8 1255.8" },
        { CorrectedField.Elevation, "1200-1250 m", "1200 1250" },
        { CorrectedField.County, "  Harney\n", "Harney" },
    };

    [Theory]
    [MemberData(nameof(Readings))]
    public void What_is_typed_is_read(CorrectedField field, string typed, string text) =>
        Assert.Equal(text, TypedFact.Read(field, typed, Facts, Today).Value);

    [Theory]
    [InlineData(CorrectedField.Collectors, "")]
    [InlineData(CorrectedField.Collectors, "Ashgrove 1204")]
    [InlineData(CorrectedField.Date, "3/4/2024")]
    [InlineData(CorrectedField.Date, "2030-01-01")]
    [InlineData(CorrectedField.Date, "31 Feb 2024")]
    [InlineData(CorrectedField.Coordinates, "143.5, 219")]
    [InlineData(CorrectedField.Uncertainty, "0 m")]
    [InlineData(CorrectedField.Uncertainty, "30")]
    [InlineData(CorrectedField.Elevation, "4120")]
    [InlineData(CorrectedField.Elevation, "up the hill")]
    public void What_means_nothing_or_two_things_is_refused(CorrectedField field, string typed) =>
        Assert.NotEmpty(TypedFact.Read(field, typed, Facts, Today).Refusals);

    [Fact]
    public void Where_there_is_no_heading_none_is_spoken_of() => Assert.Equal(
        "Metres or feet? Write the unit.", TypedFact.Read(CorrectedField.Elevation, "4120", Facts, Today).Refusals[0].Reason);

    [Fact]
    public void A_text_that_is_too_long_is_refused() => Assert.Contains(
        "200", TypedFact.Read(CorrectedField.County, new('x', 201), Facts, Today).Refusals[0].Reason,
        StringComparison.Ordinal);

    [Fact]
    public void What_is_not_touched_stays_to_the_last_digit()
    {
        foreach (var field in CorrectedFields.All)
        {
            var text = Facts.Text(field);
            Assert.Equal(text, TypedFact.Read(field, RecordedFacts.AsTyped(field, text), Facts, Today).Value);
            Assert.Equal(text, Facts.With(field, text).Text(field));
        }

        Assert.Equal(Facts.Place, CorrectedFields.All.Aggregate(Facts, (all, f) => all.With(f, Facts.Text(f))).Place);
    }

    [Fact]
    public void What_a_gathering_is_found_by_follows()
    {
        var facts = Facts.With(CorrectedField.Collectors, "J. R. Ashgrove | M. Pell")
            .With(CorrectedField.Number, "1204").With(CorrectedField.Date, "2024-06").With(CorrectedField.Country, "Canada");
        Assert.Equal("ashgrove", facts.Notes.CollectorKey);
        Assert.Equal(CollectorNumber.Read("1204").Value.Key, facts.Notes.NumberKey);
        Assert.Equal((2024, 6, (int?)null), (facts.Notes.Year, facts.Notes.Month, facts.Notes.Day));
        Assert.Equal("CA", facts.Place.CountryCode);
        Assert.Equal("Ashgrvoe & Pell", facts.Notes.CollectorsVerbatim);
    }

    [Fact]
    public void A_text_is_replaced_wherever_it_stands_and_only_there()
    {
        var change = new FactChange.Replace(CorrectedField.County, "Harny", "Harney");
        Assert.Equal([new CorrectedFact(CorrectedField.County, "Harney")], change.Read(Facts, Today).Value);
        Assert.Empty(change.Read(Facts.With(CorrectedField.County, "Lake"), Today).Value);
        Assert.True(new FactChange.Replace(CorrectedField.Date, "1", "2").Read(Facts, Today).IsRefused);
    }

    [Fact]
    public void Each_field_that_is_wrong_is_named()
    {
        var read = new FactChange.Set(new Dictionary<CorrectedField, string?>
        {
            [CorrectedField.Elevation] = "4120",
            [CorrectedField.Date] = "3/4/2024",
            [CorrectedField.County] = "Harney",
        }).Read(Facts, Today);
        Assert.Equal(["Date", "Elevation"], read.Refusals.Select(refusal => refusal.Field));
    }

    [Fact]
    public void What_was_corrected_again_is_not_taken_back()
    {
        var back = new FactChange.TakeBack([(CorrectedField.County, "Harny", "Harney")]);
        Assert.True(back.Read(Facts.With(CorrectedField.County, "Lake"), Today).IsRefused);
        Assert.Equal(
            [new CorrectedFact(CorrectedField.County, "Harny")],
            back.Read(Facts.With(CorrectedField.County, "Harney"), Today).Value);
    }

    [Fact]
    public void Which_fields_tell_the_place_is_what_a_protection_withholds()
    {
        // The fields of PublicPlace that Generalised empties, each under the name by which it is corrected.
        CorrectedField[] withheld =
        [
            CorrectedField.Municipality, CorrectedField.Locality, CorrectedField.Coordinates, CorrectedField.Uncertainty,
            CorrectedField.Elevation, CorrectedField.Habitat, CorrectedField.Remarks,
        ];
        Assert.Equal(withheld, CorrectedFields.All.Where(field => field.IsOfExactPlace()));
    }
}
