using System.Text.Json;
using Accession.Core.Batches;
using Accession.Server.Background;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Reads the rows of a batch again after something was settled for the list as a whole: its subject is the batch.
/// </summary>
public sealed class RereadRowsWork(AccessionDb db, ListReaders listReaders) : IWork
{
    public const string Kind = "read rows again";

    private const int Slice = 1000;

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        var batchId = progress.Subject;
        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Id == batchId, cancellation);
        var readers = listReaders.OfAll(batch);
        var latest = batch.Lists.Where(list => list is { IsRead: true, RefusedBecause: null }).Max(list => list.Id);
        var all = db.Rows.AsNoTracking().Where(row => row.BatchId == batchId);
        var total = await all.CountAsync(cancellation);
        var dates = new OrderTally();
        long after = 0;
        for (var done = 0; done < total;)
        {
            var rows = await all.Where(row => row.Id > after).OrderBy(row => row.Id).Take(Slice)
                .ToListAsync(cancellation);
            if (rows.Count == 0)
            {
                break;
            }

            dates = rows.Where(row => row.LastListId == latest).Aggregate(
                dates, (tally, row) => Reckon(tally, row, readers[row.FirstListId]));
            await RewriteAsync(batchId, [.. rows.Where(row => row.GatheringId is null)], readers, cancellation);
            after = rows[^1].Id;
            done += rows.Count;
            await progress.ReportAsync(done, total, cancellation);
        }

        await FinishAsync(latest, dates, progress, cancellation);
        return null;
    }

    private static OrderTally Reckon(OrderTally tally, BatchRow row, ListReader reader)
    {
        var (evidence, text) = reader.OrderEvidence(RowCells.FromJson(row.Cells));
        return tally.With(row.Line, text, evidence);
    }

    // Another column may be the date now, with other dates that need an answer.
    private async Task FinishAsync(
        long listId, OrderTally dates, WorkProgress progress, CancellationToken cancellation)
    {
        var list = await db.Lists.SingleAsync(l => l.Id == listId, cancellation);
        list.Reckon(JsonSerializer.Serialize(dates));
        var act = await db.Acts.SingleAsync(a => a.Id == progress.ActId, cancellation);
        db.Add(WorkRow.Wanted(FindDuplicatesWork.Kind, progress.Subject, act));
        await ComparePermitsWork.WantAsync(db, progress.Subject, act, cancellation);
        await db.SaveChangesAsync(cancellation);
    }

    private async Task RewriteAsync(
        long batchId, List<BatchRow> rows, IReadOnlyDictionary<long, ListReader> readers,
        CancellationToken cancellation)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        foreach (var ofList in rows.GroupBy(row => row.LastListId))
        {
            var staged = ofList.Select(row => Stage(row, readers[row.FirstListId])).ToList();
            await db.Kind.Rows.RewriteAsync(db, new RowSlice(batchId, ofList.Key, staged, []), cancellation);
        }

        await transaction.CommitAsync(cancellation);
    }

    private static StagedRow Stage(BatchRow row, ListReader reader)
    {
        var reading = reader.Read(RowCells.FromJson(row.Cells));
        return new(
            row.Id, row.Line, row.Identity, row.Occurrence, reading.PairKey, row.Cells, reading.Sheets,
            [.. reading.Faults.Select(fault => RowStaging.Of(fault, row.Line))])
        {
            CatalogNumber = reading.CatalogNumber,
        };
    }
}
