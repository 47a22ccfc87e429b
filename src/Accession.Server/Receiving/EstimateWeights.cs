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
    /// <param name="Others">Pairs that meet in a key and are not.</param>
    /// <param name="LeftOut">
    /// Pairs that look like one gathering and that nobody has decided: they are neither.
    /// </param>
    /// <param name="Lines">The levels.</param>
    /// <param name="Changes">What would change.</param>
    public sealed record Estimated(
        int Same, int Others, int LeftOut, IReadOnlyList<WeightEstimate.Line> Lines, IReadOnlyList<Change> Changes);

    private sealed record Judged(string Of, Evidence Evidence, FindingKind Now, long Id, long? OtherId);

    public async Task<Estimated> RunAsync(Report report, CancellationToken cancellation)
    {
        var estimate = new WeightEstimate();
        List<Judged> judged = [];
        var leftOut = 0;
        await foreach (var pair in pairs.SameAsync(cancellation))
        {
            estimate.Add(pair.Comparison.Evidence, isSame: true);
            judged.Add(Of("kept as duplicates", pair));
            report("duplicates", estimate.Same);
        }

        await foreach (var pair in pairs.OthersAsync(Places, cancellation))
        {
            if (pair.Comparison.Kind == FindingKind.SameGathering)
            {
                leftOut++;
                continue;
            }

            estimate.Add(pair.Comparison.Evidence, isSame: false);
            judged.Add(Of("other gatherings", pair));
            report("others", estimate.Others);
        }

        judged.AddRange(await WaitingAsync(cancellation));
        return new(
            estimate.Same, estimate.Others, leftOut, estimate.Lines(),
            await ChangesAsync(estimate, judged, cancellation));
    }

    private static Judged Of(string what, JudgedPairs.Pair pair) =>
        new(what, pair.Comparison.Evidence, pair.Comparison.Kind, pair.GatheringId, pair.OtherId);

    // The closest of what each waiting row was found with; an identity is no matter of weights.
    private async Task<IEnumerable<Judged>> WaitingAsync(CancellationToken cancellation)
    {
        var found = await db.Rows.AsNoTracking().Where(BatchRow.Waiting)
            .Where(row => row.Decision == null && row.Finding != null && row.Finding != FindingKind.Repeat)
            .Join(
                db.FoundMembers.Where(one => !db.FoundMembers.Any(closer => closer.RowId == one.RowId
                    && closer.Id < one.Id)),
                row => row.Id, one => one.RowId,
                (row, one) => new { row.Id, one.Evidence })
            .ToListAsync(cancellation);
        // The row's own finding weighs all that it met; here it is the pair alone.
        var present = new WeightEstimate();
        return found.Select(one => (one.Id, Evidence: Evidence.FromPacked(one.Evidence))).Select(one => new Judged(
            "waiting rows", one.Evidence, present.KindOf(one.Evidence), one.Id, null));
    }

    private async Task<IReadOnlyList<Change>> ChangesAsync(
        WeightEstimate estimate, IEnumerable<Judged> judged, CancellationToken cancellation)
    {
        List<Change> changes = [];
        var moved = judged.Select(one => (Pair: one, Then: estimate.KindOf(one.Evidence)))
            .Where(one => one.Then != one.Pair.Now)
            .GroupBy(one => (one.Pair.Of, one.Pair.Now, one.Then));
        foreach (var group in moved)
        {
            var some = group.Take(MostNamed).Select(one => one.Pair).ToList();
            changes.Add(new(
                group.Key.Of, group.Key.Now, group.Key.Then, group.Count(),
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
        IReadOnlyList<Judged> some, CancellationToken cancellation)
    {
        var ids = some.SelectMany(one => new[] { one.Id, one.OtherId!.Value }).Distinct().ToList();
        var labels = await db.Gatherings.Where(g => ids.Contains(g.Id))
            .Select(g => new { g.Id, g.Notes.RecordedBy, g.Notes.RecordNumber, g.Notes.EventDate })
            .ToDictionaryAsync(
                g => g.Id, g => $"{g.RecordedBy} {g.RecordNumber}, {g.EventDate}".Trim(' ', ','), cancellation);
        return [.. some.Select(one => $"{labels[one.Id]} and {labels[one.OtherId!.Value]}")];
    }
}
