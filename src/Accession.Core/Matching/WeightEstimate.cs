namespace Accession.Core.Matching;

/// <summary>
/// What pairs of which it is known whether they are one gathering say of the weights. A level of agreement weighs ten
/// times the logarithm to base ten of how much likelier it is among pairs that are the same than among others: the
/// ratio m/u of Fellegi and Sunter (A theory for record linkage, Journal of the American Statistical Association 64,
/// 1969), in tenths of a factor of ten. Half a pair is added on each side, so that what was never seen does not weigh
/// infinitely. It changes nothing by itself.
/// </summary>
public sealed class WeightEstimate
{
    /// <summary>A level that fewer pairs show keeps its weight: too few to say anything.</summary>
    public const int FewestPairs = 10;

    /// <summary>The most a level may weigh, for or against, in points.</summary>
    public const int Most = 40;

    private readonly Dictionary<(EvidenceField Field, FieldEvidence Level), Seen> _levels = [];

    // How often a level was seen; the order in which pairs come does not matter.
    private record struct Seen(int Same, int Others);

    /// <summary>A level of agreement of one field, and what it weighs.</summary>
    /// <param name="Field">The field.</param>
    /// <param name="Level">How it agrees.</param>
    /// <param name="Present">What it weighs now, in points.</param>
    /// <param name="Estimated">What the pairs say, −40 to 40 points; null where they are too few.</param>
    /// <param name="Same">How many pairs of one gathering show it.</param>
    /// <param name="Others">How many other pairs show it.</param>
    public sealed record Line(
        EvidenceField Field, FieldEvidence Level, int Present, int? Estimated, int Same, int Others);

    /// <summary>How many pairs are of one gathering.</summary>
    public int Same { get; private set; }

    /// <summary>How many are not.</summary>
    public int Others { get; private set; }

    /// <summary>Counts a pair.</summary>
    /// <param name="evidence">How its fields agree; a field that says nothing on one side counts for nothing.</param>
    /// <param name="isSame">Whether it is one gathering.</param>
    public void Add(Evidence evidence, bool isSame)
    {
        (Same, Others) = isSame ? (Same + 1, Others) : (Same, Others + 1);
        foreach (var field in Enum.GetValues<EvidenceField>())
        {
            var level = evidence.Of(field);
            if (level.Agreement != Agreement.Missing)
            {
                var seen = _levels.GetValueOrDefault((field, level));
                _levels[(field, level)] = isSame
                    ? seen with { Same = seen.Same + 1 }
                    : seen with { Others = seen.Others + 1 };
            }
        }
    }

    /// <summary>Every level that was seen, field by field, what speaks most for a pair first.</summary>
    public IReadOnlyList<Line> Lines()
    {
        // Out of the pairs of which the field says something at all.
        var all = _levels.ToLookup(one => one.Key.Field, one => one.Value)
            .ToDictionary(of => of.Key, of => new Seen(of.Sum(one => one.Same), of.Sum(one => one.Others)));
        return
        [
            .. _levels.Select(one => new Line(
                    one.Key.Field, one.Key.Level, Weights.Of(one.Key.Field, one.Key.Level),
                    Estimated(one.Value, all[one.Key.Field]), one.Value.Same, one.Value.Others))
                .OrderBy(line => line.Field).ThenByDescending(line => line.Present).ThenBy(line => line.Level.Packed),
        ];
    }

    /// <summary>Says what pairs would be with the weights that are estimated now; the rules stay as they are.</summary>
    public Func<Evidence, FindingKind> Judge()
    {
        var estimated = Lines().Where(line => line.Estimated is not null)
            .ToDictionary(line => (line.Field, line.Level), line => line.Estimated!.Value);
        return evidence => Comparison.Judged(
            evidence,
            Enum.GetValues<EvidenceField>().Sum(field =>
                estimated.TryGetValue((field, evidence.Of(field)), out var weight)
                    ? weight
                    : Weights.Of(field, evidence.Of(field)))).Kind;
    }

    private static int? Estimated(Seen level, Seen all)
    {
        if (level.Same + level.Others < FewestPairs)
        {
            return null;
        }

        var ratio = (level.Same + 0.5) / (all.Same + 1) / ((level.Others + 0.5) / (all.Others + 1));
        return (int)Math.Clamp(Math.Round(10 * Math.Log10(ratio)), -Most, Most);
    }
}
