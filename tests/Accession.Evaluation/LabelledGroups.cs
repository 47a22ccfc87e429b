using Accession.Core.Matching;

namespace Accession.Evaluation;

/// <summary>Groups of records of one gathering: every pair inside a group is true, every other pair is not.</summary>
internal static class LabelledGroups
{
    /// <summary>Finds the pairs among all records and compares them with those of the groups.</summary>
    /// <param name="recordsFile">The records.</param>
    /// <param name="groups">The groups: group, id.</param>
    /// <param name="unsure">Pairs that are not scored: idA, idB; null when there are none.</param>
    /// <param name="output">Where the cases go.</param>
    public static PairScore Score(string recordsFile, string groups, string? unsure, TextWriter output)
    {
        var records = EvaluatedRecord.ReadAll(recordsFile, "id");
        var left = unsure is null
            ? []
            : Tables.Columns(unsure, "idA", "idB").Select(pair => Pair(pair[0], pair[1])).ToHashSet();
        var isTrue = TruePairs(groups);
        isTrue.ExceptWith(left);
        var byId = records.DistinctBy(record => record.Id).ToDictionary(record => record.Id);
        isTrue.RemoveWhere(pair => !byId.ContainsKey(pair.One) || !byId.ContainsKey(pair.Other));

        int found = 0, wrong = 0, possible = 0;
        HashSet<(string One, string Other)> seen = [];
        var table = new KeyTable();
        foreach (var record in records)
        {
            foreach (var candidate in table.CandidatesOf(record, out _))
            {
                var other = table.Records[(int)candidate.Id];
                var pair = Pair(record.Id, other.Id);
                if (left.Contains(pair))
                {
                    continue;
                }

                var isFound = candidate.Comparison.Kind is FindingKind.SameGathering or FindingKind.Repeat;
                var truly = isTrue.Contains(pair);
                found += isFound && truly ? 1 : 0;
                wrong += isFound && !truly ? 1 : 0;
                possible += truly && candidate.Comparison.Kind == FindingKind.Possible ? 1 : 0;
                seen.Add(pair);
                if (isFound != truly)
                {
                    var wanted = truly ? "same" : "different";
                    LabelledPairs.Show(output, $"{pair.One} and {pair.Other}: {candidate.Comparison.Kind}, "
                        + $"wanted {wanted}", record, other, candidate.Comparison);
                }
            }

            table.Add(record);
        }

        foreach (var (one, other) in isTrue.Where(pair => !seen.Contains(pair)))
        {
            LabelledPairs.Show(output, $"{one} and {other}: wanted same", byId[one], byId[other], null);
        }

        return new(found, wrong, isTrue.Count - found - possible, possible);
    }

    private static HashSet<(string One, string Other)> TruePairs(string groups)
    {
        HashSet<(string, string)> pairs = [];
        foreach (var group in Tables.Columns(groups, "group", "id").GroupBy(row => row[0], row => row[1]))
        {
            var ids = group.Distinct().ToList();
            for (var i = 0; i < ids.Count; i++)
            {
                for (var j = i + 1; j < ids.Count; j++)
                {
                    pairs.Add(Pair(ids[i], ids[j]));
                }
            }
        }

        return pairs;
    }

    private static (string One, string Other) Pair(string one, string other) =>
        string.CompareOrdinal(one, other) <= 0 ? (one, other) : (other, one);
}
