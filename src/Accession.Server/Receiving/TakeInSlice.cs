using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Storage.Localities;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Takes a slice of settled rows in, in one transaction: a gathering for each row whose sheets stay, joined to the one
/// it is a duplicate of; sheets that leave are counted under theirs. What is found by keys goes with it.
/// </summary>
public sealed class TakeInSlice(
    AccessionDb db, MatchTable table, GatheringsOfRows gatherings, ProtectedPlaces places, TimeProvider clock)
{
    public async Task RunAsync(GatheringsOfRows.Lot lot, IReadOnlyList<long> ids, CancellationToken cancellation)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        // Held, and read only now: a decision may have been taken back since the slice was made up.
        var rows = await db.Rows.AsNoTracking().Held().Where(SettledRows.ToTakeIn).Where(row => ids.Contains(row.Id))
            .OrderBy(row => row.Line).ThenBy(row => row.Id).ToListAsync(cancellation);
        var own = rows.Where(row => row.Decision is null or RowDecision.Different).Select(row => row.Id).ToHashSet();
        var roots = await RootsAsync([.. rows.Select(row => row.Id).Where(id => !own.Contains(id))], own, cancellation);
        // In the order of the list, which is that of the pile: the bench follows it.
        var staying = rows.Where(row => own.Contains(row.Id)
            || (roots.TryGetValue(row.Id, out var root) && (row.Decision == RowDecision.Keep || root.IsNowhere)));
        var became = await gatherings.SaveAsync(lot, [.. staying], _ => { }, cancellation);
        await JoinAsync(became, roots, cancellation);
        foreach (var row in rows.Where(row => roots.ContainsKey(row.Id) && !became.ContainsKey(row.Id)))
        {
            var root = roots[row.Id];
            var gathering = root.Gathering ?? became[root.Row!.Value].Id;
            db.Add(SetAside.Of(row, lot.Id, gathering, root.ActId));
            await db.Rows.Where(r => r.Id == row.Id).ExecuteUpdateAsync(
                r => r.SetProperty(one => one.GatheringId, gathering), cancellation);
        }

        await db.SaveChangesAsync(cancellation);
        await table.ForgetAsync([.. own, .. roots.Keys], cancellation);
        await transaction.CommitAsync(cancellation);
        db.ChangeTracker.Clear();
    }

    // Of those that wait for a row which is not in the register yet, nothing is said.
    private async Task<Dictionary<long, DuplicateRoots.Root>> RootsAsync(
        IReadOnlyList<long> decided, HashSet<long> own, CancellationToken cancellation)
    {
        var roots = await DuplicateRoots.LoadAsync(db, own, decided, cancellation);
        Dictionary<long, DuplicateRoots.Root> found = [];
        foreach (var row in decided)
        {
            if (await roots.OfAsync(row, cancellation) is { } root)
            {
                found.Add(row, root);
            }
        }

        return found;
    }

    // A duplicate would give away the place that is protected on the sheet it is a duplicate of.
    private async Task JoinAsync(
        Dictionary<long, Gathering> became, Dictionary<long, DuplicateRoots.Root> roots, CancellationToken cancellation)
    {
        foreach (var (row, root) in roots.Where(pair => became.ContainsKey(pair.Key) && !pair.Value.IsNowhere))
        {
            var first = root.Gathering is { } id
                ? await db.Gatherings.SingleAsync(g => g.Id == id, cancellation)
                : became[root.Row!.Value];
            became[row].KeepAsDuplicateOf(first);
            await places.ProtectLikeAsync(became[row], first.Id, clock.GetUtcNow().UtcDateTime, cancellation);
        }
    }
}
