using Accession.Core.Batches;
using Accession.Storage;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Stages the rows of a batch for the join: what is compared of them in the order of the list, and their keys, of many
/// thousand rows together, in the order of the keys. A slice of keys then lies beside each other in the index, and a
/// short transaction writes a few pages of it instead of nearly all.
/// </summary>
internal sealed class StagedRows(AccessionDb db, MatchTable table, IReadOnlyDictionary<long, ListReader> readers)
{
    private const int Slice = 1000;
    private const int KeySlice = 10_000;
    private const int KeysHeld = 200_000;

    private readonly List<MatchTable.StagedKey> _keys = [];

    /// <summary>Stages them in transactions of its own.</summary>
    /// <returns>How many rows there were.</returns>
    public async Task<int> StageAsync(
        Batch batch, IQueryable<BatchRow> waiting, Func<int, CancellationToken, Task> report,
        CancellationToken cancellation)
    {
        var (line, id, done) = (0, 0L, 0);
        while (true)
        {
            var (afterLine, afterId) = (line, id);
            var rows = await waiting
                .Where(row => row.Line > afterLine || (row.Line == afterLine && row.Id > afterId))
                .OrderBy(row => row.Line).ThenBy(row => row.Id).Take(Slice).ToListAsync(cancellation);
            if (rows.Count == 0)
            {
                await StageKeysAsync(batch.Id, cancellation);
                return done;
            }

            await StageAsync(batch, rows, cancellation);
            if (_keys.Count >= KeysHeld)
            {
                await StageKeysAsync(batch.Id, cancellation);
            }

            (line, id, done) = (rows[^1].Line, rows[^1].Id, done + rows.Count);
            await report(done, cancellation);
        }
    }

    private async Task StageAsync(Batch batch, List<BatchRow> rows, CancellationToken cancellation)
    {
        var entries = rows.SideBySide(
            row => SignGatherings.Entry(row.Id, row, batch.SourceId, readers[row.FirstListId]));
        foreach (var entry in entries)
        {
            _keys.AddRange(entry.Keys.Select(key => new MatchTable.StagedKey(entry.Id, entry.Line, key)));
        }

        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        await table.StageAsync(entries, cancellation);
        await transaction.CommitAsync(cancellation);
    }

    private async Task StageKeysAsync(long batchId, CancellationToken cancellation)
    {
        _keys.Sort((one, other) => one.Key.Value.CompareTo(other.Key.Value));
        for (var first = 0; first < _keys.Count; first += KeySlice)
        {
            await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
            await table.StageKeysAsync(
                batchId, _keys.GetRange(first, Math.Min(KeySlice, _keys.Count - first)), cancellation);
            await transaction.CommitAsync(cancellation);
        }

        _keys.Clear();
    }
}
