using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>An accession with sheets to number, or to scan back.</summary>
public sealed record ListedPile(string Number, string Source, DateTime TakenInAt, int Left, int ToScanBack, long Id)
{
    /// <summary>The piles that wait, the oldest first.</summary>
    /// <param name="after">The accession behind which to begin; null for the first.</param>
    /// <param name="take">How many at most.</param>
    public static async Task<IReadOnlyList<ListedPile>> AfterAsync(
        AccessionDb db, long? after, int take, CancellationToken cancellation) =>
        await db.Accessions
            .Where(lot => after == null || lot.Id > after)
            .Select(lot => new
            {
                lot.Id,
                lot.Number,
                lot.Act.At,
                Source = db.Batches.Where(b => b.Id == lot.BatchId).Select(b => b.Source.Name).Single(),
                Left = db.Gatherings.Where(g => g.AccessionId == lot.Id).Sum(g => g.SheetsExpected - g.SheetsNumbered),
                ToScanBack = db.Specimens.Count(
                    s => s.Gathering.AccessionId == lot.Id && s.Parts.Any(p => !p.IsNumbered && !p.IsFromBefore)),
            })
            .Where(lot => lot.Left > 0 || lot.ToScanBack > 0)
            .OrderBy(lot => lot.Id)
            .Take(take)
            .Select(lot => new ListedPile(lot.Number, lot.Source, lot.At, lot.Left, lot.ToScanBack, lot.Id))
            .ToListAsync(cancellation);
}
