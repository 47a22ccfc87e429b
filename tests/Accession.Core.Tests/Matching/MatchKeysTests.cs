using Accession.Core.Matching;

namespace Accession.Core.Tests.Matching;

/// <summary>What is one gathering meets in a key, and what only shares a plant does not.</summary>
public sealed class MatchKeysTests
{
    private static readonly string[] Collectors =
    [
        "J. R. Sandover", "Sandover, Jane R.", "Sandovre", "J. R. Sandover & A. Pell", "Pell & Sandover", "A. Pell",
        "J.R.S.", "Anon.", "", "M. Flores-Macías", "M. Flores M.", "I. Müller", "I. Mueller", "Galeati", "Galeath",
        "Sandover, Jr.", "Harney Weed Crew", "Torvald", "Torwald", "Claudia Gallarza Hernández", "C. Gallarza H.",
    ];

    private static readonly string[] Numbers =
        ["812", "JRS-812", "812a", "s.n.", "", "2026-812", "821", "0812", "812 & 813", "811-813"];

    private static readonly string[] Dates = ["2026-06-14", "14/07/2026", "2026-06", "2026", "", "2025-06-14"];

    private static readonly string[] Places = ["Rim of Dry Basin, 9 miles S of Tilden", ""];

    private static readonly string[] Plants = ["Lomatium hendersonii", "Poa sp.", ""];

    [Fact]
    public void What_is_found_to_be_one_gathering_always_meets()
    {
        List<(Row Row, Signature Signature, HashSet<long> Keys)> all = [];
        foreach (var collector in Collectors)
        {
            foreach (var number in Numbers)
            {
                foreach (var date in Dates)
                {
                    foreach (var place in Places)
                    {
                        foreach (var plant in Plants)
                        {
                            var row = new Row(collector, number, date, place, "", plant);
                            var keys = MatchKeys.Of(row.Signature, Identities.None).Select(key => key.Value);
                            all.Add((row, row.Signature, [.. keys]));
                        }
                    }
                }
            }
        }

        var random = new Random(7);
        var found = 0;
        for (var i = 0; i < 400_000; i++)
        {
            var one = all[random.Next(all.Count)];
            var other = all[random.Next(all.Count)];
            if (Comparison.Between(one.Signature, other.Signature).Kind == FindingKind.SameGathering)
            {
                found++;
                Assert.True(one.Keys.Overlaps(other.Keys), $"{one.Row} and {other.Row} meet in no key.");
            }
        }

        Assert.True(found > 1_000, $"Only {found} pairs were of one gathering.");
    }

    [Fact]
    public void The_plant_alone_is_no_key()
    {
        var one = new Row("A. Pell", "1", "2026-06-14", Plant: "Poa secunda").Signature;
        var other = new Row("T. Holt", "2", "2025-06-14", Plant: "Poa secunda").Signature;
        Assert.Empty(Values(one).Intersect(Values(other)));
    }

    [Fact]
    public void A_number_alone_is_no_identity_and_with_its_herbarium_it_is()
    {
        var row = new Row("", "", "").Signature;
        Assert.Empty(MatchKeys.Of(row, new() { CatalogNumber = "1234" }));
        Assert.Empty(MatchKeys.Of(row, new() { CatalogNumber = "none", InstitutionCode = "DEMO" }));
        Assert.Empty(MatchKeys.Of(row, new() { SourceId = 3 }));
        var own = Assert.Single(MatchKeys.Of(
            row, new() { CatalogNumber = " demo-h0001234", InstitutionCode = "DEMO" }));
        Assert.True(own.IsIdentity);
        Assert.Equal(own, Assert.Single(MatchKeys.Of(
            row, new() { CatalogNumber = "DEMO-H0001234", InstitutionCode = "demo" })));
        Assert.NotEqual(own, Assert.Single(MatchKeys.Of(
            row, new() { CatalogNumber = "DEMO-H0001234", InstitutionCode = "OTHER" })));
    }

    [Fact]
    public void One_identity_on_two_quite_different_records_is_no_repeat()
    {
        var one = new Row("A. Pell", "1", "2026-06-14", Plant: "Poa secunda");
        var other = new Row("T. Holt", "77", "1961-08-02", Plant: "Carex alta");
        var found = one.Against(other).AsRepeat();
        Assert.Equal(FindingKind.Possible, found.Kind);
        Assert.Contains(found.Evidence.Sentences(found.Kind), sentence => sentence.Contains("not its own"));
        Assert.Equal(FindingKind.Repeat, one.Against(one with { Date = "2026-06-15" }).AsRepeat().Kind);
    }

    private static IEnumerable<long> Values(Signature signature) =>
        MatchKeys.Of(signature, Identities.None).Select(key => key.Value);
}
