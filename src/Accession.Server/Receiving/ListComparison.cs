using System.Text.Json;
using Accession.Core.Batches;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Compares a list with those that came before it from the same source.</summary>
internal sealed class ListComparison(AccessionDb db)
{
    private const int Chunk = 500;

    /// <summary>Whether a list that came before this one from the same source is not stored to its end yet.</summary>
    public Task<bool> IsEarlierUnreadAsync(ReceivedList list, CancellationToken cancellation)
    {
        var sourceId = list.Batch.SourceId;
        return db.Work.AnyAsync(
            work => work.Kind == ReadListWork.Kind && work.FinishedAt == null && work.Subject < list.Id
                && db.Lists.Any(other => other.Id == work.Subject && other.Batch.SourceId == sourceId),
            cancellation);
    }

    /// <summary>
    /// The batch whose list this is again: the one that shares at least half of its rows with it, and half of whose
    /// rows it shares. A list that only borrows some rows is a list of its own.
    /// </summary>
    public async Task<Batch?> EarlierAsync(
        ReceivedList list, List<string> identities, CancellationToken cancellation)
    {
        var sourceId = list.Batch.SourceId;
        var candidates = db.Batches
            .Where(batch => batch.SourceId == sourceId && batch.Id < list.BatchId && batch.JoinedToBatchId == null);
        if (identities.Count == 0 || !await candidates.AnyAsync(cancellation))
        {
            return null;
        }

        var shared = new Dictionary<long, int>();
        var times = identities.CountBy(identity => identity).ToDictionary(pair => pair.Key, pair => pair.Value);
        foreach (var chunk in times.Keys.Chunk(Chunk))
        {
            var counts = await db.Rows
                .Where(row => chunk.Contains(row.Identity) && candidates.Any(batch => batch.Id == row.BatchId))
                .GroupBy(row => new { row.BatchId, row.Identity })
                .Select(group => new { group.Key.BatchId, group.Key.Identity, Count = group.Count() })
                .ToListAsync(cancellation);
            foreach (var count in counts)
            {
                shared[count.BatchId] = shared.GetValueOrDefault(count.BatchId)
                    + Math.Min(count.Count, times[count.Identity]);
            }
        }

        foreach (var (batchId, count) in shared.OrderByDescending(pair => pair.Value))
        {
            var standing = await db.Rows.CountAsync(
                row => row.BatchId == batchId && row.SupersededById == null && row.WithdrawnInListId == null,
                cancellation);
            if (count * 2 >= Math.Max(identities.Count, standing))
            {
                return await db.Batches.Include(batch => batch.Source).Include(batch => batch.Lists)
                    .SingleAsync(batch => batch.Id == batchId, cancellation);
            }
        }

        return null;
    }

    /// <summary>
    /// Ends the reading of a list, in one transaction: pairs corrected rows with the rows they correct, and marks those
    /// that no longer stand in it.
    /// </summary>
    public async Task FinishAsync(ReceivedList list, OrderTally dates, CancellationToken cancellation)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        var (batch, id) = (list.BatchId, list.Id);
        await db.Database.ExecuteSqlAsync(
            $"""
            DELETE FROM row_problem WHERE batch_id = {batch} AND list_id <> {id}
                AND row_id IN (SELECT id FROM batch_row WHERE batch_id = {batch} AND last_list_id = {id})
            """, cancellation);
        var fresh = await db.Database.SqlQuery<int>(
            $"""
            SELECT count(*) AS "Value" FROM batch_row WHERE batch_id = {batch} AND last_list_id = {id}
                AND (first_list_id = {id} OR superseded_by_id IS NOT NULL OR withdrawn_in_list_id IS NOT NULL)
            """).SingleAsync(cancellation);
        var changed = await PairAsync(batch, id, cancellation);
        await db.Rows
            .Where(row => row.BatchId == batch && row.LastListId == id
                && (row.SupersededById != null || row.WithdrawnInListId != null))
            .ExecuteUpdateAsync(
                row => row
                    .SetProperty(r => r.SupersededById, (long?)null)
                    .SetProperty(r => r.WithdrawnInListId, (long?)null),
                cancellation);
        var withdrawn = await db.Rows
            .Where(row => row.BatchId == batch && row.LastListId != id
                && row.SupersededById == null && row.WithdrawnInListId == null)
            .ExecuteUpdateAsync(row => row.SetProperty(r => r.WithdrawnInListId, id), cancellation);
        var rows = await db.Rows.CountAsync(row => row.BatchId == batch && row.LastListId == id, cancellation);
        var notRead = await db.Problems.CountAsync(
            problem => problem.ListId == id && problem.RowId == null && problem.Blocks, cancellation);
        list.Finish(
            new ListCounts(rows, fresh - changed, changed, rows - fresh, withdrawn, notRead),
            JsonSerializer.Serialize(dates));
        await db.SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
    }

    // The k-th new row of a collector and number stands in for the k-th missing one. A row that corrects one already
    // in the register leads to the same gathering, so that it cannot be taken in a second time; nor when it was
    // missing for a while.
    private async Task<int> PairAsync(long batch, long list, CancellationToken cancellation)
    {
        var paired = await db.Database.ExecuteSqlAsync(
            $"""
            WITH fresh AS (
                SELECT id, pair_key, row_number() OVER (PARTITION BY pair_key ORDER BY line) AS k FROM batch_row
                WHERE batch_id = {batch} AND last_list_id = {list} AND pair_key <> ''
                    AND (first_list_id = {list} OR superseded_by_id IS NOT NULL OR withdrawn_in_list_id IS NOT NULL)),
            gone AS (
                SELECT id, pair_key, row_number() OVER (
                    PARTITION BY pair_key ORDER BY coalesce(withdrawn_in_list_id, 0), line, id) AS k FROM batch_row
                WHERE batch_id = {batch} AND last_list_id <> {list} AND pair_key <> ''
                    AND superseded_by_id IS NULL AND (withdrawn_in_list_id IS NULL OR gathering_id IS NOT NULL)),
            pair AS (
                SELECT gone.id AS old_id, fresh.id AS new_id
                FROM gone JOIN fresh ON fresh.pair_key = gone.pair_key AND fresh.k = gone.k)
            UPDATE batch_row SET superseded_by_id = pair.new_id FROM pair WHERE batch_row.id = pair.old_id
            """, cancellation);
        await db.Database.ExecuteSqlAsync(
            $"""
            WITH taken_in AS (
                SELECT superseded_by_id AS new_id, max(gathering_id) AS gathering_id FROM batch_row
                WHERE batch_id = {batch} AND superseded_by_id IS NOT NULL AND gathering_id IS NOT NULL
                GROUP BY superseded_by_id)
            UPDATE batch_row SET gathering_id = taken_in.gathering_id FROM taken_in
            WHERE batch_row.id = taken_in.new_id AND batch_row.last_list_id = {list}
                AND batch_row.gathering_id IS NULL
            """, cancellation);
        return paired;
    }
}
