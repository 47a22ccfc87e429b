using Accession.Core.Batches;
using Accession.Server.Background;
using Accession.Storage;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Takes the settled rows of an accession's batch in, in short slices under the act that took them in. Its subject is
/// the accession. A row that is in the register is passed over, so it can be begun again anywhere. Rows are looked for
/// once more before: one that belongs with something that came meanwhile stays behind, for a curator to settle.
/// </summary>
public sealed class TakeInRowsWork(AccessionDb db, ListReaders listReaders, FindDuplicates find, TakeInSlice slices)
    : IWork
{
    public const string Kind = "take rows in";

    private const int Slice = 200;

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        var lot = await db.Accessions.AsNoTracking().SingleAsync(l => l.Id == progress.Subject, cancellation);
        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Id == lot.BatchId, cancellation);
        await find.FindAsync(batch.Id, Lines.All, (_, _, token) => progress.ReportAsync(0, 0, token), cancellation);
        var takingIn = new GatheringsOfRows.Lot(lot.Id, progress.ActId, batch, listReaders.OfAll(batch));
        await SettledInSlices.RunAsync(
            db, batch.Id, Slice, before: 0, rows => slices.RunAsync(takingIn, rows, cancellation), progress,
            cancellation);
        await CountListAsync(db, lot.Id, cancellation);
        return lot.Number;
    }

    /// <summary>Counts the list of an accession by the rows that went in.</summary>
    internal static async Task CountListAsync(AccessionDb db, long lotId, CancellationToken cancellation)
    {
        var lot = await db.Accessions.SingleAsync(l => l.Id == lotId, cancellation);
        var kept = await db.Gatherings.Where(g => g.AccessionId == lotId)
            .Join(db.Rows, g => g.BatchRowId, row => row.Id, (_, row) => row.Sheets).SumAsync(cancellation);
        var leaving = await db.SetAside.Where(s => s.AccessionId == lotId).SumAsync(s => s.Sheets, cancellation);
        lot.CountList(kept + leaving);
        await db.SaveChangesAsync(cancellation);
    }
}
