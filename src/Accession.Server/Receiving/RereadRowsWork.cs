using Accession.Core.Batches;
using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Reads the rows of a batch again after something was settled for the list as a whole: its subject is the batch.</summary>
public sealed class RereadRowsWork(AccessionDb db, InstitutionClock clock) : IWork
{
    public const string Kind = "read rows again";

    private const int Slice = 1000;

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        var batchId = progress.Subject;
        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Id == batchId, cancellation);
        var readers = batch.Lists.Where(list => list.Headings.Length > 2).ToDictionary(list => list.Id, list => Reader(batch, list));
        var waiting = db.Rows.AsNoTracking().Where(row => row.BatchId == batchId && row.GatheringId == null);
        var total = await waiting.CountAsync(cancellation);
        long after = 0;
        for (var done = 0; done < total;)
        {
            var rows = await waiting.Where(row => row.Id > after).OrderBy(row => row.Id).Take(Slice)
                .ToListAsync(cancellation);
            if (rows.Count == 0)
            {
                break;
            }

            await RewriteAsync(batchId, rows, readers, cancellation);
            after = rows[^1].Id;
            done += rows.Count;
            await progress.ReportAsync(done, total, cancellation);
        }

        return null;
    }

    private async Task RewriteAsync(
        long batchId, List<BatchRow> rows, Dictionary<long, ListReader> readers, CancellationToken cancellation)
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
            [.. reading.Faults.Select(fault => RowStaging.Of(fault, row.Line))]);
    }

    private ListReader Reader(Batch batch, ReceivedList list) => new(
        ListColumns.Match(list.Headings, batch.Match),
        new ListSettings(batch.DayMonthOrder, clock.Day(list.Act.At)));
}
