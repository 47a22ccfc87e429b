using System.Globalization;
using System.Xml.Linq;
using Accession.Core.Standards.DarwinCore;
using Accession.Tests;

namespace Accession.Core.Tests.Standards;

public sealed class PublishedColumnsTests
{
    private static readonly ArchiveFile Core = OccurrenceColumns.File;
    private static readonly ArchiveFile History = IdentificationColumns.File;

    private static IEnumerable<Term> Terms(ArchiveFile file) =>
        file.Columns.Select(column => column.Term).OfType<Term>();

    [Fact]
    public void Every_column_is_a_current_term()
    {
        var current = PublishedTerms.Current().Where(row => row["kind"] == "property")
            .ToDictionary(row => row["term_iri"], row => row["term_name"]);
        Assert.True(current.Count > 300, "The published table was not read.");
        Assert.All(Terms(Core).Concat(Terms(History)), term => Assert.Equal(current[term.Iri], term.Name));
    }

    [Fact]
    public void Every_column_is_known_to_the_aggregator()
    {
        var core = PublishedTerms.Gbif("core/dwc_occurrence").ToList();
        var history = PublishedTerms.Gbif("extension/identification_history").ToList();
        Assert.All(Terms(Core), term => Assert.Contains(core, row => row["term_iri"] == term.Iri));
        Assert.All(Terms(History), term => Assert.Contains(history, row => row["term_iri"] == term.Iri));
        Assert.Equal(Core.RowType, core[0]["row_type"]);
        Assert.Equal(History.RowType, history[0]["row_type"]);
        Assert.DoesNotContain(core, row => row["name"] == "isAcceptedIdentification");   // why we do not publish it
    }

    [Fact]
    public void What_the_aggregator_requires_is_there()
    {
        var required = PublishedTerms.Gbif("core/dwc_occurrence").Where(row => row["required"] == "true")
            .Select(row => row["name"]).ToList();
        Assert.NotEmpty(required);

        // The four that GBIF asks of every occurrence data set, beside those of the definition: from memory of its
        // data quality requirements.
        string[] asked = ["occurrenceID", "basisOfRecord", "scientificName", "eventDate"];
        Assert.Subset(Terms(Core).Select(term => term.Name).ToHashSet(), required.Concat(asked).ToHashSet());
    }

    [Fact]
    public void Columns_stand_in_the_order_of_simple_darwin_core()
    {
        var order = PublishedTerms.Current().Where(row => row["simple_order"] != "" && row["profile"] == "simple")
            .ToDictionary(row => row["term_iri"], row => int.Parse(row["simple_order"], CultureInfo.InvariantCulture));
        Assert.Equal("occurrenceID", Core.Columns[0].Term?.Name);
        foreach (var file in new[] { Core, History })
        {
            var places = file.Columns.Skip(1).Select(column => order[column.Term!.Iri]).ToList();
            Assert.Equal(places.Order(), places);
        }
    }

    [Fact]
    public void A_term_is_a_list_where_the_standard_says_so()
    {
        const string advice = "separate the values in a list";
        var lists = PublishedTerms.Notes()
            .Where(row => row.Values.Any(note => note.Contains(advice, StringComparison.Ordinal)))
            .Select(row => row["term_name"]).ToHashSet();
        Assert.Contains("recordedBy", lists);
        Assert.All(Terms(Core), term => Assert.True(lists.Contains(term.Name) == term.IsList, term.Name));
    }

    [Theory]
    [InlineData(OccurrenceColumns.PreservedSpecimen, "dwc_basis_of_record_2024-02-19.xml")]
    [InlineData(OccurrenceColumns.Present, "gbif_occurrence_status_2020-07-15.xml")]
    [InlineData(OccurrenceColumns.Nomenclature, "gbif_nomenclatural_code.xml")]
    [InlineData("driedAndPressed", "gbif_preservation_method.xml")]
    [InlineData("specimen", "gbif_dataset_subtype.xml")]
    public void A_constant_is_in_its_vocabulary(string value, string vocabulary)
    {
        var path = ReferenceData.Require("standards", "gbif", "vocabulary", vocabulary);
        Assert.Contains(value, Identifiers(path));
        Assert.DoesNotContain("HerbariumSheet", Identifiers(path));

        static IEnumerable<string> Identifiers(string path) => XDocument.Load(path).Descendants()
            .Where(element => element.Name.LocalName == "concept")
            .SelectMany(concept => concept.Attributes())
            .Where(attribute => attribute.Name.LocalName == "identifier")
            .Select(attribute => attribute.Value);
    }

    [Fact]
    public void Every_value_we_publish_has_its_column()
    {
        Assert.Equal(Enum.GetValues<PublishedValue>(), Core.Columns.Select(column => column.Value));
        Assert.Subset(Core.Columns.Select(c => c.Value).ToHashSet(), History.Columns.Select(c => c.Value).ToHashSet());
        Assert.All(History.Columns.Skip(1), column => Assert.Contains(column, Core.Columns));
    }

    [Fact]
    public void A_protected_place_is_not_told_by_any_column_about_the_place()
    {
        // Of the columns that Darwin Core counts to the place, these alone may stay: none is finer than a county.
        string[] coarse = ["country", "countryCode", "stateProvince", "county", "geodeticDatum"];
        var places = PublishedTerms.Current().Where(row => row["class"].EndsWith("Location", StringComparison.Ordinal))
            .Select(row => row["term_iri"]).ToHashSet();
        var ours = Core.Columns.Where(column => places.Contains(column.Term!.Iri)).ToList();
        Assert.True(ours.Count > 10, "The classes of the published table were not read.");
        Assert.Equal(coarse, ours.Where(c => c.WhenProtected == WhenProtected.Unchanged).Select(c => c.Heading));

        var words = Core.Columns.Where(c => c.Heading is "habitat" or "occurrenceRemarks");
        var verbatim = ours.Where(c => c.Heading.StartsWith("verbatim", StringComparison.Ordinal));
        Assert.All(words.Concat(verbatim), column => Assert.Equal(WhenProtected.Withheld, column.WhenProtected));
    }

    [Fact]
    public void The_reference_page_lists_every_column_as_it_is()
    {
        var page = Path.Combine(ReferenceData.CheckoutRoot(), "docs", "reference", "darwin-core-archive.md");
        var rows = File.ReadLines(page).Where(line => line.StartsWith("| `", StringComparison.Ordinal))
            .Select(line => line.Replace(@"\|", "/", StringComparison.Ordinal))   // a bar within a cell
            .Select(line => line.Split('|', StringSplitOptions.TrimEntries))
            .Where(cells => cells.Length == 6)   // the table of the files above it is narrower
            .Select(cells => (Name: cells[1].Trim('`'), IsList: cells[2] == "list", WhenProtected: cells[4]))
            .ToList();
        var expected = Core.Columns.Select(column => (column.Heading, column.Term!.IsList, column.WhenProtected switch
        {
            WhenProtected.Generalised => "generalised",
            WhenProtected.Withheld => "withheld",
            _ => "",
        }));
        Assert.Equal(expected, rows);
    }
}
