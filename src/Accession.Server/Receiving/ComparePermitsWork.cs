using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Server.Background;
using Accession.Storage;
using Accession.Storage.Batches;
using Accession.Storage.Databases;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Compares the rows of a batch with its permits, in short slices: its subject is the batch. It can be begun again
/// anywhere, and comes after whatever else works on the batch.
/// </summary>
public sealed class ComparePermitsWork(AccessionDb db, ListReaders listReaders) : IWork
{
    public const string Kind = "compare rows with permits";

    private const int Slice = 1000;

    /// <summary>Wants the comparison after rows were read, where the batch has permits.</summary>
    internal static async Task WantAsync(AccessionDb db, long batchId, Act act, CancellationToken cancellation)
    {
        if (await db.Permits.AnyAsync(permit => db.WithJoined(batchId).Contains(permit.BatchId), cancellation))
        {
            db.Add(WorkRow.Wanted(Kind, batchId, act));
        }
    }

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        var batchId = progress.Subject;
        if (await BatchBusy.IsOtherwiseBusyAsync(db, batchId, progress.WorkId, cancellation))
        {
            throw new WorkMustWaitException("The batch is being worked on.");
        }

        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Id == batchId, cancellation);
        var permits = await db.Permits.AsNoTracking()
            .Where(p => db.WithJoined(batchId).Contains(p.BatchId) && p.EndedActId == null)
            .OrderBy(p => p.Id).ToListAsync(cancellation);
        var rule = new PermitRule(permits.Select(permit => permit.Terms));
        var readers = listReaders.OfAll(batch);
        var all = db.Rows.AsNoTracking().Where(row => row.BatchId == batchId);
        var total = await all.CountAsync(cancellation);
        var (after, done) = (0L, 0);
        while (true)
        {
            var from = after;
            var rows = await all.Where(row => row.Id > from).OrderBy(row => row.Id).Take(Slice)
                .Select(row => new StagedWarning(row.Id, row.FirstListId, row.Cells, row.PermitWarning))
                .ToListAsync(cancellation);
            if (rows.Count == 0)
            {
                return null;
            }

            await WarnAsync(rows, rule, readers, cancellation);
            (after, done) = (rows[^1].Id, done + rows.Count);
            await progress.ReportAsync(done, total, cancellation);
        }
    }

    private async Task WarnAsync(
        List<StagedWarning> rows, PermitRule rule, IReadOnlyDictionary<long, ListReader> readers,
        CancellationToken cancellation)
    {
        var changed = rows
            .Select(row => (Row: row, Warning: rule.Warning(readers[row.ListId].Read(RowCells.FromJson(row.Cells)))))
            .Where(row => row.Warning != row.Row.Was)
            .Select(row => new RowWarning(row.Row.Id, row.Warning))
            .ToList();
        if (changed.Count == 0)
        {
            return;
        }

        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        await db.Kind.Rows.WarnAsync(db, changed, cancellation);
        await transaction.CommitAsync(cancellation);
    }

    private sealed record StagedWarning(long Id, long ListId, string Cells, string? Was);
}
