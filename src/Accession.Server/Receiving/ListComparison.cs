using System.Text.Json;
using Accession.Core.Batches;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Compares a list with those that came before it from the same source.</summary>
internal sealed class ListComparison(AccessionDb db, ListReaders readers)
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

    /// <summary>Whether the source sent a list before that this one may be again.</summary>
    public Task<bool> HasEarlierAsync(ReceivedList list, CancellationToken cancellation) =>
        Earlier(list).AnyAsync(cancellation);

    /// <summary>
    /// The earlier batch of the source that this list is most like; null when it is like none. Rows of that batch that
    /// were replaced or withdrawn count too: they may be what comes again.
    /// </summary>
    public async Task<Resemblance?> MostAlikeAsync(
        ReceivedList list, IReadOnlyList<RowKeys> rows, CancellationToken cancellation)
    {
        var earlier = Earlier(list);
        if (rows.Count == 0 || !await earlier.AnyAsync(cancellation))
        {
            return null;
        }

        var identities = rows.CountBy(row => row.Identity).ToDictionary();
        var toTheLetter = await SharedAsync(
            identities, keys => db.Rows.Where(row => keys.Contains(row.Identity)).Select(
                row => new Key { BatchId = row.BatchId, Text = row.Identity }), earlier, cancellation);
        var pairKeys = rows.Where(row => row.PairKey.Length > 0).CountBy(row => row.PairKey).ToDictionary();
        var byNumber = await SharedAsync(
            pairKeys, keys => db.Rows.Where(row => keys.Contains(row.PairKey)
                && row.SupersededById == null && row.WithdrawnInListId == null).Select(
                row => new Key { BatchId = row.BatchId, Text = row.PairKey }), earlier, cancellation);
        var batches = toTheLetter.Keys.Union(byNumber.Keys).ToList();
        var standing = await db.Rows.Where(SettledRows.Standing).Where(row => batches.Contains(row.BatchId))
            .GroupBy(row => row.BatchId)
            .Select(group => new { BatchId = group.Key, Count = group.Count() })
            .ToDictionaryAsync(group => group.BatchId, group => group.Count, cancellation);
        var found = batches.Select(batch =>
        {
            var same = toTheLetter.GetValueOrDefault(batch);
            var alike = Math.Max(same, byNumber.GetValueOrDefault(batch));
            return new Resemblance(batch, same, alike, rows.Count, standing.GetValueOrDefault(batch));
        });
        return found.Where(one => one.IsThatListAgain || one.MayBeThatList)
            .OrderByDescending(one => one.IsThatListAgain).ThenByDescending(one => one.ToTheLetter)
            .ThenByDescending(one => one.Alike).ThenBy(one => one.BatchId).FirstOrDefault();
    }

    private IQueryable<Batch> Earlier(ReceivedList list)
    {
        var (sourceId, batchId) = (list.Batch.SourceId, list.BatchId);
        return db.Batches.Where(
            batch => batch.SourceId == sourceId && batch.Id < batchId && batch.JoinedToBatchId == null
                // What is typed here from labels is no list that came: its rows are found as those of others are.
                && batch.Lists.All(earlier => earlier.KeptAs != ""));
    }

    private sealed class Key
    {
        public long BatchId { get; init; }

        public string Text { get; init; } = "";
    }

    // How many rows of the list each earlier batch has too, each row of either counted once.
    private static async Task<Dictionary<long, int>> SharedAsync(
        Dictionary<string, int> times, Func<string[], IQueryable<Key>> stored, IQueryable<Batch> earlier,
        CancellationToken cancellation)
    {
        var shared = new Dictionary<long, int>();
        foreach (var chunk in times.Keys.Chunk(Chunk))
        {
            var counts = await stored(chunk)
                .Where(key => earlier.Any(batch => batch.Id == key.BatchId))
                .GroupBy(key => new { key.BatchId, key.Text })
                .Select(group => new { group.Key.BatchId, group.Key.Text, Count = group.Count() })
                .ToListAsync(cancellation);
            foreach (var count in counts)
            {
                shared[count.BatchId] = shared.GetValueOrDefault(count.BatchId)
                    + Math.Min(count.Count, times[count.Text]);
            }
        }

        return shared;
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
        var like = new LikeRows(db, readers);
        var changed = await PairAsync(batch, id, cancellation) + await like.PairAsync(batch, id, cancellation);
        await LeadToGatheringsAsync(batch, id, cancellation);
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
        await like.AskAsync(batch, id, cancellation);
        var rows = await db.Rows.CountAsync(row => row.BatchId == batch && row.LastListId == id, cancellation);
        var notRead = await db.Problems.CountAsync(
            problem => problem.ListId == id && problem.RowId == null && problem.Blocks, cancellation);
        list.Finish(
            new ListCounts(rows, fresh - changed, changed, rows - fresh, withdrawn, notRead),
            JsonSerializer.Serialize(dates));
        db.Add(WorkRow.Wanted(FindDuplicatesWork.Kind, batch, list.Act));
        await ComparePermitsWork.WantAsync(db, batch, list.Act, cancellation);
        await db.SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
    }

    // The k-th new row of a collector and number stands in for the k-th missing one.
    private async Task<int> PairAsync(long batch, long list, CancellationToken cancellation) =>
        await db.Database.ExecuteSqlAsync(
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

    // A row that corrects one already in the register under the same collector and number leads to the same gathering,
    // so that it cannot be taken in a second time; nor when it was missing for a while.
    private Task<int> LeadToGatheringsAsync(long batch, long list, CancellationToken cancellation) =>
        db.Database.ExecuteSqlAsync(
            $"""
            WITH taken_in AS (
                SELECT superseded_by_id AS new_id, pair_key, max(gathering_id) AS gathering_id FROM batch_row
                WHERE batch_id = {batch} AND superseded_by_id IS NOT NULL AND gathering_id IS NOT NULL
                    AND pair_key <> ''
                GROUP BY superseded_by_id, pair_key)
            UPDATE batch_row SET gathering_id = taken_in.gathering_id FROM taken_in
            WHERE batch_row.id = taken_in.new_id AND batch_row.pair_key = taken_in.pair_key
                AND batch_row.last_list_id = {list} AND batch_row.gathering_id IS NULL
            """, cancellation);
}
