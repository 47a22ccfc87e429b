using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Filing;

/// <summary>Writes a place down, with the zone it lies in.</summary>
public sealed class WritePlace(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(string? Name, Zone? Zone);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "write a place down", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<string>(door, act, async () =>
        {
            if (!door.By.Roles.Contains(Role.Curator))
            {
                return new Refusal(RefusalKind.NotAllowed,
                    "Places are written down by curators: the zone decides what may go in.");
            }

            var place = Place.Named(request.Name, request.Zone, act);
            if (place.IsRefused)
            {
                return place.Refusals.ToList();
            }

            var name = place.Value.Name;
            if (await db.Places.AnyAsync(p => p.Name == name, cancellation))
            {
                return new Refusal(RefusalKind.Conflict, $"There is a place called {name} already.");
            }

            db.Add(place.Value);
            return name;
        }, cancellation);
    }
}
