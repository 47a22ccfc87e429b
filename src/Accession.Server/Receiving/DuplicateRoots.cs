using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Which gathering of the register the sheets of decided rows belong with: the first of its duplicates. A row may have
/// been found with a row of its own list, which is a gathering by now, or waits itself.
/// </summary>
/// <param name="db">The register.</param>
/// <param name="became">The gatherings that rows of this slice became.</param>
internal sealed class DuplicateRoots(AccessionDb db, IReadOnlyDictionary<long, Gathering> became)
{
    private readonly Dictionary<long, DecisionEntry> _decisions = [];

    /// <summary>Where a row belongs.</summary>
    /// <param name="Gathering">The first gathering; null when what it was found with has left the list.</param>
    /// <param name="Waits">Whether what it was found with is not in the register yet.</param>
    public readonly record struct Place(long? Gathering, bool Waits);

    /// <summary>Loads what was decided about these rows.</summary>
    public async Task LoadAsync(IReadOnlyList<long> rows, CancellationToken cancellation)
    {
        var entries = await db.Decisions.AsNoTracking().Where(entry => rows.Contains(entry.RowId))
            .OrderBy(entry => entry.Id).ToListAsync(cancellation);
        foreach (var entry in entries)
        {
            _decisions[entry.RowId] = entry;
        }
    }

    /// <summary>The act by which a curator decided about a row.</summary>
    public long DecidedBy(long row) => _decisions[row].ActId;

    /// <summary>Where the sheets of a decided row belong.</summary>
    public async Task<Place> OfAsync(long row, CancellationToken cancellation)
    {
        var decided = _decisions[row];
        return decided.GatheringId is { } gathering
            ? new(await FirstAsync(gathering, cancellation), false)
            : decided.OtherRowId is { } other ? await OfRowAsync(other, cancellation) : default;
    }

    private async Task<Place> OfRowAsync(long rowId, CancellationToken cancellation)
    {
        if (became.TryGetValue(rowId, out var gathering))
        {
            return new(gathering.DuplicateOfId ?? gathering.Id, false);
        }

        var row = await db.Rows.AsNoTracking().SingleAsync(r => r.Id == rowId, cancellation);
        return row switch
        {
            { GatheringId: { } taken } => new(await FirstAsync(taken, cancellation), false),
            { SetAsideOfId: { } under } => new(await FirstAsync(under, cancellation), false),
            { SupersededById: { } corrected } => await OfRowAsync(corrected, cancellation),
            { WithdrawnInListId: not null } => default,
            // Its own sheets belong with something: so do those of whoever was found with it.
            _ when _decisions.TryGetValue(rowId, out var decision) && decision.Decision is not null
                => await OfAsync(rowId, cancellation),
            _ => new(null, true),
        };
    }

    private Task<long> FirstAsync(long gathering, CancellationToken cancellation) => db.Gatherings
        .Where(g => g.Id == gathering).Select(g => g.DuplicateOfId ?? g.Id).SingleAsync(cancellation);
}
