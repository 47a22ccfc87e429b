using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Makes a gathering of each settled row of an accession's batch, in short slices under the act that took them in. Its
/// subject is the accession. A row that became a gathering is passed over, so it can be begun again anywhere.
/// </summary>
public sealed class TakeInRowsWork(AccessionDb db, InstitutionClock clock) : IWork
{
    public const string Kind = "take rows in";

    private const int Slice = 200;

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        var lot = await db.Accessions.AsNoTracking().SingleAsync(l => l.Id == progress.Subject, cancellation);
        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Id == lot.BatchId, cancellation);
        var readers = batch.Lists.Where(list => list.RefusedBecause is null).ToDictionary(
            list => list.Id,
            list => new ListReader(
                ListColumns.Match(list.Headings, batch.Match),
                new ListSettings(batch.DayMonthOrder, clock.Day(list.Act.At))));
        var settled = db.Rows.AsNoTracking().Where(SettledRows.ToTakeIn).Where(row => row.BatchId == batch.Id);
        var total = await settled.CountAsync(cancellation);
        for (var done = 0; done < total;)
        {
            var rows = await settled.OrderBy(row => row.Line).Take(Slice).ToListAsync(cancellation);
            if (rows.Count == 0)
            {
                break;
            }

            var gatherings = rows.Select(row => Gathering.TakeIn(
                lot.Id, progress.ActId, row.Id, readers[row.FirstListId].Read(RowCells.FromJson(row.Cells))));
            await TakeInAsync(gatherings, cancellation);
            done += rows.Count;
            await progress.ReportAsync(done, total, cancellation);
        }

        return lot.Number;
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
