using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Server.Background;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Makes a gathering of each settled row of an accession's batch, in short slices under the act that took them in. Its
/// subject is the accession. A row that became a gathering is passed over, so it can be begun again anywhere.
/// </summary>
public sealed class TakeInRowsWork(AccessionDb db, ListReaders listReaders) : IWork
{
    public const string Kind = "take rows in";

    private const int Slice = 200;

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        var lot = await db.Accessions.AsNoTracking().SingleAsync(l => l.Id == progress.Subject, cancellation);
        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Id == lot.BatchId, cancellation);
        var readers = listReaders.OfAll(batch);
        var settled = db.Rows.AsNoTracking().Where(SettledRows.ToTakeIn).Where(row => row.BatchId == batch.Id);
        var total = await settled.CountAsync(cancellation);
        var (line, id, done) = (0, 0L, 0);
        while (true)
        {
            // In the order of the list, which is that of the pile; from where the last slice ended, or each slice would
            // pass over all rows before it again.
            var (afterLine, afterId) = (line, id);
            var rows = await settled
                .Where(row => row.Line > afterLine || (row.Line == afterLine && row.Id > afterId))
                .OrderBy(row => row.Line).ThenBy(row => row.Id).Take(Slice).ToListAsync(cancellation);
            if (rows.Count == 0)
            {
                return lot.Number;
            }

            var gatherings = rows.Select(row => Gathering.TakeIn(
                lot.Id, progress.ActId, row.Id, readers[row.FirstListId].Read(RowCells.FromJson(row.Cells))));
            await TakeInAsync(gatherings, cancellation);
            (line, id, done) = (rows[^1].Line, rows[^1].Id, done + rows.Count);
            await progress.ReportAsync(done, total, cancellation);
        }
    }

    private async Task TakeInAsync(IEnumerable<Gathering> gatherings, CancellationToken cancellation)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        List<Gathering> slice = [.. gatherings];
        db.AddRange(slice);
        await db.SaveChangesAsync(cancellation);
        var rows = slice.Select(gathering => gathering.BatchRowId).ToList();
        await db.Rows.Where(row => rows.Contains(row.Id)).ExecuteUpdateAsync(
            row => row.SetProperty(
                r => r.GatheringId,
                r => db.Gatherings.Where(g => g.BatchRowId == r.Id).Select(g => (long?)g.Id).Single()),
            cancellation);
        await transaction.CommitAsync(cancellation);
        db.ChangeTracker.Clear();
    }
}
