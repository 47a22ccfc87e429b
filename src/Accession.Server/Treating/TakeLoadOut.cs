using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>Takes a load out of its freezer; it stays sealed.</summary>
public sealed class TakeLoadOut(AccessionDb db, InstitutionClock calendar, TimeProvider clock)
{
    /// <param name="When">When it was taken out, as the clock on the wall said; null for now.</param>
    public sealed record Request(int Number, DateTime? When);

    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take a load out", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<int>(door, act, async () =>
        {
            var load = await HeldLoad.OfAsync(db, request.Number, cancellation);
            if (load is null)
            {
                return new Refusal(RefusalKind.NotFound, $"There is no load {request.Number}.");
            }

            var at = request.When is { } when ? calendar.Utc(when) : act.At;
            return load.TakeOut(at, act) is { } refusal ? refusal : load.Number;
        }, cancellation);
    }
}
