using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Takes the settled rows of a batch into the register: an accession under a number of its own, and a gathering for
/// each row with the sheets it promises. Rows settled later join the same accession.
/// </summary>
public sealed class TakeIn(AccessionDb db, AccessionNumbers accessions, TimeProvider clock)
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
        var found = await SettledBatch.FindAsync(db, request.BatchId, request.RowsShown, cancellation);
        if (found.IsRefused)
        {
            return found.Refusals.ToList();
        }

        var (batch, rows, sheets) = found.Value;
        if (batch.CarriesNumbers)
        {
            return new Refusal(RefusalKind.Conflict,
                "The sheets of this batch bear their numbers: take them over, on the page of the batch.");
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

        var number = await accessions.NextAsync(act.At, cancellation);
        if (number.IsRefused)
        {
            return number.Refusals.ToList();
        }

        var lot = AccessionLot.TakeIn(number.Value, batch, sheets, statement, act);
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
