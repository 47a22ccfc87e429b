using Accession.Server.Background;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Takes the settled rows of a lot's batch over, in short slices under the act that took them over. Its subject is the
/// lot. A row that is in the register is passed over, so it can be begun again anywhere; one that cannot go in is open
/// again, with the reason.
/// </summary>
public sealed class TakeOverRowsWork(AccessionDb db, ListReaders listReaders, TakeOverSlice slices) : IWork
{
    public const string Kind = "take sheets over";

    private const int Slice = 100;

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        var lot = await db.Accessions.AsNoTracking().SingleAsync(l => l.Id == progress.Subject, cancellation);
        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Id == lot.BatchId, cancellation);
        var settled = db.Rows.AsNoTracking().Where(SettledRows.ToTakeIn).Where(row => row.BatchId == batch.Id);
        // What an earlier attempt took over counts too, so that the figures go on where they stood.
        var done = await db.Gatherings.CountAsync(g => g.AccessionId == lot.Id, cancellation);
        var total = done + await settled.CountAsync(cancellation);
        var takingOver = new GatheringsOfRows.Lot(lot.Id, progress.ActId, batch, listReaders.OfAll(batch));
        var (line, id) = (0, 0L);
        while (true)
        {
            // In the order of the list, so that of two sheets with one number the upper row has the first.
            var (afterLine, afterId) = (line, id);
            var rows = await settled
                .Where(row => row.Line > afterLine || (row.Line == afterLine && row.Id > afterId))
                .OrderBy(row => row.Line).ThenBy(row => row.Id).Take(Slice).Select(row => new { row.Id, row.Line })
                .ToListAsync(cancellation);
            if (rows.Count == 0)
            {
                break;
            }

            await slices.RunAsync(takingOver, [.. rows.Select(row => row.Id)], cancellation);
            (line, id, done) = (rows[^1].Line, rows[^1].Id, done + rows.Count);
            await progress.ReportAsync(done, total, cancellation);
        }

        await TakeInRowsWork.CountListAsync(db, lot.Id, cancellation);
        return lot.Number;
    }
}
