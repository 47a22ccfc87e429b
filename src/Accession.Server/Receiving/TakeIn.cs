using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Numbers;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Takes the settled rows of a batch into the register: an accession under a number of its own, and a gathering for
/// each row with the sheets it promises. Rows settled later join the same accession.
/// </summary>
public sealed class TakeIn(AccessionDb db, NumberIssuer numbers, InstitutionClock calendar, TimeProvider clock)
{
    /// <param name="Statement">What is stated for a new accession; null when rows join one.</param>
    /// <param name="Joining">The pile counted again, when rows join an accession.</param>
    /// <param name="RowsShown">How many rows the curator saw; null when nobody looked.</param>
    public sealed record Request(
        long BatchId, AccessionLot.Statement? Statement, PileCount? Joining = null, int? RowsShown = null);

    public sealed record Taken(string AccessionNumber, int Rows, int Sheets);

    public Task<Outcome<Taken>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var note = request.Statement?.CountNote ?? request.Joining?.Note;
        var act = Act.Of(door, "take into the register", clock.GetUtcNow().UtcDateTime, note);
        return db.CarryOutAsync(door, act, () => TakeAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<Taken>> TakeAsync(Request request, Act act, CancellationToken cancellation)
    {
        var batch = await db.Batches.SingleOrDefaultAsync(b => b.Id == request.BatchId, cancellation);
        if (batch is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no batch {request.BatchId}.");
        }

        if (await BatchBusy.WhyNotNowAsync(db, batch.Id, cancellation) is { } busy)
        {
            return busy;
        }

        if (batch.AsksWhichList)
        {
            return new Refusal(RefusalKind.Conflict,
                $"This list is much like that of batch {batch.ResemblesBatchId}. Say on the page of the batch whether "
                + "it is that list again, or its rows could go in twice.");
        }

        var settled = db.Rows.Where(SettledRows.ToTakeIn).Where(row => row.BatchId == batch.Id);
        // Of one moment: somebody else may settle rows between two questions.
        var waiting = await settled.GroupBy(_ => 1)
            .Select(all => new { Rows = all.Count(), Sheets = all.Sum(row => row.Sheets) })
            .SingleOrDefaultAsync(cancellation);
        var (rows, sheets) = (waiting?.Rows ?? 0, waiting?.Sheets ?? 0);
        if (rows == 0)
        {
            return new Refusal(RefusalKind.Conflict,
                "No settled row is waiting: settle the open rows, and what was found, first.");
        }

        if (request.RowsShown is { } shown && shown != rows)
        {
            return new Refusal(RefusalKind.Conflict,
                $"Somebody else settled rows in the meantime: {rows:N0} are settled now, and you saw {shown:N0}. "
                + "Nothing was taken in; look again and repeat it.");
        }

        var lot = await db.Accessions.SingleOrDefaultAsync(l => l.BatchId == batch.Id, cancellation);
        var taken = lot is null
            ? await BeginAsync(batch, sheets, request.Statement, act, cancellation)
            : Joined(lot, sheets, request.Joining);
        if (taken.IsRefused)
        {
            return taken.Refusals.ToList();
        }

        batch.ChangeRows();
        await db.SaveChangesAsync(cancellation);
        db.Add(WorkRow.Wanted(TakeInRowsWork.Kind, taken.Value.Id, act));
        return new Taken(taken.Value.Number, rows, sheets);
    }

    private async Task<Outcome<AccessionLot>> BeginAsync(
        Batch batch, int sheets, AccessionLot.Statement? statement, Act act, CancellationToken cancellation)
    {
        if (statement is null)
        {
            return new Refusal(RefusalKind.Invalid, "State the terms and count the pile.");
        }

        // Asked before a number is issued: a refused accession uses none up.
        if (statement.Count.WhyNot(sheets) is { } refusal)
        {
            return refusal;
        }

        var seriesId = await db.Series.Where(series => series.Use == SeriesUse.Accessions)
            .OrderBy(series => series.Id).Select(series => (long?)series.Id).FirstOrDefaultAsync(cancellation);
        if (seriesId is null)
        {
            return new Refusal(RefusalKind.Conflict,
                "There is no series for accession numbers yet. Begin one on the page Series and rolls.");
        }

        var number = await numbers.NextForLotAsync(seriesId.Value, calendar.Day(act.At).Year, cancellation);
        if (number.IsRefused)
        {
            return number.Refusals.ToList();
        }

        var lot = AccessionLot.TakeIn(number.Value.Written, batch, sheets, statement, act);
        if (!lot.IsRefused)
        {
            db.Add(lot.Value);
        }

        return lot;
    }

    private static Outcome<AccessionLot> Joined(AccessionLot lot, int sheets, PileCount? count)
    {
        if (count is null)
        {
            return new Refusal(RefusalKind.Invalid,
                $"Count the whole pile again: with these rows the list promises {lot.SheetsOnList + sheets} sheets.");
        }

        return lot.Join(sheets, count.Value) is { } refusal ? refusal : lot;
    }
}
