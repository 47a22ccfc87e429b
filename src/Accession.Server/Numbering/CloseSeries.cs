using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Numbers;

namespace Accession.Server.Numbering;

/// <summary>Closes a series by hand: it issues nothing until an administrator opens it.</summary>
public sealed class CloseSeries(AccessionDb db, NumberIssuer numbers, TimeProvider clock)
{
    public sealed record Request(long SeriesId, string? Why);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var why = request.Why?.Trim().TrimEnd('.');
        var act = Act.Of(door, "close a number series", clock.GetUtcNow().UtcDateTime, why);
        return db.CarryOutAsync(door, act, () => CloseAsync(request.SeriesId, act, cancellation), cancellation);
    }

    private async Task<Outcome<string>> CloseAsync(long seriesId, Act act, CancellationToken cancellation)
    {
        if (await numbers.HoldAsync(seriesId, cancellation) is not { } series)
        {
            return new Refusal(RefusalKind.NotFound, "That series is not here.");
        }

        var closed = series.Close(SeriesEntryKind.Closed, act);
        if (closed.IsRefused)
        {
            return closed.Refusals.ToList();
        }

        db.Add(closed.Value);
        (await numbers.HoldReadyAsync(seriesId, cancellation)).ForEach(number => number.Withhold());
        return series.Name;
    }
}
