using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Matching;
using Accession.Storage;
using Accession.Storage.Localities;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Makes what gatherings are compared by, from the rows they were read from. Done as they are taken in; and again for
/// those that were corrected since, or that an earlier version of the program compared by other things.
/// </summary>
public sealed class SignGatherings(
    AccessionDb db, MatchTable table, ListReaders listReaders, CorrectedRecords corrected)
{
    private const int Slice = 500;

    /// <summary>What a row is compared by, under its own key or that of the gathering it became.</summary>
    public static MatchTable.Entry Entry(long id, BatchRow row, long sourceId, ListReader reader) =>
        Entry(id, row, sourceId, reader, reading => reading);

    private static MatchTable.Entry Entry(
        long id, BatchRow row, long sourceId, ListReader reader, Func<RowReading, RowReading> asCorrected)
    {
        var cells = RowCells.FromJson(row.Cells);
        var identities = reader.IdentitiesOf(cells, sourceId, row.Identity);
        var signature = Signature.Of(asCorrected(reader.Read(cells)));
        return new(id, row.Line, signature, MatchKeys.Of(signature, identities))
        {
            CatalogNumber = identities.CatalogNumber,
            OccurrenceId = identities.OccurrenceID,
        };
    }

    /// <summary>Makes it for every gathering that has none of this version.</summary>
    /// <param name="report">Told how many are done, of those that were missing.</param>
    /// <param name="cancellation">Gives up; what is done is done.</param>
    public async Task CompleteAsync(FindDuplicates.Report report, CancellationToken cancellation)
    {
        var missing = db.Gatherings.Where(gathering => gathering.SignatureVersion < Signature.CurrentVersion);
        var total = await missing.CountAsync(cancellation);
        for (var done = 0; done < total;)
        {
            var slice = await SignAsync(missing, cancellation);
            if (slice.Count == 0)
            {
                return;
            }

            done += slice.Count;
            await report(done, total, cancellation);
        }
    }

    /// <summary>
    /// Makes it anew for every gathering that an act corrected, whatever was made meanwhile of what stood before.
    /// </summary>
    public async Task RepeatAsync(long actId, FindDuplicates.Report report, CancellationToken cancellation)
    {
        var changed = db.Gatherings.Where(g => db.Corrections.Any(c => c.ActId == actId && c.GatheringId == g.Id));
        var total = await changed.CountAsync(cancellation);
        var (after, done) = (0L, 0);
        while (true)
        {
            var from = after;
            var slice = await SignAsync(changed.Where(g => g.Id > from), cancellation);
            if (slice.Count == 0)
            {
                return;
            }

            (after, done) = (slice[^1], done + slice.Count);
            await report(done, total, cancellation);
        }
    }

    private async Task<List<long>> SignAsync(IQueryable<Gathering> gatherings, CancellationToken cancellation)
    {
        var pairs = await gatherings.OrderBy(gathering => gathering.Id).Take(Slice)
            .Join(
                db.Rows, gathering => gathering.BatchRowId, row => row.Id,
                (gathering, row) => new { gathering.Id, Row = row })
            .OrderBy(pair => pair.Id)
            .AsNoTracking().ToListAsync(cancellation);
        if (pairs.Count == 0)
        {
            return [];
        }

        List<MatchTable.Entry> entries = [];
        var asCorrected = await corrected.AsCorrectedAsync([.. pairs.Select(pair => pair.Id)], cancellation);
        foreach (var ofBatch in pairs.GroupBy(pair => pair.Row.BatchId))
        {
            var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
                .SingleAsync(b => b.Id == ofBatch.Key, cancellation);
            var readers = listReaders.OfAll(batch);
            entries.AddRange(ofBatch.Select(pair => Entry(
                pair.Id, pair.Row, batch.SourceId, readers[pair.Row.FirstListId],
                reading => asCorrected(pair.Id, reading))));
        }

        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        await table.KeepAsync(entries, cancellation);
        await transaction.CommitAsync(cancellation);
        return [.. pairs.Select(pair => pair.Id)];
    }
}
