using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;

namespace Accession.Core.Tests.Accessions;

/// <summary>
/// Rows against permits. The permits and rows are invented; that dates, place and plants are what is checked is
/// common practice of receiving, no published source.
/// </summary>
public sealed class PermitRuleTests
{
    private static readonly PermitTerms MayAndJune = new(
        PermitKind.Collecting, "17", "Forest office", new(2026, 5, 1), new(2026, 6, 30), "", "", [], [], "", null);

    [Theory]
    [InlineData("2026-05-01", null)]
    [InlineData("2026-06-30", null)]
    [InlineData("2026-05", null)]
    [InlineData("2026-05-30/2026-06-02", null)]
    [InlineData("2026-07-02", "It was collected on 2 Jul 2026, after the permit ended on 30 Jun 2026.")]
    [InlineData("2026-04-30", "before the permit began on 1 May 2026")]
    [InlineData("2025", "before the permit began")]
    [InlineData("2026-07", "after the permit ended")]
    [InlineData("2026", "Only the year is known (2026); it may lie outside 1 May 2026 to 30 Jun 2026.")]
    [InlineData("2026-06-28/2026-07-03", "it may lie outside")]
    [InlineData("", "No collecting date could be read; it may lie outside")]
    public void Dates_are_compared_as_finely_as_they_are_known(string date, string? warning) =>
        Warned(warning, [MayAndJune], Row(date: date));

    [Theory]
    [InlineData("2026-07-01", null)]
    [InlineData("2026-06-30", "before the permit began on 1 Jul 2026")]
    [InlineData("2026", "it may lie outside from 1 Jul 2026")]
    public void One_end_may_be_missing(string date, string? warning) =>
        Warned(warning, [MayAndJune with { From = new(2026, 7, 1), Until = null }], Row(date: date));

    [Theory]
    [InlineData("United States", "US", "Oregon", "Harney", null)]
    [InlineData("", "", "", "", null)]
    [InlineData("USA", "US", "OREGON", "Lake Co.", null)]
    [InlineData("", "", "Oregon", "Malheur County", "It was collected in Malheur County, and the permit is for Harney, Lake County.")]
    [InlineData("Canada", "CA", "Oregon", "Harney", "It was collected in Canada, and the permit is for U.S.A.")]
    [InlineData("", "", "Idaho", "Harney", "It was collected in Idaho, and the permit is for Oregon.")]
    public void Places_are_compared_as_far_as_both_name_them(
        string country, string code, string state, string county, string? warning)
    {
        var permit = MayAndJune with { Country = "U.S.A.", StateProvince = "Oregon", Counties = ["Harney", "Lake County"] };
        Warned(warning, [permit], Row() with
        {
            Place = new PublicPlace
            {
                Country = country,
                CountryCode = code,
                StateProvince = state,
                County = county,
            },
        });
    }

    [Theory]
    [InlineData("Carex nigra (L.) Reichard", "", null)]
    [InlineData("Carex nigra var. alpina", "Cyperaceae", null)]
    [InlineData("CAREX NIGRA", "", null)]
    [InlineData("Poa annua L.", "", null)]
    [InlineData("Bellis perennis L.", "Compositae", null)]
    [InlineData("Bellis perennis L.", "", null)]
    [InlineData("", "", null)]
    [InlineData("Carex hirta L.", "Cyperaceae", "Carex hirta L. is not among the plants of the permit (Carex nigra, Poa, Asteraceae).")]
    [InlineData("Salix alba L.", "Salicaceae", "Salix alba L. is not among the plants")]
    [InlineData("Carex sp.", "Cyperaceae", "it may be another plant than those of the permit")]
    public void Plants_are_families_genera_or_species(string name, string family, string? warning)
    {
        var permit = MayAndJune with { Taxa = ["Carex nigra", "Poa", "Asteraceae"] };
        Warned(warning, [permit], Row(name: name, family: family));
    }

    [Fact]
    public void One_permit_that_covers_is_enough_and_otherwise_the_nearest_speaks()
    {
        var july = MayAndJune with { Number = "18", From = new(2026, 7, 1), Until = new(2026, 7, 31), StateProvince = "Idaho" };
        Warned(null, [MayAndJune, july], Row(date: "2026-07-02"));
        var row = Row(date: "2026-07-02") with { Place = new PublicPlace { StateProvince = "Oregon" } };
        Warned("Collecting permit 17: It was collected on 2 Jul 2026", [MayAndJune, july with { Taxa = ["Salix"] }], row);
        Warned(null, [], Row(date: "2026-07-02"));
    }

    [Fact]
    public void A_permit_that_ends_before_it_begins_is_refused()
    {
        var refusal = (MayAndJune with { From = new(2026, 7, 1) }).WhyNot();
        Assert.Contains("would end on 30 Jun 2026, before it begins on 1 Jul 2026", refusal!.Reason, StringComparison.Ordinal);
        Assert.Null(MayAndJune.WhyNot());
        Assert.NotNull((MayAndJune with { Number = "", Issuer = "" }).WhyNot());
    }

    private static void Warned(string? warning, PermitTerms[] permits, RowReading row)
    {
        var said = new PermitRule(permits).Warning(row);
        if (warning is null)
        {
            Assert.Null(said);
        }
        else
        {
            Assert.Contains(warning, said, StringComparison.Ordinal);
        }
    }

    private static RowReading Row(string date = "2026-05-20", string name = "Poa annua L.", string family = "") => new(
        new FieldNotes { EventDate = date, NameVerbatim = name, Family = family }, new PublicPlace(), 1, []);
}
