using Accession.Core.Accessions;
using Accession.Core.Gatherings;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Checks the list of a batch against its sheets, gathering by gathering, as the register has them.</summary>
internal static class TransmittalChecks
{
    private const int MostNamed = TransmittalCheck.MostNamed + 1;

    /// <summary>The check of a batch whose rows are in the register; null while none is.</summary>
    public static async Task<TransmittalCheck?> OfAsync(
        AccessionDb db, long batchId, int? sheetsInTransmittal, CancellationToken cancellation)
    {
        var lot = await db.Accessions.Where(l => l.BatchId == batchId)
            .Select(l => new { l.Id, l.SheetsOnList, l.SheetsInPile, l.Terms }).SingleOrDefaultAsync(cancellation);
        if (lot is null)
        {
            return null;
        }

        var rows = db.Rows.Where(row => row.BatchId == batchId);
        var gatherings = db.Gatherings.Where(g => g.AccessionId == lot.Id);
        return new(
            sheetsInTransmittal, lot.SheetsOnList,
            lot.Terms == AccessionTerms.TakenOver ? null : lot.SheetsInPile,
            await gatherings.SumAsync(g => g.SheetsNumbered, cancellation),
            await db.SetAside.Where(s => s.AccessionId == lot.Id).SumAsync(s => s.Sheets, cancellation),
            await rows.Where(SettledRows.Open).CountAsync(cancellation),
            await rows.Where(SettledRows.Found).CountAsync(cancellation),
            await rows.Where(SettledRows.ToTakeIn).CountAsync(cancellation),
            await MissingAsync(gatherings, cancellation),
            await ExtraAsync(db, gatherings, cancellation));
    }

    // In the order of the list, which is that of the pile.
    private static Task<List<TransmittalCheck.Differing>> MissingAsync(
        IQueryable<Gathering> gatherings, CancellationToken cancellation) =>
        gatherings.Where(g => g.SheetsNumbered < g.SheetsExpected).OrderBy(g => g.Id).Take(MostNamed)
            .Select(g => new TransmittalCheck.Differing(
                g.Id, g.Notes.RecordedBy, g.Notes.RecordNumber, g.Notes.NameVerbatim,
                g.SheetsExpected - g.SheetsNumbered))
            .ToListAsync(cancellation);

    private static Task<List<TransmittalCheck.Differing>> ExtraAsync(
        AccessionDb db, IQueryable<Gathering> gatherings, CancellationToken cancellation) =>
        gatherings.Join(db.Rows, g => g.BatchRowId, row => row.Id, (g, row) => new { Gathering = g, row.Sheets })
            .Where(pair => pair.Gathering.SheetsExpected > pair.Sheets).OrderBy(pair => pair.Gathering.Id)
            .Take(MostNamed)
            .Select(pair => new TransmittalCheck.Differing(
                pair.Gathering.Id, pair.Gathering.Notes.RecordedBy, pair.Gathering.Notes.RecordNumber,
                pair.Gathering.Notes.NameVerbatim, pair.Gathering.SheetsExpected - pair.Sheets))
            .ToListAsync(cancellation);
}
