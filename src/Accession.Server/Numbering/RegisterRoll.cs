using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Numbers;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>
/// Registers a roll of pre-printed barcodes, so that its numbers count as ours when they are scanned.
/// </summary>
public sealed class RegisterRoll(AccessionDb db, NumberIssuer numbers, TimeProvider clock)
{
    /// <param name="First">The first barcode on the roll, as scanned or typed.</param>
    /// <param name="Last">The last barcode on the roll, as scanned or typed.</param>
    public sealed record Request(string? Name, string? First, string? Last);

    public sealed record Registered(string Name, string First, string Last, long Numbers);

    public Task<Outcome<Registered>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "register a roll", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => RegisterAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<Registered>> RegisterAsync(Request request, Act act, CancellationToken cancellation)
    {
        var name = request.Name?.Trim() ?? "";
        if (name.Length is 0 or > 100 || await db.Rolls.AnyAsync(roll => roll.Name == name, cancellation))
        {
            return new Refusal(RefusalKind.Invalid, "Give the roll a name of its own, such as \"printer's roll 3\".");
        }

        var all = await db.Series.Where(s => s.Use == SeriesUse.Specimens).ToListAsync(cancellation);
        var found = all
            .Select(s => (
                Series: s,
                First: s.Pattern.NumberIn(request.First ?? ""),
                Last: s.Pattern.NumberIn(request.Last ?? "")))
            .FirstOrDefault(s => s.First is not null && s.Last is not null);
        if (found.Series is null)
        {
            return new Refusal(RefusalKind.Invalid,
                "Scan the first and the last barcode of the roll; both follow the pattern of one series.");
        }

        var held = await numbers.HoldAtLastUsedAsync(found.Series.Id, cancellation);
        if (held.IsRefused)
        {
            return held.Refusals.ToList();
        }

        var series = held.Value;
        var others = await db.Rolls.Where(roll => roll.SeriesId == series.Id).OrderBy(roll => roll.First)
            .ToListAsync(cancellation);
        var roll = Roll.Register(series, name, found.First!.Value, found.Last!.Value, others, act);
        if (roll.IsRefused)
        {
            return roll.Refusals.ToList();
        }

        db.Add(roll.Value);
        var pattern = series.Pattern;
        return new Registered(
            name, pattern.Write(roll.Value.First, 0), pattern.Write(roll.Value.Last, 0),
            roll.Value.Last - roll.Value.First + 1);
    }
}
