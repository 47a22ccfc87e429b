using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// Puts the sheet that was scanned in a place. Where that lies in the collection room and only filing waits, it is
/// filed with it.
/// </summary>
public sealed class PutInPlace(AccessionDb db, PartInHand parts, TimeProvider clock)
{
    /// <summary>The act, as it stands in the trail.</summary>
    public const string What = "put a sheet in a place";

    public sealed record Request(string Place, string? Code);

    public Task<Outcome<BenchDone>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, What, clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<BenchDone>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Overlaps([Role.Curator, Role.Technician]))
                {
                    return new Refusal(RefusalKind.NotAllowed, "The bench is for technicians and curators.");
                }

                var place = await FindAsync(db, request.Place, cancellation);
                if (place is null)
                {
                    return NoSuchPlace(request.Place);
                }

                var held = await parts.FindAsync(request.Code, cancellation);
                if (held.IsRefused)
                {
                    return held.Refusals.ToList();
                }

                var (part, plan) = (held.Value.Part, held.Value.Plan);
                if (part.Move(place, plan, act) is { } refusal)
                {
                    return refusal;
                }

                var isFiled = place.Zone == Zone.CollectionRoom && part.NextStep == Step.Filed
                    && part.Finish(Step.Filed, plan, act) is null;
                return held.Value.Tell(
                    isFiled ? "Filed" : "Put away", $"{(isFiled ? "is filed" : "stands")} in {place.Name}");
            },
            cancellation);
    }

    /// <summary>The place of a name, in small letters or capitals; null when there is none.</summary>
    public static async Task<Place?> FindAsync(AccessionDb db, string name, CancellationToken cancellation)
    {
        var places = await db.Places.ToListAsync(cancellation);
        return places.Find(place => place.Name == name)
            ?? places.Find(place => place.Name.Equals(name, StringComparison.OrdinalIgnoreCase));
    }

    public static Refusal NoSuchPlace(string name) => new(
        RefusalKind.NotFound,
        $"There is no place called {(name.Length <= 60 ? name : name[..60] + "…")}. Nothing goes there; scan the "
        + "place from the card of commands.");
}
