using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Storage;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Writes the gatherings of rows that go into the register, with what they are found by, in the transaction of the
/// caller: alike for rows that are taken in and for sheets that are taken over.
/// </summary>
public sealed class GatheringsOfRows(AccessionDb db, MatchTable table)
{
    /// <summary>The accession that the rows go into, under an act, with the readers of the batch's lists.</summary>
    public sealed record Lot(long Id, long ActId, Batch Batch, IReadOnlyDictionary<long, ListReader> Readers);

    /// <summary>Writes them and says of each row which gathering it became.</summary>
    /// <param name="lot">The accession.</param>
    /// <param name="rows">The rows.</param>
    /// <param name="beside">Adds what is to be written in the same way to the register, by row.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<Dictionary<long, Gathering>> SaveAsync(
        Lot lot, List<BatchRow> rows, Action<Dictionary<long, Gathering>> beside, CancellationToken cancellation)
    {
        if (rows.Count == 0)
        {
            return [];
        }

        var gatherings = rows.ToDictionary(row => row.Id, row => Gathering.TakeIn(
            lot.Id, lot.ActId, row.Id, lot.Readers[row.FirstListId].Read(RowCells.FromJson(row.Cells))));
        db.AddRange(gatherings.Values);
        beside(gatherings);
        await db.SaveChangesAsync(cancellation);
        await table.KeepAsync(
            [.. rows.Select(row => SignGatherings.Entry(
                gatherings[row.Id].Id, row, lot.Batch.SourceId, lot.Readers[row.FirstListId]))],
            cancellation);
        var ids = gatherings.Keys.ToList();
        await db.Rows.Where(row => ids.Contains(row.Id)).ExecuteUpdateAsync(
            row => row.SetProperty(
                r => r.GatheringId,
                r => db.Gatherings.Where(g => g.BatchRowId == r.Id).Select(g => (long?)g.Id).Single()),
            cancellation);
        return gatherings;
    }
}
