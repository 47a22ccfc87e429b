using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Takes back what was decided about a row that is not in the register yet, so that its finding is open again.
/// </summary>
public sealed class ReopenFinding(AccessionDb db, FindDuplicates find, TimeProvider clock)
{
    public sealed record Request(long BatchId, long RowId);

    /// <param name="Letter">When the letter was written that this does not recall; null when nobody wrote any.</param>
    public sealed record Reopened(int Line, DateTime? Letter);

    public Task<Outcome<Reopened>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take a decision back", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => ReopenAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<Reopened>> ReopenAsync(Request request, Act act, CancellationToken cancellation)
    {
        var held = await RowInHand.HoldAsync(db, request.BatchId, request.RowId, cancellation);
        if (held.IsRefused)
        {
            return held.Refusals.ToList();
        }

        var row = held.Value;
        var letter = await AskCollector.LetterInForceAsync(db, row, cancellation);
        // A row that was told apart from all it was found with has no decision: it is new.
        var apart = await db.ToldApart.Where(pair => pair.RowId == row.Id && pair.TakenBackActId == null)
            .ToListAsync(cancellation);
        if (row.Decision is null && row.GatheringId is null && apart.Count > 0)
        {
            apart.ForEach(pair => pair.TakeBack(act));
        }
        else
        {
            var entry = row.Reopen(act);
            if (entry.IsRefused)
            {
                return entry.Refusals.ToList();
            }

            db.Add(entry.Value);
        }

        await db.SaveChangesAsync(cancellation);
        var line = row.Line;
        await find.FindAsync(request.BatchId, new Lines(line, line), (_, _, _) => Task.CompletedTask, cancellation);
        return new Reopened(line, letter?.At);
    }
}
