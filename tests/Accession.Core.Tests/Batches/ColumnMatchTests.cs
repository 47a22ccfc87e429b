using System.Text.Json;
using Accession.Core.Batches;

namespace Accession.Tests.Batches;

public sealed class ColumnMatchTests
{
    [Theory]
    [InlineData("recordedBy", "recordedBy")]
    [InlineData("RECORDED_BY", "recordedBy")]
    [InlineData("Recorded by", "recordedBy")]
    [InlineData("dwc:recordedBy", "recordedBy")]
    [InlineData("http://rs.tdwg.org/dwc/terms/recordedBy", "recordedBy")]
    [InlineData("dwc_minimumElevationInMeters", "minimumElevationInMeters")]
    [InlineData("coordinate uncertainty in meters", "coordinateUncertaintyInMeters")]
    public void A_Darwin_Core_name_is_known_in_any_spelling(string heading, string field)
    {
        var column = ColumnMatch.Propose([heading]).Columns.Single();

        Assert.Equal(field, column.Field?.Name);
        Assert.Equal("Darwin Core name", column.Why);
        Assert.Null(column.Unit);
    }

    [Theory]
    [InlineData("Collector(s)", "recordedBy")]
    [InlineData("Leg.", "recordedBy")]
    [InlineData("COLLECTED BY", "recordedBy")]
    [InlineData("Récolteur", "recordedBy")]
    [InlineData("Sammler", "recordedBy")]
    [InlineData("Additional collectors", "otherCollectors")]
    [InlineData("No.", "recordNumber")]
    [InlineData("#", "recordNumber")]
    [InlineData("Coll. No.", "recordNumber")]
    [InlineData("Coll #", "recordNumber")]
    [InlineData("N° de récolte", "recordNumber")]
    [InlineData("Nº de colección", "recordNumber")]
    [InlineData("Field no.", "recordNumber")]
    [InlineData("fieldNumber", "fieldNumber")]
    [InlineData("Date coll.", "eventDate")]
    [InlineData("Fecha de colecta", "eventDate")]
    [InlineData("País", "country")]
    [InlineData("State", "stateProvince")]
    [InlineData("Municipio", "municipality")]
    [InlineData("Fundort", "locality")]
    [InlineData("Site", "locality")]
    [InlineData("Lat. (DD)", "decimalLatitude")]
    [InlineData("Lon", "decimalLongitude")]
    [InlineData("Latitude (DMS)", "verbatimLatitude")]
    [InlineData("GPS", "verbatimCoordinates")]
    [InlineData("Lat/Long", "verbatimCoordinates")]
    [InlineData("Map datum", "geodeticDatum")]
    [InlineData("Species", "scientificName")]
    [InlineData("Plant", "scientificName")]
    [InlineData("Author", "scientificNameAuthorship")]
    [InlineData("Det.", "identifiedBy")]
    [InlineData("Determined by", "identifiedBy")]
    [InlineData("Date det.", "dateIdentified")]
    [InlineData("Remarks", "occurrenceRemarks")]
    [InlineData("Associated species", "associatedTaxa")]
    [InlineData("No. of sheets", "sheets")]
    [InlineData("# dups", "sheets")]
    [InlineData("catalogNumber", "otherCatalogNumbers")]   // the sender's number is never ours
    [InlineData("Barcode", "otherCatalogNumbers")]
    [InlineData("Permit #", "permit")]
    public void Usual_synonyms_are_known(string heading, string field)
    {
        Assert.Equal(field, ColumnMatch.Propose([heading]).Columns.Single().Field?.Name);
    }

    [Theory]
    [InlineData("Elev (ft)", "verbatimElevation", HeadingUnit.Foot)]
    [InlineData("Elevation m", "verbatimElevation", HeadingUnit.Metre)]
    [InlineData("Elevation_ft", "verbatimElevation", HeadingUnit.Foot)]
    [InlineData("Altitude [m a.s.l.]", "verbatimElevation", HeadingUnit.Metre)]
    [InlineData("Altitud (msnm)", "verbatimElevation", HeadingUnit.Metre)]
    [InlineData("Höhe (m ü. M.)", "verbatimElevation", HeadingUnit.Metre)]
    [InlineData("Elevation in feet", "verbatimElevation", HeadingUnit.Foot)]
    [InlineData("Min. elev. (ft.)", "minimumElevationInMeters", HeadingUnit.Foot)]
    [InlineData("Uncertainty (km)", "coordinateUncertaintyInMeters", HeadingUnit.Kilometre)]
    [InlineData("Accuracy (in miles)", "coordinateUncertaintyInMeters", HeadingUnit.Mile)]
    [InlineData("Alt.", "verbatimElevation", null)]
    public void The_unit_is_taken_from_the_heading(string heading, string field, HeadingUnit? unit)
    {
        var column = ColumnMatch.Propose([heading]).Columns.Single();

        Assert.Equal((field, unit), (column.Field?.Name, column.Unit));
    }

