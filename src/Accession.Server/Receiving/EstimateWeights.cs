using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Storage;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// What the decisions of curators say of the weights by which duplicates are found, and what would change with them. It
/// changes nothing: the weights are part of the program.
/// </summary>
public sealed class EstimateWeights(AccessionDb db, JudgedPairs pairs)
{
    private const int Places = 2000;
    private const int MostNamed = 20;

    /// <summary>Says how far it is.</summary>
    public delegate void Report(string doing, long done);

    /// <summary>What would be something else with the estimated weights.</summary>
    /// <param name="Of">Which pairs: "kept as duplicates", "other gatherings" or "waiting rows".</param>
    /// <param name="Now">What they are now.</param>
    /// <param name="Then">What they would be.</param>
    /// <param name="Pairs">How many.</param>
    /// <param name="Named">Some of them, as a curator knows them.</param>
    public sealed record Change(
        string Of, FindingKind Now, FindingKind Then, int Pairs, IReadOnlyList<string> Named);

    /// <param name="Same">Pairs that curators kept as duplicates.</param>
    /// <param name="Others">Pairs that curators told apart, and pairs that meet in a key and are none.</param>
    /// <param name="LeftOut">
    /// Pairs that look like one gathering and that nobody has decided: they are neither.
    /// </param>
    /// <param name="Lines">The levels.</param>
    /// <param name="Changes">What would change.</param>
    public sealed record Estimated(
        int Same, int Others, int LeftOut, IReadOnlyList<WeightEstimate.Line> Lines, IReadOnlyList<Change> Changes);

    // Pairs of one evidence are judged alike: they are counted, and some are remembered by name.
    private sealed class Alike
    {
        public int Pairs { get; set; }

        public List<(long Id, long? OtherId)> Some { get; } = [];
    }

    private sealed class Judged : Dictionary<(string Of, Evidence Evidence, FindingKind Now), Alike>
    {
        public void Add(string of, Evidence evidence, FindingKind now, long id, long? otherId)
        {
            if (!TryGetValue((of, evidence, now), out var alike))
            {
                this[(of, evidence, now)] = alike = new();
            }

            alike.Pairs++;
            if (alike.Some.Count < MostNamed)
            {
                alike.Some.Add((id, otherId));
            }
        }

        public void Add(string of, JudgedPairs.Pair pair) =>
            Add(of, pair.Comparison.Evidence, pair.Comparison.Kind, pair.GatheringId, pair.OtherId);
    }

    public async Task<Estimated> RunAsync(Report report, CancellationToken cancellation)
    {
        var estimate = new WeightEstimate();
        Judged judged = [];
        var leftOut = 0;
        await foreach (var pair in pairs.SameAsync(cancellation))
        {
            estimate.Add(pair.Comparison.Evidence, isSame: true);
            judged.Add("kept as duplicates", pair);
            report("duplicates", estimate.Same);
        }

        await foreach (var pair in pairs.OthersAsync(Places, cancellation))
        {
            if (!pair.IsDecided && pair.Comparison.Kind == FindingKind.SameGathering)
            {
                leftOut++;
                continue;
            }

            estimate.Add(pair.Comparison.Evidence, isSame: false);
            judged.Add("other gatherings", pair);
            report("others", estimate.Others);
        }

        await AddWaitingAsync(judged, cancellation);
        return new(
            estimate.Same, estimate.Others, leftOut, estimate.Lines(),
            await ChangesAsync(estimate.Judge(), judged, cancellation));
    }

    // The closest of what each waiting row was found with; an identity is no matter of weights.
    private async Task AddWaitingAsync(Judged judged, CancellationToken cancellation)
    {
        var found = db.Rows.AsNoTracking().Where(BatchRow.Waiting)
            .Where(row => row.Decision == null && row.Finding != null && row.Finding != FindingKind.Repeat)
            .Join(
                db.FoundMembers.Where(one => !db.FoundMembers.Any(closer => closer.RowId == one.RowId
                    && closer.Id < one.Id)),
                row => row.Id, one => one.RowId,
                (row, one) => new { row.Id, one.Evidence })
            .AsAsyncEnumerable();
        // The row's own finding weighs all that it met; here it is the pair alone.
        var present = new WeightEstimate().Judge();
        await foreach (var one in found.WithCancellation(cancellation))
        {
            var evidence = Evidence.FromPacked(one.Evidence);
            judged.Add("waiting rows", evidence, present(evidence), one.Id, null);
        }
    }

    private async Task<IReadOnlyList<Change>> ChangesAsync(
        Func<Evidence, FindingKind> judge, Judged judged, CancellationToken cancellation)
    {
        List<Change> changes = [];
        var moved = judged.Select(one => (one.Key.Of, one.Key.Now, Then: judge(one.Key.Evidence), Alike: one.Value))
            .Where(one => one.Then != one.Now)
            .GroupBy(one => (one.Of, one.Now, one.Then), one => one.Alike);
        foreach (var group in moved)
        {
            var some = group.SelectMany(alike => alike.Some).Take(MostNamed).ToList();
            changes.Add(new(
                group.Key.Of, group.Key.Now, group.Key.Then, group.Sum(alike => alike.Pairs),
                some[0].OtherId is null
                    ? await RowsAsync([.. some.Select(one => one.Id)], cancellation)
                    : await GatheringsAsync(some, cancellation)));
        }

        return changes;
    }

    private async Task<IReadOnlyList<string>> RowsAsync(IReadOnlyList<long> ids, CancellationToken cancellation) =>
        (await db.Rows.Where(row => ids.Contains(row.Id))
            .Join(db.Batches, row => row.BatchId, b => b.Id, (row, b) => new { b.Source.Name, row.Line })
            .OrderBy(row => row.Name).ThenBy(row => row.Line).ToListAsync(cancellation))
        .ConvertAll(row => $"{row.Name}, line {row.Line}");

    private async Task<IReadOnlyList<string>> GatheringsAsync(
        IReadOnlyList<(long Id, long? OtherId)> some, CancellationToken cancellation)
    {
        var ids = some.SelectMany(one => new[] { one.Id, one.OtherId!.Value }).Distinct().ToList();
        var labels = await db.Gatherings.Where(g => ids.Contains(g.Id))
            .Select(g => new { g.Id, g.Notes.RecordedBy, g.Notes.RecordNumber, g.Notes.EventDate })
            .ToDictionaryAsync(
                g => g.Id, g => $"{g.RecordedBy} {g.RecordNumber}, {g.EventDate}".Trim(' ', ','), cancellation);
        return [.. some.Select(one => $"{labels[one.Id]} and {labels[one.OtherId!.Value]}")];
    }
}
