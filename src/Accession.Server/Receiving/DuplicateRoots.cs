using Accession.Core.Batches;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// With which gathering the sheets of decided rows belong: the first of its duplicates. A row may have been found with
/// a row of its own list, which is a gathering by now, becomes one in the same slice, or waits itself.
/// </summary>
internal sealed class DuplicateRoots
{
    private readonly AccessionDb _db;
    private readonly IReadOnlySet<long> _becoming;
    private readonly Dictionary<long, DecisionEntry> _decisions;

    private DuplicateRoots(
        AccessionDb db, IReadOnlySet<long> becoming, Dictionary<long, DecisionEntry> decisions) =>
        (_db, _becoming, _decisions) = (db, becoming, decisions);

    /// <summary>Where the sheets of a row belong.</summary>
    /// <param name="Gathering">The first gathering, where it is in the register.</param>
    /// <param name="Row">The row that becomes the first gathering in this slice.</param>
    /// <param name="ActId">The act by which a curator decided it.</param>
    public sealed record Root(long? Gathering, long? Row, long ActId)
    {
        /// <summary>Whether what it was found with has left the list.</summary>
        public bool IsNowhere => Gathering is null && Row is null;
    }

    /// <summary>Loads what was decided about rows.</summary>
    /// <param name="db">The register.</param>
    /// <param name="becoming">Rows that become gatherings of their own in this slice.</param>
    /// <param name="decided">Rows that belong with something.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<DuplicateRoots> LoadAsync(
        AccessionDb db, IReadOnlySet<long> becoming, IReadOnlyList<long> decided, CancellationToken cancellation)
    {
        var entries = await db.Decisions.AsNoTracking().Where(entry => decided.Contains(entry.RowId))
            .OrderBy(entry => entry.Id).ToListAsync(cancellation);
        // The newest of each row stands.
        return new(db, becoming, entries.GroupBy(entry => entry.RowId).ToDictionary(of => of.Key, of => of.Last()));
    }

    /// <summary>Where the sheets of a decided row belong; null when that is not in the register yet.</summary>
    public async Task<Root?> OfAsync(long row, CancellationToken cancellation)
    {
        var decided = _decisions[row];
        var nowhere = new Root(null, null, decided.ActId);
        return decided.GatheringId is { } gathering
            ? nowhere with { Gathering = await FirstAsync(gathering, cancellation) }
            : decided.OtherRowId is { } other ? await OfRowAsync(nowhere, other, cancellation) : nowhere;
    }

    private async Task<Root?> OfRowAsync(Root nowhere, long rowId, CancellationToken cancellation)
    {
        if (_becoming.Contains(rowId))
        {
            return nowhere with { Row = rowId };
        }

        var row = await _db.Rows.AsNoTracking().SingleAsync(r => r.Id == rowId, cancellation);
        return row switch
        {
            { GatheringId: { } taken } => nowhere with { Gathering = await FirstAsync(taken, cancellation) },
            { SupersededById: { } corrected } => await OfRowAsync(nowhere, corrected, cancellation),
            { WithdrawnInListId: not null } => nowhere,
            // Its own sheets belong with something: so do those of whoever was found with it.
            _ when _decisions.TryGetValue(rowId, out var decision) && decision.Decision is not null
                => await OfAsync(rowId, cancellation) is { } root ? root with { ActId = nowhere.ActId } : null,
            _ => null,
        };
    }

    private Task<long> FirstAsync(long gathering, CancellationToken cancellation) => _db.Gatherings
        .Where(g => g.Id == gathering).Select(g => g.DuplicateOfId ?? g.Id).SingleAsync(cancellation);
}