    [Fact]
    public void What_is_not_known_is_kept_to_the_letter()
    {
        var column = ColumnMatch.Propose(["Moon phase"]).Columns.Single();

        Assert.Equal(new(0, "Moon phase", null, MatchReason.NotMatched, null, null), column);
        Assert.Equal("not matched: kept to the letter", column.Why);
    }

    [Fact]
    public void Of_two_columns_for_one_meaning_the_surer_has_it_and_the_other_says_so()
    {
        var match = ColumnMatch.Propose(["Number", "Coll. no.", "recordedBy", "Leg."]);

        Assert.Equal([null, "recordNumber", "recordedBy", null], match.Columns.Select(c => c.Field?.Name));
        Assert.Equal(
            "This could be recordNumber too, which is already column 2, \"Coll. no.\".", match.Columns[0].Note);
        Assert.Equal(MatchReason.NotMatched, match.Columns[3].Reason);
    }

    [Fact]
    public void Meanings_that_several_columns_may_share_are_shared()
    {
        var match = ColumnMatch.Propose(["Notes", "Description", "Easting", "Northing"]);

        Assert.Equal([0, 1], match.Of(ListField.OccurrenceRemarks).Select(c => c.Column));
        Assert.Equal([2, 3], match.Of(ListField.VerbatimCoordinates).Select(c => c.Column));
    }

    [Fact]
    public void Species_beside_genus_is_the_epithet()
    {
        var beside = ColumnMatch.Propose(["Genus", "Species", "Author"]);

        Assert.Equal(ListField.SpecificEpithet, beside.Columns[1].Field);
        Assert.Contains("epithet alone", beside.Columns[1].Note, StringComparison.Ordinal);
        Assert.Equal(ListField.ScientificName, ColumnMatch.Propose(["Family", "Species"]).Columns[1].Field);
    }

    [Fact]
    public void Datum_is_a_date_only_where_no_other_column_has_one()
    {
        Assert.Equal(ListField.EventDate, ColumnMatch.Propose(["Sammler", "Datum"]).Columns[1].Field);
        Assert.Equal(ListField.GeodeticDatum, ColumnMatch.Propose(["Date", "Datum"]).Columns[1].Field);
        Assert.Equal(ListField.GeodeticDatum, ColumnMatch.Propose(["Year", "Datum"]).Columns[1].Field);
    }

    [Fact]
    public void What_a_person_chose_is_remembered_for_the_source_and_survives_JSON()
    {
        var chosen = ColumnMatch.Propose(["Number", "Tag", "Place", "Moon phase"])
            .With(0, ListField.OtherCatalogNumbers)
            .With(1, ListField.RecordNumber)
            .With(2, null);
        var json = JsonSerializer.Serialize(chosen.Remembered());
        var again = ColumnMatch.Propose(
            ["tag ", "NUMBER", "Place", "Moon phase", "Coll. no."],
            JsonSerializer.Deserialize<Dictionary<string, string>>(json));

        Assert.Equal("""{"Number":"otherCatalogNumbers","Tag":"recordNumber","Place":""}""", json);
        Assert.Equal(
            ["recordNumber", "otherCatalogNumbers", null, null, null], again.Columns.Select(c => c.Field?.Name));
        Assert.Equal(
            ["as last time", "as last time", "as last time", "not matched: kept to the letter",
                "not matched: kept to the letter"],
            again.Columns.Select(c => c.Why));
        Assert.NotNull(again.Columns[4].Note);
    }

    [Fact]
    public void A_match_that_was_kept_says_as_last_time_only_of_what_a_last_time_had()
    {
        var kept = new Dictionary<string, string> { ["Leg."] = "recordedBy", ["Qx"] = "locality", ["Loc"] = "habitat" };
        var match = ColumnMatch.Propose(["Leg.", "Qx", "Loc"], kept);

        Assert.Equal(
            ["usual synonym", "chosen by hand", "chosen by hand"], match.Explained(null).Columns.Select(c => c.Why));
        Assert.Equal(
            ["usual synonym", "chosen by hand", "as last time"],
            match.Explained(new Dictionary<string, string> { ["LOC"] = "habitat", ["Qx"] = "county" })
                .Columns.Select(c => c.Why));
    }

