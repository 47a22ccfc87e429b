using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>Closes the lid on a load: its clock begins.</summary>
public sealed class CloseLid(AccessionDb db, InstitutionClock calendar, TimeProvider clock)
{
    /// <param name="When">When it was closed, as the clock on the wall said; null for now.</param>
    public sealed record Request(int Number, DateTime? When);

    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "close the lid on a load", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<int>(door, act, async () =>
        {
            var load = await HeldLoad.OfAsync(db, request.Number, cancellation);
            if (load is null)
            {
                return new Refusal(RefusalKind.NotFound, $"There is no load {request.Number}.");
            }

            // What lies in the freezer is warmed when its lid is opened for another load.
            var running = await db.Loads
                .Where(l => l.FreezerId == load.FreezerId && l.Standing == LoadStanding.Running && l.Id != load.Id)
                .Select(l => (int?)l.Number).FirstOrDefaultAsync(cancellation);
            if (running is not null)
            {
                return new Refusal(RefusalKind.Conflict,
                    $"Load {running} runs in {load.Freezer.Name}, and its lid would be opened. Take it out first, or "
                    + "add to it and let its clock begin again.");
            }

            var items = await db.LoadItems.CountAsync(i => i.LoadId == load.Id, cancellation);
            var at = request.When is { } when ? calendar.Utc(when) : act.At;
            return load.CloseLid(at, items, act) is { } refusal ? refusal : load.Number;
        }, cancellation);
    }
}
