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
        var takingOver = new GatheringsOfRows.Lot(lot.Id, progress.ActId, batch, listReaders.OfAll(batch));
        await SettledInSlices.RunAsync(
            db, batch.Id, Slice, before: await db.Gatherings.CountAsync(g => g.AccessionId == lot.Id, cancellation),
            rows => slices.RunAsync(takingOver, rows, cancellation), progress, cancellation);
        await TakeInRowsWork.CountListAsync(db, lot.Id, cancellation);
        return lot.Number;
    }
}
