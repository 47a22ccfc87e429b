using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>
/// Settles what a load was worth: let in under a house rule, waived by a curator, not proved, or failed. Everything on
/// its list shares that, in one transaction.
/// </summary>
public sealed class SettleLoad(
    AccessionDb db, PartsOfLoads parts, InstitutionClock calendar, TimeProvider clock)
{
    /// <param name="As">Under a house rule, waived, not proved or failed.</param>
    /// <param name="HouseRuleId">The rule, where it is one.</param>
    /// <param name="Reason">Why; a rule needs none.</param>
    public sealed record Request(int Number, LoadStanding As, long? HouseRuleId, string? Reason);

    public Task<Outcome<LoadStanding>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var what = request.As switch
        {
            LoadStanding.UnderHouseRule => "let a load in under a house rule",
            LoadStanding.Waived => "let a load in without proof",
            LoadStanding.Failed => "record that a load failed",
            _ => "record that a load is not proved",
        };
        var act = Act.Of(door, what, clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync(door, act, () => SettleAsync(request, door.By, act, cancellation), cancellation);
    }

    private async Task<Outcome<LoadStanding>> SettleAsync(
        Request request, Actor by, Act act, CancellationToken cancellation)
    {
        var load = await HeldLoad.OfAsync(db, request.Number, cancellation);
        if (load is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no load {request.Number}.");
        }

        if (await db.Loads.Where(l => l.RepeatsId == load.Id).Select(l => (int?)l.Number)
                .SingleOrDefaultAsync(cancellation) is { } again)
        {
            return new Refusal(
                RefusalKind.Conflict, $"Load {load.Number} is repeated by load {again}: settle that one.");
        }

        Clearance? clearance = null;
        if (request.As is LoadStanding.UnderHouseRule or LoadStanding.Waived)
        {
            var cleared = request.As == LoadStanding.Waived
                ? load.Waive(by, act)
                : await UnderRuleAsync(load, request.HouseRuleId, act, cancellation);
            if (cleared.IsRefused)
            {
                return cleared.Refusals.ToList();
            }

            clearance = cleared.Value;
        }
        else if (load.Record(request.As == LoadStanding.Failed, act) is { } refusal)
        {
            return refusal;
        }

        var inside = await db.Parcels
            .Where(p => db.LoadItems.Any(i => i.LoadId == load.Id && i.ParcelId == p.Id && i.PartId == null))
            .ToListAsync(cancellation);
        foreach (var parcel in inside)
        {
            load.Settle(parcel, clearance, act);
        }

        await parts.SettleAsync(load, clearance, act, cancellation);
        return load.Standing;
    }

    private async Task<Outcome<Clearance>> UnderRuleAsync(
        FreezerLoad load, long? ruleId, Act act, CancellationToken cancellation)
    {
        var rule = await db.HouseRules.SingleOrDefaultAsync(r => r.Id == ruleId, cancellation);
        return rule is null
            ? new Refusal(RefusalKind.Invalid, "Choose the house rule that lets the load in.")
            : load.ReleaseUnder(rule, calendar.Day(load.ClockFrom ?? act.At), act);
    }
}
