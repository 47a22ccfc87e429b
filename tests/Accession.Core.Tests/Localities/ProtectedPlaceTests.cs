using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests.Localities;

/// <summary>
/// Cells and radii as in Chapman 2020, computed with GeographicLib 2.1.2; the place itself is invented.
/// </summary>
public class ProtectedPlaceTests
{
    private static readonly PublicPlace Held = new()
    {
        Country = "United States of America",
        CountryCode = "US",
        StateProvince = "Oregon",
        County = "Harney",
        Municipality = "Coldford",
        Locality = "Sage flat 3 km N of Cold Ford",
        Habitat = "gravel bar below the weir",
        Remarks = "under the third juniper",
        CoordinatesVerbatim = "43.58642, -119.05417",
        Latitude = 43.58642,
        Longitude = -119.05417,
        CoordinatePrecision = 0.00001,
        GeodeticDatum = "WGS84",
        ElevationVerbatim = "4,120 ft",
        MinimumElevationInMeters = 1255.776,
        MaximumElevationInMeters = 1255.776,
    };

    [Theory]
    [InlineData(SensitivityCategory.Extreme, null, null, null)]
    [InlineData(SensitivityCategory.High, 43.55, -119.05, 6_870.0)]
    [InlineData(SensitivityCategory.Medium, 43.585, -119.055, 687.0)]
    [InlineData(SensitivityCategory.Low, 43.5865, -119.0545, 69.0)]
    public void Only_the_cell_and_the_county_are_left(
        SensitivityCategory category, double? latitude, double? longitude, double? radius)
    {
        var gathering = Gather();
        var version = gathering.Version;
        Assert.False(Protect(gathering, category).IsRefused);
        var place = gathering.Place;

        Assert.Equal((latitude, longitude), (place.Latitude, place.Longitude));
        if (radius is { } metres)
        {
            Assert.InRange(place.UncertaintyInMeters!.Value, metres, metres + 1);
        }
        else
        {
            Assert.Null(place.UncertaintyInMeters);
        }

        Assert.Equal(("Oregon", "Harney"), (place.StateProvince, place.County));
        Assert.All(
            [place.Municipality, place.Locality, place.Habitat, place.Remarks, place.CoordinatesVerbatim,
                place.ElevationVerbatim],
            Assert.Empty);
        Assert.Null(place.MinimumElevationInMeters ?? place.MaximumElevationInMeters);
        Assert.NotEmpty(place.InformationWithheld);
        Assert.Equal((category, category), (gathering.Protection, Assert.Single(gathering.Protections).Category));
        Assert.NotEqual(version, gathering.Version);
    }

    [Theory]
    [InlineData(SensitivityCategory.Extreme)]
    [InlineData(SensitivityCategory.High)]
    [InlineData(SensitivityCategory.Medium)]
    [InlineData(SensitivityCategory.Low)]
    public void Lifting_gives_back_exactly_what_was_held(SensitivityCategory category)
    {
        var gathering = Gather();
        var exact = Protect(gathering, category).Value;
        Assert.False(Protect(gathering, SensitivityCategory.NotSensitive, exact).IsRefused);
        Assert.Equal(Held, gathering.Place);
        Assert.Equal(2, gathering.Protections.Count);
    }

    [Fact]
    public void Weaker_and_stronger_follow_from_the_exact_place_and_never_from_a_cell()
    {
        var gathering = Gather();
        var exact = Protect(gathering, SensitivityCategory.Extreme).Value;
        foreach (var category in new[]
            { SensitivityCategory.Low, SensitivityCategory.High, SensitivityCategory.Medium, SensitivityCategory.Extreme })
        {
            Assert.Same(exact, Protect(gathering, category, exact).Value);
            var alone = Gather();
            Protect(alone, category);
            Assert.Equal(alone.Place, gathering.Place);
        }
    }

    [Fact]
    public void The_same_decision_twice_and_a_decision_without_a_reason_change_nothing()
    {
        var gathering = Gather();
        var exact = Protect(gathering, SensitivityCategory.High).Value;
        var (place, version) = (gathering.Place, gathering.Version);

        Assert.Equal(
            RefusalKind.Conflict, Assert.Single(Protect(gathering, SensitivityCategory.High, exact).Refusals).Kind);
        Assert.Equal(
            RefusalKind.Invalid,
            Assert.Single(Protect(gathering, SensitivityCategory.Low, exact, reason: " ").Refusals).Kind);

        Assert.Equal((place, version), (gathering.Place, gathering.Version));
        Assert.Single(gathering.Protections);
    }

    [Fact]
    public void A_decision_that_was_looked_at_again_may_be_kept_until_a_later_day()
    {
        var gathering = Gather();
        var exact = Protect(gathering, SensitivityCategory.High).Value;
        var place = gathering.Place;

        Assert.Same(exact, Protect(gathering, SensitivityCategory.High, exact, year: 2031).Value);

        Assert.Equal(place, gathering.Place);
        Assert.Equal(
            [new DateOnly(2030, 1, 1), new DateOnly(2031, 1, 1)],
            gathering.Protections.Select(decision => decision.ReviewOn));
    }

    [Fact]
    public void Where_protection_is_lifted_nothing_is_looked_at_again()
    {
        var gathering = Gather();
        var exact = Protect(gathering, SensitivityCategory.High).Value;
        Protect(gathering, SensitivityCategory.NotSensitive, exact);

        Assert.Null(gathering.Protections[^1].ReviewOn);
        Assert.True(Protect(gathering, SensitivityCategory.NotSensitive, year: 2031).IsRefused);
    }

    [Fact]
    public void A_cell_is_never_taken_for_the_exact_place()
    {
        var gathering = Gather();
        Protect(gathering, SensitivityCategory.High);
        Assert.Throws<InvalidOperationException>(() => Protect(gathering, SensitivityCategory.Low));
    }

    [Fact]
    public void A_place_without_coordinates_is_withheld_in_words()
    {
        var gathering = Gather(Held with { Latitude = null, Longitude = null, CoordinatePrecision = null });
        Protect(gathering, SensitivityCategory.High);
        Assert.Null(gathering.Place.Latitude);
        Assert.Empty(gathering.Place.DataGeneralizations);
        Assert.Contains("withheld", gathering.Place.InformationWithheld, StringComparison.Ordinal);
    }

    private static Gathering Gather(PublicPlace? place = null) => Gathering.TakeIn(
        1, 1, 1, new RowReading(new FieldNotes { RecordedBy = "Orla Finch" }, place ?? Held, 1, []));

    private static Outcome<ExactLocality> Protect(
        Gathering gathering, SensitivityCategory category, ExactLocality? held = null, string reason = "rare",
        int year = 2030) =>
        gathering.Protect(
            new(category, new DateOnly(year, 1, 1)), held,
            Act.Of(Door.System, "protect a place", new DateTime(2026, 3, 1, 9, 0, 0, DateTimeKind.Utc), reason));
}
