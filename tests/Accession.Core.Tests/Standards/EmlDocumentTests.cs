using System.Globalization;
using System.Text;
using System.Xml.Linq;
using Accession.Core.Standards;
using Accession.Core.Standards.Eml;
using Accession.Tests;

namespace Accession.Core.Tests.Standards;

public sealed class EmlDocumentTests
{
    private static readonly DatasetDescription Full = TestArchive.Description;

    private static readonly DatasetDescription Least = new()
    {
        Identifier = Full.Identifier,
        Version = 1,
        Title = "Least",
        Abstract = "Least.",
        Licence = Licence.Cc0,
        Creator = new("Invented Station"),
        Contact = new("Invented Station"),
        Publisher = new("Invented Station"),
        PublishedOn = Full.PublishedOn,
        WrittenAt = Full.WrittenAt,
        CollectionName = "Invented Herbarium",
    };

    private static byte[] Written(DatasetDescription dataset)
    {
        using var stream = new MemoryStream();
        EmlDocument.Write(stream, dataset);
        return stream.ToArray();
    }

    private static XDocument Document(DatasetDescription dataset) =>
        XDocument.Load(new MemoryStream(Written(dataset)));

    private static PublishedSchema Profile() =>
        new(ReferenceData.Require("standards", "gbif", "eml-gbif-profile-1.3", "eml.xsd"));

    private static PublishedSchema Whole() => new(ReferenceData.Require("standards", "gbif", "eml-2.2.0", "eml.xsd"));

    private static void AssertValid(params IEnumerable<DatasetDescription> datasets)
    {
        var (profile, whole) = (Profile(), Whole());
        Assert.All(datasets.Select(Written), document =>
        {
            Assert.Empty(profile.Against(document));
            Assert.Empty(whole.Against(document));
        });
    }

    [Fact]
    public void Much_or_little_is_valid_by_the_profile_and_by_the_whole_language() => AssertValid(
        Full,
        Least,
        Full with { Licence = Licence.CcByNc, CollectedTo = null, TaxonomicCoverage = " " },
        Full with { Geography = new("Somewhere"), Taxa = [], CollectionIdentifier = "" },
        Full with { Geography = new("The Pacific", new(170.25m, -170, -10, 10)), HomePage = null },
        Full with { Contact = new("Station", MailAddress: "", GivenName: "Ida", Surname: "\u0001") });

    [Fact]
    public void Hostile_text_in_every_place_is_valid_and_survives_by_the_rule()
    {
        var hostile = TestArchive.HostileTexts.Select(text => Full with
        {
            Title = text,
            Abstract = text,
            Creator = new(text, text, text, text, text),
            Geography = new(text),
            TaxonomicCoverage = text,
            Taxa = [text],
            CollectionName = text,
            CollectionIdentifier = text,
        }).ToList();
        AssertValid(hostile);
        Assert.All(hostile, dataset => Assert.Equal(
            OneLine.Of(dataset.Title).Replace('\uFFFE', '\uFFFD').Replace('\uFFFF', '\uFFFD'),
            Document(dataset).Descendants("title").Single().Value));
    }

    [Theory]
    [InlineData("<pubDate>2026-03-01</pubDate>", "<pubDate>1 March</pubDate>")]
    [InlineData("<westBoundingCoordinate>-121.5</westBoundingCoordinate>", "")]
    [InlineData("<title xml:lang=\"en\">Vascular plants of an invented field station</title>", "")]
    [InlineData("scope=\"system\"", "scope=\"galaxy\"")]
    [InlineData("https://eml.ecoinformatics.org/eml-2.2.0", "https://example.org/eml")]
    public void Both_schemas_refuse_a_spoilt_one(string right, string wrong)
    {
        var text = Encoding.UTF8.GetString(Written(Full));
        Assert.Contains(right, text);
        var spoilt = Encoding.UTF8.GetBytes(text.Replace(right, wrong, StringComparison.Ordinal));
        Assert.NotEmpty(Profile().Against(spoilt));
        Assert.NotEmpty(Whole().Against(spoilt));
    }

    [Fact]
    public void The_published_example_is_valid_by_the_same_check()
    {
        // So that a schema read wrongly would not pass for a strict one.
        var example = File.ReadAllBytes(ReferenceData.Require("standards", "gbif", "eml-example.xml"));
        Assert.Empty(Profile().Against(example));
        Assert.Empty(Whole().Against(example));
    }

    [Fact]
    public void It_says_what_was_described()
    {
        var document = Document(Full);
        string Value(string name) => document.Descendants(name).First().Value;
        Assert.Equal("6f1c1d6e-0d3e-4d57-9a55-0000000000d1/v3", document.Root!.Attribute("packageId")!.Value);
        Assert.Equal("2026-03-01", Value("pubDate"));
        Assert.Equal("2026-03-01T09:30:00Z", Value("dateStamp"));
        Assert.Equal(["Sheets that never were.", "They exist to test the export."],
            document.Descendants("abstract").Elements("para").Select(para => para.Value));
        Assert.Equal("http://creativecommons.org/licenses/by/4.0/legalcode",
            document.Descendants("ulink").Single().Attribute("url")!.Value);
        Assert.Equal("https://herbarium.example.org/dataset/oregon?x=1&y=%C3%BC", Value("onlineUrl"));
        Assert.Equal("-121.5", Value("westBoundingCoordinate"));
        var anywhere = Document(Full with { Geography = new("Anywhere") });
        Assert.Equal("180", anywhere.Descendants("eastBoundingCoordinate").Single().Value);
        Assert.Empty(Document(Least).Descendants("coverage"));
    }

    [Fact]
    public void Numbers_and_dates_do_not_follow_the_language_of_the_machine()
    {
        var culture = CultureInfo.CurrentCulture;
        try
        {
            var expected = Written(Full);
            foreach (var name in new[] { "de-DE", "ar-SA", "th-TH", "fa-IR" })
            {
                CultureInfo.CurrentCulture = new(name);
                Assert.Equal(expected, Written(Full));
            }
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
    }

    [Fact]
    public void What_cannot_be_written_is_refused_with_every_reason()
    {
        Assert.Empty(Full.Refusals());
        var bad = Full with
        {
            Version = 0,
            Title = "\u0001",
            Language = "en\"><x>",
            Geography = new(" ", new(0, 0, 50, 40)),
            CollectedTo = new(1900, 1, 1),
            HomePage = new("/here", UriKind.Relative),
            Contact = new(""),
        };
        Assert.Equal(8, bad.Refusals().Count);
        Assert.All(bad.Refusals(), refusal => Assert.EndsWith(".", refusal.Reason));
        Assert.Throws<ArgumentException>(() => Written(bad));
    }

    [Fact]
    public void Licences_are_found_where_the_standard_has_them()
    {
        var licence = PublishedTerms.Notes().Single(row => row["term_name"] == "license");
        var notes = string.Join(' ', licence.Values);
        Assert.Contains(Licence.Cc0.Address(), notes);
        Assert.Contains(Licence.CcBy.Address(), notes);
        var words = Enum.GetValues<Licence>().SelectMany(l => new[] { l.Address(), l.Title(), l.Spdx() });
        Assert.Equal(9, words.Distinct().Count());
        Assert.Throws<ArgumentOutOfRangeException>(() => ((Licence)7).Address());
    }
}
