using System.Globalization;
using Accession.Core.FreezerLoads;
using Accession.Core.Specimens;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>What waits between the door and the cabinet: parcels, freezer loads, and sheets step by step.</summary>
internal sealed class TreatmentWaiting(AccessionDb db, TimeProvider clock)
{
    public async Task<IReadOnlyList<WorkWaitingModel.Waiting>> OfAsync(CancellationToken cancellation) =>
    [
        .. await LoadsAsync(cancellation),
        .. await ParcelsAsync(cancellation),
        .. await StepsAsync(cancellation),
    ];

    private async Task<List<WorkWaitingModel.Waiting>> LoadsAsync(CancellationToken cancellation)
    {
        var loads = await db.Loads
            .Where(l => l.Standing == LoadStanding.TakenOut || l.Standing == LoadStanding.Running
                || ((l.Standing == LoadStanding.Failed || l.Standing == LoadStanding.NotProved)
                    && !db.Loads.Any(again => again.RepeatsId == l.Id)))
            .OrderBy(l => l.Number)
            .Select(l => new { l.Number, l.Standing, l.ClockFrom, Freezer = l.Freezer.Name, l.Regime.ExposureHours })
            .ToListAsync(cancellation);
        var now = clock.GetUtcNow().UtcDateTime;
        List<WorkWaitingModel.Waiting> waiting = [];
        foreach (var load in loads)
        {
            var address = $"/freezer-load/{load.Number}";
            // A running load is work when its hours are over; how cold it was nobody knows.
            var inside = load.ClockFrom is { } from ? (now - from).TotalHours : 0;
            if (load.Standing == LoadStanding.Running && inside >= load.ExposureHours)
            {
                waiting.Add(new($"Take load {load.Number} out of {load.Freezer}", address, "waiting",
                    string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(inside):0} h with the lid closed"),
                    $"Its regime asks for {load.ExposureHours} h at its core, which gets cold later."));
            }
            else if (load.Standing == LoadStanding.TakenOut)
            {
                waiting.Add(new($"Settle load {load.Number}", address, "waiting", "Taken out",
                    "Nothing of it goes to the collection room before."));
            }
            else if (load.Standing != LoadStanding.Running)
            {
                waiting.Add(new($"Repeat load {load.Number}", address, "stop", TreatmentWords.Of(load.Standing),
                    "Everything that was in it, from the warmth of the room."));
            }
        }

        return waiting;
    }

    private async Task<List<WorkWaitingModel.Waiting>> ParcelsAsync(CancellationToken cancellation)
    {
        var parcels = await db.Parcels.CountAsync(p => p.ClearedAt == null && p.LoadId == null, cancellation);
        return parcels == 0
            ? []
            : [new("Freeze parcels unopened", "/parcels", "waiting",
                parcels == 1 ? "1 parcel" : $"{parcels:N0} parcels", "Tagged at the door, on the list of no load.")];
    }

    // Scanning back has its own line: a sheet may be scanned back while it waits for something else.
    private async Task<List<WorkWaitingModel.Waiting>> StepsAsync(CancellationToken cancellation)
    {
        var counts = await db.Parts.Where(p => p.NextStep != null && p.NextStep != Step.Numbered)
            .GroupBy(p => p.NextStep!.Value).Select(of => new { Step = of.Key, Sheets = of.Count() })
            .ToListAsync(cancellation);
        return
        [
            .. counts.OrderBy(of => of.Step).Select(of => new WorkWaitingModel.Waiting(
                TreatmentWords.Waits(of.Step), $"/step/{of.Step.ToString().ToLowerInvariant()}", "waiting",
                of.Sheets == 1 ? "1 sheet" : $"{of.Sheets:N0} sheets",
                of.Step == Step.Treated
                    ? "Numbered, and not let in by anything yet."
                    : "Everything before it in their plan is done or waived.")),
        ];
    }
}
