using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>
/// Writes a regime down, or a later edition of one of the same name. Loads keep the edition they were begun with.
/// </summary>
public sealed class WriteRegime(AccessionDb db, TimeProvider clock)
{
    /// <param name="Celsius">The threshold as it was written, in °C.</param>
    /// <param name="Terms">Everything else; its threshold is that which was written.</param>
    public sealed record Request(string Celsius, RegimeTerms Terms);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "write a regime down", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<string>(door, act, async () =>
        {
            if (!door.By.Roles.Contains(Role.Curator))
            {
                return new Refusal(RefusalKind.NotAllowed, "Regimes are chosen and written down by curators.");
            }

            var celsius = Celsius.Read(request.Celsius);
            if (!celsius.IsRead)
            {
                return new Refusal(RefusalKind.Invalid, celsius.Unreadable.Reason);
            }

            var name = request.Terms.Name;
            var last = await db.Regimes.Where(r => r.Name == name).MaxAsync(r => (int?)r.Edition, cancellation) ?? 0;
            var regime = Regime.Write(
                request.Terms with { ThresholdCelsius = celsius.Value }, last + 1, act);
            if (regime.IsRefused)
            {
                return regime.Refusals.ToList();
            }

            db.Add(regime.Value);
            return last == 0 ? name : $"{name}, edition {last + 1}";
        }, cancellation);
    }
}
