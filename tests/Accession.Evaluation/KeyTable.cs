using Accession.Core.Matching;

namespace Accession.Evaluation;

/// <summary>The table of keys, in memory: which records meet, narrowed as the register narrows.</summary>
internal sealed class KeyTable
{
    // One chain of entries for each key, the newest first: millions of keys have one or two.
    private readonly Dictionary<long, int> _newest = [];
    private readonly List<Entry> _entries = [];
    private readonly List<EvaluatedRecord> _records = [];

    /// <summary>What stands in it, in the order of adding.</summary>
    public IReadOnlyList<EvaluatedRecord> Records => _records;

    /// <summary>Adds a record.</summary>
    public void Add(EvaluatedRecord record)
    {
        foreach (var key in record.Keys)
        {
            var older = _newest.GetValueOrDefault(key.Value, -1);
            _newest[key.Value] = _entries.Count;
            _entries.Add(new(_records.Count, key.Day, key.Detail, older));
        }

        _records.Add(record);
    }

    /// <summary>The finding of a record among all that stand in the table.</summary>
    public Finding FindingOf(EvaluatedRecord record)
    {
        var candidates = CandidatesOf(record, out var alike);
        return Findings.Of(candidates, alike);
    }

    /// <summary>All that meet a record in a key.</summary>
    /// <param name="record">The record.</param>
    /// <param name="alike">How many met in a key that stayed too common.</param>
    public List<Candidate> CandidatesOf(EvaluatedRecord record, out int alike)
    {
        alike = 0;
        Dictionary<int, bool> met = [];
        foreach (var key in record.Keys)
        {
            var under = Under(key);
            if (under.Count > MatchKey.MostCompared)
            {
                alike = Math.Max(alike, under.Count);
                continue;
            }

            foreach (var entry in under)
            {
                met[entry.Record] = met.GetValueOrDefault(entry.Record) || key.IsIdentity;
            }
        }

        return [.. met.Select(pair => new Candidate(pair.Key, Compared(record, _records[pair.Key], pair.Value)))];
    }

    /// <summary>
    /// What met in a key: all; where it is too common those of its day; where that is too, of its plant and place.
    /// </summary>
    private List<Entry> Under(MatchKey key)
    {
        var all = Chain(key.Value).ToList();
        if (all.Count > MatchKey.MostCompared)
        {
            all.RemoveAll(entry => entry.Day != key.Day);
        }

        if (all.Count > MatchKey.MostCompared)
        {
            all.RemoveAll(entry => entry.Detail != key.Detail);
        }

        return all;
    }

    private IEnumerable<Entry> Chain(long key)
    {
        for (var at = _newest.GetValueOrDefault(key, -1); at >= 0; at = _entries[at].Older)
        {
            yield return _entries[at];
        }
    }

    private static Comparison Compared(EvaluatedRecord one, EvaluatedRecord other, bool isSameRecord)
    {
        var comparison = Comparison.Between(one.Signature, other.Signature);
        return isSameRecord ? comparison.AsRepeat() : comparison;
    }

    private readonly record struct Entry(int Record, int Day, int Detail, int Older);
}
