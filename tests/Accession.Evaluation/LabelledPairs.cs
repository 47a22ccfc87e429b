using Accession.Core.Matching;

namespace Accession.Evaluation;

/// <summary>Pairs of records that a person looked at: of one gathering, or not. Unsure ones are not scored.</summary>
internal static class LabelledPairs
{
    /// <summary>Compares each pair and lists the wrong ones.</summary>
    /// <param name="records">The file of records, or the folder of such files.</param>
    /// <param name="pairs">The file of pairs: idA, idB, label.</param>
    /// <param name="output">Where the cases go.</param>
    public static PairScore Score(string records, string pairs, TextWriter output)
    {
        var byId = EvaluatedRecord.ReadAll(records, "id").DistinctBy(record => record.Id).ToDictionary(r => r.Id);
        int found = 0, wrong = 0, missed = 0, possible = 0, elsewhere = 0;
        foreach (var pair in Tables.Columns(pairs, "idA", "idB", "label"))
        {
            if (!byId.TryGetValue(pair[0], out var one) || !byId.TryGetValue(pair[1], out var other))
            {
                elsewhere++;
                continue;
            }

            var isTrue = pair[2] == "same";
            if (!isTrue && pair[2] != "different")
            {
                continue;
            }

            var comparison = one.Against(other);
            var kind = comparison?.Kind ?? FindingKind.New;
            var isFound = kind is FindingKind.SameGathering or FindingKind.Repeat;
            found += isFound && isTrue ? 1 : 0;
            wrong += isFound && !isTrue ? 1 : 0;
            possible += isTrue && kind == FindingKind.Possible ? 1 : 0;
            missed += isTrue && !isFound && kind != FindingKind.Possible ? 1 : 0;
            if (isFound != isTrue)
            {
                Show(output, $"{pair[0]} and {pair[1]}: {kind}, wanted {pair[2]}", one, other, comparison);
            }
        }

        if (elsewhere > 0)
        {
            output.WriteLine($"{elsewhere} pairs are of records that stand elsewhere.");
        }

        return new(found, wrong, missed, possible);
    }

    /// <summary>Shows a case.</summary>
    public static void Show(
        TextWriter output, string title, EvaluatedRecord one, EvaluatedRecord other, Comparison? comparison)
    {
        output.WriteLine(title);
        output.WriteLine($"    {one.Text}");
        output.WriteLine($"    {other.Text}");
        output.WriteLine(comparison is { } made
            ? $"    {made.Weight}: {string.Join(" ", made.Evidence.Sentences(made.Kind))}"
            : "    They meet in no key.");
    }
}
