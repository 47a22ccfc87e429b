using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>Begins a series of numbers.</summary>
public sealed class BeginSeries(AccessionDb db, AdoptBorne adopt, TimeProvider clock)
{
    public sealed record Request(string? Name, SeriesUse Use, string? Pattern);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var name = request.Name?.Trim() ?? "";
        var pattern = request.Pattern?.Trim() ?? "";
        var act = Act.Of(door, "begin a number series", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(
            door, act, () => BeginAsync(name, request.Use, pattern, act, cancellation), cancellation);
    }

    private async Task<Outcome<string>> BeginAsync(
        string name, SeriesUse use, string pattern, Act act, CancellationToken cancellation)
    {
        if (name.Length is 0 or > 100)
        {
            return new Refusal(RefusalKind.Invalid, "Write what people call the series, in at most 100 characters.");
        }

        if (await db.Series.AnyAsync(s => s.Name == name || s.PatternText == pattern, cancellation))
        {
            return new Refusal(RefusalKind.Conflict, "There is a series of this name or pattern already.");
        }

        var series = NumberSeries.Begin(name, use, pattern);
        if (series.IsRefused)
        {
            return series.Refusals.ToList();
        }

        var others = await db.Series.Where(s => s.Use == use).ToListAsync(cancellation);
        if (others.FirstOrDefault(other => other.Pattern.ReadsLike(series.Value.Pattern)) is { } like)
        {
            return new Refusal(RefusalKind.Conflict,
                $"A number of this pattern could be read as one of {like.Name} ({like.PatternText}). "
                + "Choose other letters.");
        }

        db.Add(series.Value);
        return use == SeriesUse.Specimens && await adopt.RunAsync(series.Value, act, cancellation) is { } refusal
            ? refusal
            : name;
    }
}
