using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>
/// Takes a line off the list of a load before the lid is closed; with a parcel, the sheets that stand on the list as
/// lying in it.
/// </summary>
public sealed class TakeOffLoad(AccessionDb db, PartsOfLoads parts, TimeProvider clock)
{
    public sealed record Request(int Number, long ItemId);

    /// <summary>Answers what was taken off.</summary>
    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take something off the list of a load", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => TakeOffAsync(request, door.By, act, cancellation), cancellation);
    }

    private async Task<Outcome<string>> TakeOffAsync(
        Request request, Actor by, Act act, CancellationToken cancellation)
    {
        if (!by.Roles.Overlaps([Role.Curator, Role.Technician]))
        {
            return new Refusal(RefusalKind.NotAllowed, "Freezers are for technicians and curators.");
        }

        await db.SaveChangesAsync(cancellation);   // the line names this act
        var load = await HeldLoad.OfAsync(db, request.Number, cancellation);
        var item = load is null
            ? null
            : await db.LoadItems.SingleOrDefaultAsync(i => i.Id == request.ItemId && i.LoadId == load.Id, cancellation);
        if (load is null || item is null)
        {
            return new Refusal(RefusalKind.NotFound, $"That does not stand on the list of load {request.Number}.");
        }

        var part = item.PartId is null ? null : await db.Parts.SingleAsync(p => p.Id == item.PartId, cancellation);
        var parcel = item.ParcelId is null || part is not null
            ? null
            : await db.Parcels.SingleAsync(p => p.Id == item.ParcelId, cancellation);
        if (load.TakeOff(item, parcel, part, act) is { } refusal)
        {
            return refusal;
        }

        var inside = parcel is null ? 0 : await parts.TakeOutInsideAsync(load, parcel, act, cancellation);
        return Called(item, parcel?.Tag, part?.Code) + (inside > 0 ? $" with {inside:N0} sheets in it" : "");
    }

    private static string Called(LoadItem item, string? tag, string? code) =>
        code ?? (tag is not null ? $"parcel {tag}" : $"bundle {item.Bundle}");
}
