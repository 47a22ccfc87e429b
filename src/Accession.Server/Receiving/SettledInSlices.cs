using Accession.Server.Background;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Goes through the settled rows of a batch in the order of its list, which is that of the pile, a slice at a time. Of
/// two sheets with one number the upper row so has the first.
/// </summary>
internal static class SettledInSlices
{
    /// <summary>Takes slice after slice until no settled row is left.</summary>
    /// <param name="db">The register.</param>
    /// <param name="batchId">The batch.</param>
    /// <param name="size">How many rows are taken at once.</param>
    /// <param name="before">How many an earlier attempt took, so that the figures go on where they stood.</param>
    /// <param name="take">Takes the rows of these keys into the register.</param>
    /// <param name="progress">Hears how many are taken.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task RunAsync(
        AccessionDb db, long batchId, int size, int before, Func<IReadOnlyList<long>, Task> take, WorkProgress progress,
        CancellationToken cancellation)
    {
        var settled = db.Rows.AsNoTracking().Where(SettledRows.ToTakeIn).Where(row => row.BatchId == batchId);
        var total = before + await settled.CountAsync(cancellation);
        var (line, id, done) = (0, 0L, before);
        while (true)
        {
            // From where the last slice ended, or each slice would pass over all rows before it again.
            var (afterLine, afterId) = (line, id);
            var rows = await settled
                .Where(row => row.Line > afterLine || (row.Line == afterLine && row.Id > afterId))
                .OrderBy(row => row.Line).ThenBy(row => row.Id).Take(size).Select(row => new { row.Id, row.Line })
                .ToListAsync(cancellation);
            if (rows.Count == 0)
            {
                return;
            }

            await take([.. rows.Select(row => row.Id)]);
            (line, id, done) = (rows[^1].Line, rows[^1].Id, done + rows.Count);
            await progress.ReportAsync(done, total, cancellation);
        }
    }
}
