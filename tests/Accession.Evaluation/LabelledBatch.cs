using Accession.Core.Matching;

namespace Accession.Evaluation;

/// <summary>A batch on top of what is held, with the finding that each row should have.</summary>
internal sealed class LabelledBatch
{
    private readonly List<EvaluatedRecord> _rows;
    private readonly KeyTable _table = new();
    private readonly Dictionary<string, string> _parents = new(StringComparer.Ordinal);
    private readonly int _held;

    private LabelledBatch(string holdings, string batch)
    {
        foreach (var sheet in EvaluatedRecord.ReadAll(holdings, "catalogNumber"))
        {
            _table.Add(sheet);
        }

        _held = _table.Records.Count;
        _rows = EvaluatedRecord.ReadAll(batch, null);
    }

    /// <summary>Finds for each row and lists the wrong ones.</summary>
    /// <param name="holdings">What is held, with the column catalogNumber.</param>
    /// <param name="batch">The rows that come in.</param>
    /// <param name="expected">What each row is: row, expected, catalogNumbers, earlierRow.</param>
    /// <param name="output">Where the cases go.</param>
    public static PairScore Score(string holdings, string batch, string expected, TextWriter output) =>
        new LabelledBatch(holdings, batch).Score(
            [.. Tables.Columns(expected, "row", "expected", "catalogNumbers", "earlierRow")], output);

    private PairScore Score(List<string[]> wanted, TextWriter output)
    {
        foreach (var row in wanted)
        {
            foreach (var sheet in row[2].Split('|', StringSplitOptions.RemoveEmptyEntries))
            {
                Join(NameOfRow(row[0]), sheet);
            }

            if (row[3].Length > 0)
            {
                Join(NameOfRow(row[0]), NameOfRow(row[3]));
            }
        }

        int found = 0, wrong = 0, missed = 0, possible = 0, clashes = 0, clashesFound = 0, news = 0, clashesOnNew = 0;
        foreach (var row in _rows)
        {
            var want = wanted.Find(line => line[0] == row.Id)
                ?? throw new UnreadableLineException($"Nothing is expected of row {row.Id}.");
            var finding = _table.FindingOf(row);
            _table.Add(row);
            var isRight = finding.Members.Any(member => Root(NameOf(member.Id)) == Root(NameOfRow(row.Id)));
            var isTrue = want[1] is "same gathering" or "repeat";
            var isFound = finding.Kind is FindingKind.SameGathering or FindingKind.Repeat;
            found += isFound && isTrue && isRight ? 1 : 0;
            wrong += isFound && !(isTrue && isRight) ? 1 : 0;
            possible += isTrue && finding.Kind == FindingKind.Possible ? 1 : 0;
            missed += isTrue && (isFound ? !isRight : finding.Kind != FindingKind.Possible) ? 1 : 0;
            clashes += want[1] == "number clash" ? 1 : 0;
            var isClash = finding.Kind == FindingKind.NumberClash;
            clashesFound += want[1] == "number clash" && isClash && isRight ? 1 : 0;
            news += want[1] == "new" ? 1 : 0;
            clashesOnNew += want[1] == "new" && isClash ? 1 : 0;
            if (isTrue ? !isFound || !isRight : isFound || (want[1] == "number clash") != isClash)
            {
                Show(output, row, want, finding);
            }
        }

        return new(found, wrong, missed, possible)
        {
            ClashRecall = clashes == 0 ? 1 : (double)clashesFound / clashes,
            ClashOnNew = news == 0 ? 0 : (double)clashesOnNew / news,
        };
    }

    private void Show(TextWriter output, EvaluatedRecord row, string[] want, Finding finding)
    {
        output.WriteLine($"row {row.Id}: {finding.Kind}, wanted {want[1]} {want[2]} {want[3]}");
        output.WriteLine($"    {row.Text}");
        foreach (var member in finding.Members.Take(2))
        {
            var other = _table.Records[(int)member.Id];
            output.WriteLine($"    named  {other.Id}: {other.Text}");
            output.WriteLine($"           {member.Comparison.Weight}: "
                + string.Join(" ", member.Comparison.Evidence.Sentences(finding.Kind)));
        }

        var name = want[2].Split('|')[0];
        var missing = name.Length > 0
            ? _table.Records.Take(_held).FirstOrDefault(record => record.Id == name)
            : want[3].Length > 0 ? _rows.Find(other => other.Id == want[3]) : null;
        if (missing is not null && finding.Members.All(member => _table.Records[(int)member.Id] != missing))
        {
            LabelledPairs.Show(output, "    wanted", row, missing, row.Against(missing));
        }
    }

    private string NameOf(long index) =>
        index < _held ? _table.Records[(int)index].Id : NameOfRow(_table.Records[(int)index].Id);

    private static string NameOfRow(string row) => $"row {row}";

    private void Join(string one, string other) => _parents[Root(one)] = Root(other);

    private string Root(string name)
    {
        while (_parents.TryGetValue(name, out var parent) && parent != name)
        {
            name = parent;
        }

        return name;
    }
}
