using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>A batch with settled rows that may go into the register now, and how many.</summary>
internal sealed record SettledBatch(Batch Batch, int Rows, int Sheets)
{
    /// <summary>The batch as it is now, or why none of its rows may go in.</summary>
    /// <param name="db">The register.</param>
    /// <param name="batchId">The batch.</param>
    /// <param name="rowsShown">How many settled rows the curator saw; null when nobody looked.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<Outcome<SettledBatch>> FindAsync(
        AccessionDb db, long batchId, int? rowsShown, CancellationToken cancellation)
    {
        var batch = await db.Batches.SingleOrDefaultAsync(b => b.Id == batchId, cancellation);
        if (batch is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no batch {batchId}.");
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

        // Of one moment: somebody else may settle rows between two questions.
        var waiting = await db.Rows.Where(SettledRows.ToTakeIn).Where(row => row.BatchId == batch.Id)
            .GroupBy(_ => 1)
            .Select(all => new { Rows = all.Count(), Sheets = all.Sum(row => row.Sheets) })
            .SingleOrDefaultAsync(cancellation);
        var (rows, sheets) = (waiting?.Rows ?? 0, waiting?.Sheets ?? 0);
        if (rows == 0)
        {
            return new Refusal(RefusalKind.Conflict, batch.CarriesNumbers
                ? "No settled row is waiting: settle the open rows first."
                : "No settled row is waiting: settle the open rows, and what was found, first.");
        }

        return rowsShown is { } shown && shown != rows
            ? new Refusal(RefusalKind.Conflict,
                $"Somebody else settled rows in the meantime: {rows:N0} are settled now, and you saw {shown:N0}. "
                + "Nothing was taken in; look again and repeat it.")
            : new SettledBatch(batch, rows, sheets);
    }
}
