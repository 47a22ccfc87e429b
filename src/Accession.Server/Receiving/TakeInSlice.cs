using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Localities;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Takes a slice of settled rows in, in one transaction: a gathering for each row whose sheets stay, joined to the one
/// it is a duplicate of; sheets that leave are counted under theirs. What is found by keys goes with it.
/// </summary>
public sealed class TakeInSlice(
    AccessionDb db, MatchTable table, ProtectedPlaces places, TimeProvider clock)
{
    /// <summary>The accession that takes the rows in, under an act, with the readers of the batch's lists.</summary>
    public sealed record Lot(long Id, long ActId, Batch Batch, IReadOnlyDictionary<long, ListReader> Readers);

    public async Task RunAsync(Lot lot, IReadOnlyList<BatchRow> rows, CancellationToken cancellation)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        var own = rows.Where(row => row.Decision is null or RowDecision.Different).ToList();
        var became = await SaveAsync(lot, own, _ => null, cancellation);
        var roots = new DuplicateRoots(db, became);
        await roots.LoadAsync([.. rows.Except(own).Select(row => row.Id)], cancellation);
        List<(BatchRow Row, long? Root)> belonging = [];
        foreach (var row in rows.Except(own))
        {
            if (await roots.OfAsync(row.Id, cancellation) is { Waits: false, Gathering: var root })
            {
                belonging.Add((row, root));
            }
        }

        var rootOf = belonging.ToDictionary(pair => pair.Row.Id, pair => pair.Root);
        var kept = await SaveAsync(
            lot,
            [.. belonging.Where(pair => pair.Row.Decision == RowDecision.Keep || pair.Root is null)
                .Select(pair => pair.Row)],
            row => rootOf[row.Id], cancellation);
        await ProtectAsync(kept.Values, cancellation);
        foreach (var (row, root) in belonging.Where(pair => !kept.ContainsKey(pair.Row.Id)))
        {
            db.Add(SetAside.Of(row, lot.Id, root!.Value, roots.DecidedBy(row.Id)));
            await db.Rows.Where(r => r.Id == row.Id)
                .ExecuteUpdateAsync(r => r.SetProperty(one => one.SetAsideOfId, root), cancellation);
        }

        await db.SaveChangesAsync(cancellation);
        await table.ForgetAsync([.. own.Select(row => row.Id), .. belonging.Select(pair => pair.Row.Id)], cancellation);
        await transaction.CommitAsync(cancellation);
        db.ChangeTracker.Clear();
    }

    private async Task<Dictionary<long, Gathering>> SaveAsync(
        Lot lot, List<BatchRow> rows, Func<BatchRow, long?> duplicateOf, CancellationToken cancellation)
    {
        if (rows.Count == 0)
        {
            return [];
        }

        var gatherings = rows.ToDictionary(row => row.Id, row => Gathering.TakeIn(
            lot.Id, lot.ActId, row.Id, lot.Readers[row.FirstListId].Read(RowCells.FromJson(row.Cells)),
            duplicateOf(row)));
        db.AddRange(gatherings.Values);
        await db.SaveChangesAsync(cancellation);
        await table.KeepAsync(
            [.. rows.Select(row => SignGatherings.Entry(
                gatherings[row.Id].Id, row, lot.Batch.SourceId, lot.Readers[row.FirstListId]))],
            cancellation);
        var ids = gatherings.Keys.ToList();
        await db.Rows.Where(row => ids.Contains(row.Id)).ExecuteUpdateAsync(
            row => row.SetProperty(
                r => r.GatheringId,
                r => db.Gatherings.Where(g => g.BatchRowId == r.Id).Select(g => (long?)g.Id).Single()),
            cancellation);
        return gatherings;
    }

    // A duplicate would give away the place that is protected on the sheet it is a duplicate of.
    private async Task ProtectAsync(IEnumerable<Gathering> kept, CancellationToken cancellation)
    {
        foreach (var gathering in kept.Where(gathering => gathering.DuplicateOfId is not null))
        {
            await places.ProtectLikeAsync(
                gathering, gathering.DuplicateOfId!.Value, clock.GetUtcNow().UtcDateTime, cancellation);
        }
    }
}
