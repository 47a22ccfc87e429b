using System.Globalization;
using System.Linq.Expressions;
using Accession.Core.Batches;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Pairs rows of a list with those they correct where the slip was in what rows are known by: the collector's number or
/// name. A row that looks like one in the register is held until a curator says whether it is the same.
/// </summary>
internal sealed class LikeRows(AccessionDb db, ListReaders readers)
{
    /// <summary>The question of such a row.</summary>
    public const string Question =
        "A row like this one was taken into the register, and no longer stands in the list. If this is its correction, "
        + "tick it and say so: it goes in only once. If it is another gathering, take it as written.";

    private const int Chunk = 500;

    // What is compared is held in memory, and nobody else can write meanwhile. A correction changes a few rows; where
    // thousands are gone and others came, only collector and number tell which belong together.
    private const int MostCompared = 5000;

    /// <summary>Rows that replace one of the register and do not lead to its gathering: the question is open.</summary>
    public static Expression<Func<BatchRow, bool>> AreAsked(AccessionDb db) => row =>
        row.GatheringId == null && row.TakenAsWrittenActId == null
        && db.Rows.Any(old => old.SupersededById == row.Id && old.GatheringId != null);

    /// <summary>Pairs what collector and number left unpaired; answers how many rows are changed by it.</summary>
    public async Task<int> PairAsync(long batchId, long listId, CancellationToken cancellation)
    {
        var gone = db.Rows.AsNoTracking().Where(row => row.BatchId == batchId && row.LastListId != listId
            && row.SupersededById == null && (row.WithdrawnInListId == null || row.GatheringId != null));
        var fresh = db.Rows.AsNoTracking().Where(row => row.BatchId == batchId && row.LastListId == listId
            && (row.FirstListId == listId || row.SupersededById != null || row.WithdrawnInListId != null)
            && !db.Rows.Any(old => old.SupersededById == row.Id));
        var (missing, added) = (await gone.CountAsync(cancellation), await fresh.CountAsync(cancellation));
        if (missing is 0 or > MostCompared || added is 0 or > MostCompared)
        {
            return 0;
        }

        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Id == batchId, cancellation);
        var pairs = await PairAsync(gone, fresh, readers.OfAll(batch), cancellation);
        foreach (var chunk in pairs.Chunk(Chunk))
        {
            var values = string.Join(", ", chunk.Select(pair =>
                string.Create(CultureInfo.InvariantCulture, $"({pair.Old}, {pair.New})")));
            var sql = $"""
                WITH pair (old_id, new_id) AS (VALUES {values})
                UPDATE batch_row SET superseded_by_id = pair.new_id FROM pair WHERE batch_row.id = pair.old_id
                """;
            await db.Database.ExecuteSqlRawAsync(sql, cancellation);
        }

        return pairs.Count;
    }

    /// <summary>Holds every row of the list that replaces a row of the register without being known as it.</summary>
    public async Task AskAsync(long batchId, long listId, CancellationToken cancellation)
    {
        // A row that was held, and is corrected once more before anybody answered, hands its question on.
        await db.Database.ExecuteSqlAsync(
            $"""
            UPDATE batch_row SET superseded_by_id = between_them.superseded_by_id FROM batch_row AS between_them
            WHERE batch_row.batch_id = {batchId} AND batch_row.gathering_id IS NOT NULL
                AND between_them.id = batch_row.superseded_by_id AND between_them.gathering_id IS NULL
                AND between_them.superseded_by_id IS NOT NULL
            """, cancellation);
        var asked = db.Rows.Where(AreAsked(db)).Where(row => row.BatchId == batchId && row.LastListId == listId);
        // From the few rows that were replaced, never from all that stand.
        await db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO row_problem (batch_id, list_id, row_id, line, column_name, text, reason, blocks, from_file)
            SELECT r.batch_id, r.last_list_id, r.id, r.line, '',
                substr(max(g.recorded_by || ' ' || g.record_number), 1, 500), {Question}, {true}, {true}
            FROM batch_row old CROSS JOIN batch_row r CROSS JOIN gathering g
            WHERE old.batch_id = {batchId} AND old.superseded_by_id IS NOT NULL AND old.gathering_id IS NOT NULL
                AND r.id = old.superseded_by_id AND g.id = old.gathering_id
                AND r.last_list_id = {listId} AND r.gathering_id IS NULL AND r.taken_as_written_act_id IS NULL
            GROUP BY r.batch_id, r.last_list_id, r.id, r.line
            """, cancellation);
        await asked.ExecuteUpdateAsync(
            row => row.SetProperty(r => r.OpenProblems, r => r.OpenProblems + 1), cancellation);
    }

    private static async Task<List<(long Old, long New)>> PairAsync(
        IQueryable<BatchRow> gone, IQueryable<BatchRow> fresh, IReadOnlyDictionary<long, ListReader> readers,
        CancellationToken cancellation)
    {
        IReadOnlyList<long> Signatures(BatchRow row) =>
            RowLikeness.AllButOne(readers[row.FirstListId].Read(RowCells.FromJson(row.Cells)));

        // Rows with the same signatures are taken in the order of the list, as those of one collector and number are.
        var waiting = new Dictionary<long, Queue<long>>();
        await foreach (var row in gone.OrderBy(row => row.Line).ThenBy(row => row.Id).AsAsyncEnumerable()
            .WithCancellation(cancellation))
        {
            foreach (var signature in Signatures(row))
            {
                waiting.TryAdd(signature, new());
                waiting[signature].Enqueue(row.Id);
            }
        }

        var (pairs, taken) = (new List<(long, long)>(), new HashSet<long>());
        await foreach (var row in fresh.OrderBy(row => row.Line).ThenBy(row => row.Id).AsAsyncEnumerable()
            .WithCancellation(cancellation))
        {
            foreach (var signature in Signatures(row))
            {
                if (waiting.TryGetValue(signature, out var alike) && NextOf(alike, taken) is { } old)
                {
                    pairs.Add((old, row.Id));
                    break;
                }
            }
        }

        return pairs;
    }

    private static long? NextOf(Queue<long> alike, HashSet<long> taken)
    {
        while (alike.TryDequeue(out var id))
        {
            if (taken.Add(id))
            {
                return id;
            }
        }

        return null;
    }
}
