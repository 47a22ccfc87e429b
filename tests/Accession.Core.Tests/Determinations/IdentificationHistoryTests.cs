using Accession.Core.Determinations;

namespace Accession.Core.Tests.Determinations;

/// <summary>
/// The terms are those of https://dwc.tdwg.org/terms/#identification; names and people are invented.
/// </summary>
public sealed class IdentificationHistoryTests
{
    [Fact]
    public void Each_row_has_name_doubt_determiner_date_with_its_precision_and_remarks()
    {
        var read = IdentificationHistory.Read(
            "identificationID: d1; identifiedBy: A. Orm; dateIdentified: 1931-05; scientificName: Carex alta L.\n"
            + "identificationID: d2; identifiedBy: B. Brask; dateIdentified: 2025; identificationQualifier: cf.; "
            + "scientificName: Carex nova L.; family: Cyperaceae; identificationRemarks: leaf seen; edge rough; "
            + "identificationVerificationStatus: verified");

        Assert.Equal(
            [("Carex alta L.", "", "A. Orm", "1931-05"), ("Carex nova L.", "cf.", "B. Brask", "2025")],
            read.Select(one => (one.Name, one.Qualifier, one.IdentifiedBy, one.DateIdentified)));
        Assert.Equal("Cyperaceae", read[1].Family);
        Assert.Equal(
            "leaf seen; edge rough; identificationID: d2; identificationVerificationStatus: verified", read[1].Remarks);
    }

    [Fact]
    public void What_cannot_be_read_or_has_no_name_is_kept_to_the_letter_and_said()
    {
        var read = IdentificationHistory.Read(
            "identifiedBy: A. Orm; dateIdentified: spring; verbatimIdentification: Carex\nalta\n"
            + "typeStatus: isotype\ngenus: Carex; specificEpithet: nova; scientificNameAuthorship: L.");

        Assert.Equal(["Carex\nalta", "", "Carex nova L."], read.Select(one => one.Name));
        Assert.NotNull(read[0].DateProblem);
        Assert.Contains("\"spring\"", read[0].Provenance, StringComparison.Ordinal);
        Assert.Equal("typeStatus: isotype", read[1].Remarks);
    }

    [Fact]
    public void An_empty_cell_has_none() => Assert.Empty(IdentificationHistory.Read(""));
}
