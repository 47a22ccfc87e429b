using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Storage;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Makes what gatherings are compared by, from the rows they were read from. Done as they are taken in; and again for
/// those that an earlier version of the program took in, or compared by other things.
/// </summary>
public sealed class SignGatherings(AccessionDb db, MatchTable table, ListReaders listReaders)
{
    private const int Slice = 500;

    /// <summary>What a row is compared by, under its own key or that of the gathering it became.</summary>
    public static MatchTable.Entry Entry(long id, BatchRow row, long sourceId, ListReader reader)
    {
        var cells = RowCells.FromJson(row.Cells);
        var identities = reader.IdentitiesOf(cells, sourceId, row.Identity);
        var signature = Signature.Of(reader.Read(cells));
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
            var pairs = await missing.OrderBy(gathering => gathering.Id).Take(Slice)
                .Join(
                    db.Rows, gathering => gathering.BatchRowId, row => row.Id,
                    (gathering, row) => new { gathering.Id, Row = row })
                .AsNoTracking().ToListAsync(cancellation);
            if (pairs.Count == 0)
            {
                return;
            }

            List<MatchTable.Entry> entries = [];
            foreach (var ofBatch in pairs.GroupBy(pair => pair.Row.BatchId))
            {
                var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
                    .SingleAsync(b => b.Id == ofBatch.Key, cancellation);
                var readers = listReaders.OfAll(batch);
                entries.AddRange(ofBatch.Select(pair =>
                    Entry(pair.Id, pair.Row, batch.SourceId, readers[pair.Row.FirstListId])));
            }

            await using (var transaction = await db.Database.BeginTransactionAsync(cancellation))
            {
                await table.KeepAsync(entries, cancellation);
                await transaction.CommitAsync(cancellation);
            }

            done += pairs.Count;
            await report(done, total, cancellation);
        }
    }
}
