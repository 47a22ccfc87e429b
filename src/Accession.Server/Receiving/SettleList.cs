using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Settles what holds for a list as a whole: which column means what, and whether day or month comes first. Its rows
/// are then read again.
/// </summary>
public sealed class SettleList(AccessionDb db, TimeProvider clock)
{
    public Task<Outcome<long>> MatchAsync(
        long batchId, IReadOnlyDictionary<int, string> chosen, Door door, CancellationToken cancellation) =>
        SettleAsync(batchId, "match the columns of a list", door, batch => Match(batch, chosen), cancellation);

    public Task<Outcome<long>> OrderAsync(
        long batchId, DayMonthOrder order, Door door, CancellationToken cancellation) =>
        SettleAsync(batchId, "settle day and month", door, batch => batch.SettleOrder(order), cancellation);

    /// <summary>Settles whether its sheets bear the numbers that they keep, or get theirs here.</summary>
    public Task<Outcome<long>> NumbersAsync(
        long batchId, bool carriesNumbers, Door door, CancellationToken cancellation) =>
        SettleAsync(
            batchId, "say whether sheets bear their numbers", door,
            async batch =>
            {
                var isDecided = await db.Rows.AnyAsync(
                    row => row.BatchId == batchId && row.Decision != null, cancellation);
                return isDecided
                    ? new(RefusalKind.Conflict,
                        "Decisions were made about rows of this batch. Take them back first, under what was found.")
                    : batch.SettleNumbers(
                        carriesNumbers,
                        await db.Accessions.AnyAsync(lot => lot.BatchId == batchId, cancellation));
            },
            cancellation);

    private Task<Outcome<long>> SettleAsync(
        long batchId, string what, Door door, Func<Batch, Refusal?> settle, CancellationToken cancellation) =>
        SettleAsync(batchId, what, door, batch => Task.FromResult(settle(batch)), cancellation);

    private Task<Outcome<long>> SettleAsync(
        long batchId, string what, Door door, Func<Batch, Task<Refusal?>> settle, CancellationToken cancellation)
    {
        var act = Act.Of(door, what, clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<long>(
            door, act,
            async () =>
            {
                var batch = await db.Batches.Include(b => b.Source).Include(b => b.Lists.OrderBy(l => l.Id))
                    .SingleOrDefaultAsync(b => b.Id == batchId, cancellation);
                var refusal = batch is null
                    ? new Refusal(RefusalKind.NotFound, $"There is no batch {batchId}.")
                    : await BatchBusy.WhyNotNowAsync(db, batchId, cancellation) ?? await settle(batch);
                if (refusal is not null)
                {
                    return refusal;
                }

                db.Add(WorkRow.Wanted(RereadRowsWork.Kind, batchId, act));
                return batchId;
            },
            cancellation);
    }

    private static Refusal? Match(Batch batch, IReadOnlyDictionary<int, string> chosen)
    {
        if (batch.Lists.LastOrDefault(list => list is { IsRead: true, RefusedBecause: null }) is not { } latest)
        {
            return new(RefusalKind.Conflict, "No list of this batch could be read yet.");
        }

        var shown = ListColumns.Match(latest.Headings, batch.Match, batch.CarriesNumbers);
        var match = shown;
        // Meanings are taken away before others are given: otherwise one that moves to another column would count as
        // lost there by accident, and would not be remembered as taken away.
        foreach (var (column, name) in chosen.OrderBy(pair => pair.Value.Length > 0).ThenBy(pair => pair.Key))
        {
            if (column < 0 || column >= shown.Columns.Count || (name.Length > 0 && ListField.Named(name) is null))
            {
                return new(RefusalKind.Invalid, "The list has other columns now. Look at them again.");
            }

            if ((shown.Columns[column].Field?.Name ?? "") != name)
            {
                match = match.With(column, ListField.Named(name));
            }
        }

        if (ListColumns.WhyNot(chosen.ToDictionary(pair => $"{pair.Key}", pair => pair.Value)) is { } twice)
        {
            return twice;
        }

        batch.SettleMatch(ListColumns.Remember(match, batch.Match));
        batch.Source.Remember(ListColumns.Remember(match, batch.Source.RememberedMatch));
        return null;
    }
}
