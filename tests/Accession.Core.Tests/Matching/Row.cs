using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Matching;

namespace Accession.Core.Tests.Matching;

/// <summary>A row as a list would have it, read by the program's own readers.</summary>
internal sealed record Row(
    string Collector,
    string Number,
    string Date,
    string Locality = "",
    string County = "",
    string Plant = "",
    string Family = "",
    string Latitude = "",
    string Longitude = "")
{
    private static readonly string[] Headings =
    [
        "recordedBy", "recordNumber", "eventDate", "locality", "county", "scientificName", "family", "decimalLatitude",
        "decimalLongitude", "stateProvince", "country",
    ];

    private static readonly ListReader Reader = new(
        ColumnMatch.Propose(Headings), new(DayMonthOrder.DayFirst, new(2030, 1, 1)));

    public string State { get; init; } = "";

    public string Country { get; init; } = "";

    public Signature Signature => Signature.Of(Reader.Read(new(
        [Collector, Number, Date, Locality, County, Plant, Family, Latitude, Longitude, State, Country], [])));

    /// <summary>What this row is to another, asked both ways round.</summary>
    public Comparison Against(Row other)
    {
        Signature one = Signature, two = other.Signature;
        var there = Comparison.Between(one, two);
        Assert.Equal(there, Comparison.Between(two, one));
        return there;
    }
}
