using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>Writes a freezer down.</summary>
public sealed class WriteFreezer(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(string? Name, string? Place, bool DefrostsItself);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "write a freezer down", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<string>(door, act, async () =>
        {
            if (!door.By.Roles.Contains(Role.Curator))
            {
                return new Refusal(RefusalKind.NotAllowed, "Freezers are written down by curators.");
            }

            var freezer = Freezer.Named(request.Name, request.Place, request.DefrostsItself, act);
            if (freezer.IsRefused)
            {
                return freezer.Refusals.ToList();
            }

            var name = freezer.Value.Name;
            if (await db.Freezers.AnyAsync(f => f.Name == name, cancellation))
            {
                return new Refusal(RefusalKind.Conflict, $"There is a freezer called {name} already.");
            }

            db.Add(freezer.Value);
            return name;
        }, cancellation);
    }
}
