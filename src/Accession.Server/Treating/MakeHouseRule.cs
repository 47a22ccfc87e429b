using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Storage;

namespace Accession.Server.Treating;

/// <summary>Makes a house rule for loads without a logger.</summary>
public sealed class MakeHouseRule(AccessionDb db, TimeProvider clock)
{
    /// <param name="Hours">Lines of °C and hours.</param>
    public sealed record Request(string? Text, string? Source, DateOnly? HoldsFrom, int OpenAfterHours, string? Hours);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "make a house rule", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<string>(door, act, () =>
        {
            if (!door.By.Roles.Contains(Role.Curator))
            {
                return Task.FromResult<Outcome<string>>(
                    new Refusal(RefusalKind.NotAllowed, "Only a curator makes a house rule."));
            }

            var hours = RuleHours.ReadAll(request.Hours);
            if (hours.IsRefused)
            {
                return Task.FromResult<Outcome<string>>(hours.Refusals.ToList());
            }

            var rule = HouseRule.Make(
                request.Text, request.Source, request.HoldsFrom, request.OpenAfterHours, hours.Value, door.By, act);
            if (rule.IsRefused)
            {
                return Task.FromResult<Outcome<string>>(rule.Refusals.ToList());
            }

            db.Add(rule.Value);
            return Task.FromResult<Outcome<string>>(rule.Value.Text);
        }, cancellation);
    }
}
