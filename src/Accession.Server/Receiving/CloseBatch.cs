using Accession.Core.Accessions;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Closes a batch when its list was checked against the sheets, and keeps the check as it was.</summary>
public sealed class CloseBatch(AccessionDb db, InstitutionClock calendar, TimeProvider clock)
{
    /// <param name="SheetsInTransmittal">What the transmittal states; null when it states no number.</param>
    /// <param name="DifferingSeen">How many sheets were missing or extra when the curator looked; null for any.</param>
    public sealed record Request(long BatchId, int? SheetsInTransmittal, string? Note, int? DifferingSeen = null);

    /// <summary>How many sheets a check names as missing or extra: by it a page is known to be out of date.</summary>
    public static int Differing(TransmittalCheck check) =>
        check.Missing.Sum(sheets => sheets.Sheets) + check.Extra.Sum(sheets => sheets.Sheets);

    public Task<Outcome<long>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "close a batch", clock.GetUtcNow().UtcDateTime, request.Note);
        return db.CarryOutAsync(door, act, () => CloseAsync(request, door, act, cancellation), cancellation);
    }

    private async Task<Outcome<long>> CloseAsync(Request request, Door door, Act act, CancellationToken cancellation)
    {
        if (!door.By.Roles.Contains(Role.Curator))
        {
            return new Refusal(RefusalKind.NotAllowed, "Closing a batch is for curators.");
        }

        // Held: who numbers a sheet of it, or settles a row, comes before or is told.
        var batch = await db.Batches.Held().SingleOrDefaultAsync(
            b => b.Id == request.BatchId && b.JoinedToBatchId == null, cancellation);
        if (batch is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no batch {request.BatchId}.");
        }

        if (batch.ClosedActId is null
            && await BatchBusy.WhyNotNowAsync(db, batch.Id, cancellation) is { } busy)
        {
            return busy;
        }

        var check = await TransmittalChecks.OfAsync(db, batch.Id, request.SheetsInTransmittal, cancellation);
        if (check is null)
        {
            return new Refusal(RefusalKind.Conflict,
                "Nothing of this batch is in the register yet. Take its rows in, and number the sheets, first.");
        }

        if (batch.ClosedActId is null && request.DifferingSeen is { } seen && seen != Differing(check))
        {
            return new Refusal(RefusalKind.Conflict,
                "Sheets were numbered or counted in the meantime. The batch was not closed; look at what is missing "
                + "and extra again.");
        }

        await db.SaveChangesAsync(cancellation);
        var entry = batch.Close(check, calendar.Day(act.At), act);
        if (entry.IsRefused)
        {
            return entry.Refusals.ToList();
        }

        db.Add(entry.Value);
        return batch.Id;
    }
}
