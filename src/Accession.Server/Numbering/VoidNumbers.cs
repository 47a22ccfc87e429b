using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>Makes unused numbers of a roll void, because their barcodes are torn, lost or misprinted.</summary>
public sealed class VoidNumbers(AccessionDb db, CatalogNumbers codes, TimeProvider clock)
{
    /// <param name="First">The first number, as scanned or typed.</param>
    /// <param name="Last">The last number; empty when it is one only.</param>
    public sealed record Request(string? First, string? Last, string? Reason);

    /// <param name="Said">What was done, as a sentence.</param>
    public sealed record Done(string Said);

    public Task<Outcome<Done>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var why = request.Reason?.Trim().TrimEnd('.');
        var act = Act.Of(door, "make numbers void", clock.GetUtcNow().UtcDateTime, why);
        return db.CarryOutAsync(door, act, () => MakeAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<Done>> MakeAsync(Request request, Act act, CancellationToken cancellation)
    {
        var firstText = request.First?.Trim() ?? "";
        var lastText = string.IsNullOrWhiteSpace(request.Last) ? firstText : request.Last.Trim();
        if ((await codes.ReadAsync(firstText, cancellation)).Code is not { } first
            || (await codes.ReadAsync(lastText, cancellation)).Code is not { } last
            || first.Series.Id != last.Series.Id)
        {
            return new Refusal(RefusalKind.Invalid,
                "Scan or type the number, or the first and the last of several; they follow the "
                + "pattern of one series.");
        }

        // Whoever numbers a sheet from this roll is done before, or waits.
        var roll = await db.Rolls.Held()
            .SingleOrDefaultAsync(
                r => r.SeriesId == first.Series.Id && r.First <= first.Number && r.Last >= first.Number, cancellation);
        if (roll is null)
        {
            return await WhyOnNoRollAsync(first, cancellation);
        }

        await db.Series.SingleAsync(series => series.Id == roll.SeriesId, cancellation);
        var used = await db.Specimens
            .Where(s => s.SeriesId == roll.SeriesId && s.Number >= first.Number && s.Number <= last.Number)
            .MinAsync(s => (long?)s.Number, cancellation);
        var others = await db.Voids.Include(v => v.Act)
            .Where(v => v.RollId == roll.Id && !db.VoidsTakenBack.Any(back => back.VoidId == v.Id))
            .ToListAsync(cancellation);
        var made = VoidedNumbers.Make(roll, first.Number, last.Number, used, others, act);
        if (made.IsRefused)
        {
            return made.Refusals.ToList();
        }

        db.Add(made.Value);
        return new Done(first.Number == last.Number
            ? $"{first.Written} is void: {act.Reason}."
            : $"{first.Written} to {last.Written} are void, {last.Number - first.Number + 1:N0} numbers: "
                + $"{act.Reason}.");
    }

    private async Task<Refusal> WhyOnNoRollAsync(CatalogNumbers.Found number, CancellationToken cancellation) =>
        await db.Specimens.AnyAsync(
            s => s.SeriesId == number.Series.Id && s.Number == number.Number, cancellation)
            ? new(RefusalKind.Conflict,
                $"{number.Written} is on a sheet, and a number on a sheet is never void. If its label is torn, print "
                + "it again; if the sheet was numbered by mistake, its record stays and says so.")
            : new(RefusalKind.NotFound,
                $"{number.Written} stands on no roll, and no sheet bears it: the series issues it in its turn, so "
                + "there is nothing to make void.");
}
