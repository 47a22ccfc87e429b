using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>Takes back that numbers were made void by mistake: they are unused again.</summary>
public sealed class TakeVoidBack(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long VoidId, string? Reason);

    /// <param name="Said">What was done, as a sentence.</param>
    public sealed record Done(string Said);

    public Task<Outcome<Done>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var why = request.Reason?.Trim().TrimEnd('.');
        var act = Act.Of(door, "take a void back", clock.GetUtcNow().UtcDateTime, why);
        return db.CarryOutAsync(door, act, () => TakeAsync(request.VoidId, act, cancellation), cancellation);
    }

    private async Task<Outcome<Done>> TakeAsync(long voidId, Act act, CancellationToken cancellation)
    {
        var of = await db.Voids.SingleOrDefaultAsync(v => v.Id == voidId, cancellation);
        if (of is null)
        {
            return new Refusal(RefusalKind.NotFound, "No numbers were made void under that entry.");
        }

        var roll = await db.Rolls.Held().SingleAsync(r => r.Id == of.RollId, cancellation);
        var series = await db.Series.AsNoTracking().SingleAsync(s => s.Id == of.SeriesId, cancellation);
        var back = VoidTakenBack.Take(
            of,
            await db.VoidsTakenBack.AnyAsync(b => b.VoidId == voidId, cancellation),
            await db.Specimens.AnyAsync(
                s => s.SeriesId == of.SeriesId && s.Number >= of.First && s.Number <= of.Last, cancellation),
            act);
        if (back.IsRefused)
        {
            return back.Refusals.ToList();
        }

        db.Add(back.Value);
        var (first, last) = (series.Pattern.Write(of.First, 0), series.Pattern.Write(of.Last, 0));
        return new Done(of.First == of.Last
            ? $"{first} is unused again, on the roll {roll.Name}."
            : $"{first} to {last} are unused again, on the roll {roll.Name}.");
    }
}