    // Common practice, no published source: collector and number name a gathering; date and plant stand in for it.
    [Theory]
    [InlineData("Collector,No.,Species", 0)]
    [InlineData("Collector,Date,Species", 0)]
    [InlineData("Other collectors,Field number,Species", 0)]
    [InlineData("No.,Date,Species", 1)]
    [InlineData("Collector,Date,Locality", 1)]
    [InlineData("Qx,Locality", 2)]
    public void A_list_lacks_what_rows_are_known_by(string headings, int lacks) =>
        Assert.Equal(lacks, ColumnMatch.Propose(headings.Split(',')).Lacks.Count);

    [Fact]
    public void A_remembered_name_that_no_longer_exists_is_passed_over()
    {
        var match = ColumnMatch.Propose(["Leg."], new Dictionary<string, string> { ["Leg."] = "noSuchField" });

        Assert.Equal(MatchReason.UsualSynonym, match.Columns.Single().Reason);
    }

    [Fact]
    public void A_choice_takes_a_single_meaning_from_the_column_that_had_it()
    {
        var match = ColumnMatch.Propose(["Collector", "Team"]).With(1, ListField.RecordedBy);

        Assert.Null(match.Columns[0].Field);
        Assert.Equal("recordedBy was given to column 2, \"Team\".", match.Columns[0].Note);
        Assert.Equal("chosen by hand", match.Columns[1].Why);
        Assert.Throws<ArgumentOutOfRangeException>(() => match.With(2, null));
    }

    [Fact]
    public void Every_column_is_in_the_match_once()
    {
        string[] headings = [.. ListField.All.SelectMany(field => new[] { field.Name, field.Name.ToUpperInvariant() })];

        Assert.Equal(headings, ColumnMatch.Propose(headings).Columns.Select(column => column.Heading));
        var matched = ColumnMatch.Propose(headings).Columns.Where(column => column.Field is not null);
        foreach (var group in matched.GroupBy(column => column.Field))
        {
            // The catalog number of a sender's list counts as one of the other numbers.
            Assert.Equal(
                group.Key == ListField.OtherCatalogNumbers ? 4 : group.Key!.IsSingle ? 1 : 2, group.Count());
        }
    }

    [Fact]
    public void Names_are_unique_and_each_comes_with_help()
    {
        Assert.Equal(ListField.All.Count, ListField.All.Select(f => f.Name.ToUpperInvariant()).Distinct().Count());
        Assert.All(ListField.All, field => Assert.EndsWith(".", field.Help, StringComparison.Ordinal));
        Assert.All(ListField.All, field => Assert.Same(field, ListField.Named(field.Name.ToUpperInvariant())));
        Assert.Null(ListField.Named("moonPhase"));
    }

    [Fact]
    public void Every_term_is_spelt_as_Darwin_Core_spells_it()
    {
        // The current list of terms as published by TDWG; the second column is the term's name.
        var terms = File.ReadLines(ReferenceData.Require("standards", "dwc", "dwc-terms-current.csv"))
            .Skip(1).Select(line => line.Split(',')).Where(cells => cells.Length > 3 && cells[3] == "property")
            .Select(cells => cells[1]).ToHashSet(StringComparer.Ordinal);

        Assert.All(ListField.All.Where(f => f.Term is not null), field => Assert.Contains(field.Term!, terms));
        Assert.Equal(["sheets", "permit"], ListField.All.Where(f => f.Term is null).Select(f => f.Name));
    }

    [Fact]
    public void The_headings_of_outside_lists_are_matched()
    {
        string[] donation =
        [
            "Collector", "Number", "Date", "Country", "State", "County", "Locality", "Habitat", "Latitude", "Longitude",
            "Elevation m", "Species", "Determined by", "Notes",
        ];
        var header = File.ReadLines(ReferenceData.Require("samples", "batches", "donation-1.csv")).First();
        Assert.Equal(donation, header.Split(','));
        Assert.All(ColumnMatch.Propose(donation).Columns, column => Assert.NotNull(column.Field));

        var tsv = File.ReadLines(ReferenceData.Require("samples", "occurrences-malus.tsv")).First().Split('\t');
        Assert.Equal(
            ["id", "license"],
            ColumnMatch.Propose(tsv).Columns.Where(column => column.Field is null).Select(column => column.Heading));
    }
}
