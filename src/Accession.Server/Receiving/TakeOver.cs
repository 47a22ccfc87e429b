using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Storage.Numbers;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Takes the settled rows of a batch over whose sheets bear their numbers: as a lot of its own, for which nobody counts
/// a pile. The series whose numbers they bear go on behind these in the same act, so none is ever issued again. The
/// sheets themselves are written by <see cref="TakeOverRowsWork"/>.
/// </summary>
public sealed class TakeOver(
    AccessionDb db, NumberIssuer numbers, AccessionNumbers accessions, SeriesBehindBorne behind, TimeProvider clock)
{
    /// <param name="Conditions">Conditions under which they came; only for a new lot.</param>
    /// <param name="Hazards">What could hurt somebody; only for a new lot.</param>
    /// <param name="RowsShown">How many rows the curator saw; null when nobody looked.</param>
    public sealed record Request(long BatchId, string? Conditions, string? Hazards, int? RowsShown = null);

    public sealed record Taken(string AccessionNumber, int Rows);

    public Task<Outcome<Taken>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take sheets over", clock.GetUtcNow().UtcDateTime);
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
        if (!batch.CarriesNumbers)
        {
            return new Refusal(RefusalKind.Conflict,
                "The sheets of this batch get their numbers here: take it into the register, on the page of the "
                + "batch. If they bear numbers, say so there first.");
        }

        // Told here already, before the series are held: of two who take the same rows over, one repeats it.
        batch.ChangeRows();
        await db.SaveChangesAsync(cancellation);
        // In the order of their keys, as who closes all of them does: nobody waits in a circle.
        await db.Series.AsNoTracking().Held().OrderBy(series => series.Id).ToListAsync(cancellation);
        await numbers.HoldFromBeforeAsync(cancellation);
        var lot = await LotAsync(batch, sheets, request, act, cancellation);
        if (lot.IsRefused)
        {
            return lot.Refusals.ToList();
        }

        var settled = db.Rows.Where(SettledRows.ToTakeIn).Where(row => row.BatchId == batch.Id);
        if (await behind.GoOnAsync(settled, lot.Value.Number, act, cancellation) is { } refusal)
        {
            return refusal;
        }

        await db.SaveChangesAsync(cancellation);
        db.Add(WorkRow.Wanted(TakeOverRowsWork.Kind, lot.Value.Id, act));
        return new Taken(lot.Value.Number, rows);
    }

    private async Task<Outcome<AccessionLot>> LotAsync(
        Batch batch, int sheets, Request request, Act act, CancellationToken cancellation)
    {
        if (await db.Accessions.SingleOrDefaultAsync(l => l.BatchId == batch.Id, cancellation) is { } joined)
        {
            joined.JoinTakenOver(sheets);
            return joined;
        }

        var number = await accessions.NextAsync(act.At, cancellation);
        if (number.IsRefused)
        {
            return number.Refusals.ToList();
        }

        var lot = AccessionLot.TakeOver(number.Value, batch, sheets, request.Conditions, request.Hazards, act);
        if (!lot.IsRefused)
        {
            db.Add(lot.Value);
        }

        return lot;
    }
}
