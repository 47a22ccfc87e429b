using Accession.Core.Matching;

namespace Accession.Core.Tests.Matching;

/// <summary>
/// Weights from pairs that were decided. The weight of a level is the logarithm of m/u: Fellegi and Sunter, A theory for
/// record linkage, Journal of the American Statistical Association 64 (1969), 1183–1210; the formula from memory, the
/// numbers by hand.
/// </summary>
public sealed class WeightEstimateTests
{
    private static readonly FieldEvidence Plain = new(Agreement.Same);
    private static readonly FieldEvidence OtherDate = new(Agreement.Contradicts, Slip.OtherDate);

    [Fact]
    public void A_level_weighs_ten_times_the_logarithm_of_how_much_likelier_it_is_among_the_same()
    {
        var estimate = new WeightEstimate();
        Add(estimate, 95, isSame: true, Plain);
        Add(estimate, 5, isSame: true, OtherDate);
        Add(estimate, 10, isSame: false, Plain);
        Add(estimate, 990, isSame: false, OtherDate);

        // m = 95.5/101, u = 10.5/1001: 10 log10(90.14) = 19.5. m = 5.5/101, u = 990.5/1001: 10 log10(0.05503) = -12.6.
        Assert.Equal(20, Of(estimate, EvidenceField.Date, Plain).Estimated);
        Assert.Equal(-13, Of(estimate, EvidenceField.Date, OtherDate).Estimated);
        Assert.Equal((100, 1000), (estimate.Same, estimate.Others));
        Assert.Equal((95, 10), (Of(estimate, EvidenceField.Date, Plain).Same, Of(estimate, EvidenceField.Date, Plain).Others));
    }

    [Fact]
    public void A_level_that_few_pairs_show_keeps_its_weight()
    {
        var estimate = new WeightEstimate();
        Add(estimate, 9, isSame: true, Plain);

        Assert.Null(Of(estimate, EvidenceField.Date, Plain).Estimated);
        Assert.Equal(20, Of(estimate, EvidenceField.Date, Plain).Present);
    }

    [Fact]
    public void What_was_never_seen_among_the_others_does_not_weigh_without_end()
    {
        var estimate = new WeightEstimate();
        Add(estimate, 1_000_000, isSame: true, Plain);
        Add(estimate, 1_000_000, isSame: false, OtherDate);

        Assert.Equal(WeightEstimate.Most, Of(estimate, EvidenceField.Date, Plain).Estimated);
        Assert.Equal(-WeightEstimate.Most, Of(estimate, EvidenceField.Date, OtherDate).Estimated);
    }

    [Fact]
    public void A_field_that_says_nothing_counts_for_nothing()
    {
        var estimate = new WeightEstimate();
        Add(estimate, 50, isSame: true, default);

        Assert.DoesNotContain(estimate.Lines(), line => line.Field == EvidenceField.Date);
    }

    [Fact]
    public void A_pair_is_judged_by_the_estimated_weights_and_the_same_rules()
    {
        var pair = Pair(Plain) with { Where = new(Agreement.Near, Slip.WithinUncertainty) };
        var estimate = new WeightEstimate();
        Assert.Equal(FindingKind.SameGathering, estimate.Judge()(pair));

        // Collector and number agree as often among other pairs: they weigh nothing, and 20 + 4 + 10 is not enough.
        Add(estimate, 100, isSame: true, default, bare: true);
        Add(estimate, 100, isSame: false, default, bare: true);
        Assert.Equal(0, Of(estimate, EvidenceField.Collector, Plain).Estimated);
        Assert.Equal(FindingKind.Possible, estimate.Judge()(pair));

        // No sum makes up for a rule: another number is never the same gathering.
        Assert.Equal(FindingKind.New, estimate.Judge()(pair with { Number = new(Agreement.Contradicts, Slip.OtherNumber) }));
    }

    private static Evidence Pair(FieldEvidence when) => new(Plain, Plain, when, new(Agreement.Same, Slip.SameWords), Plain);

    private static void Add(WeightEstimate estimate, int times, bool isSame, FieldEvidence when, bool bare = false)
    {
        var pair = bare ? Pair(when) with { What = default, Where = default, When = default } : Pair(when);
        for (var k = 0; k < times; k++)
        {
            estimate.Add(pair, isSame);
        }
    }

    private static WeightEstimate.Line Of(WeightEstimate estimate, EvidenceField field, FieldEvidence level) =>
        estimate.Lines().Single(line => line.Field == field && line.Level == level);
}
