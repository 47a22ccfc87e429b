using Accession.Core.Gatherings;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Batches;
using Accession.Storage.Databases;
using Accession.Storage.Numbers;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Numbering;

/// <summary>
/// Numbers a sheet in hand: specimen, part, first custody and number in one short transaction. Either the next number
/// of a series, which has then to be scanned back from the sheet, or a barcode of a roll, which proves itself.
/// </summary>
public sealed class NumberSheet(
    AccessionDb db,
    NumberIssuer numbers,
    NumbersOnRolls rolls,
    IOptions<InstitutionOptions> house,
    InstitutionClock calendar,
    TimeProvider clock)
{
    /// <param name="SeriesId">The series.</param>
    /// <param name="RollNumber">
    /// The number scanned from the sheet, which stands on a roll; null for the next one.
    /// </param>
    /// <param name="ParcelId">
    /// The parcel it is taken out of, where its batch came in several; <see cref="ParcelInHand.None"/> for none of
    /// them.
    /// </param>
    public sealed record Request(long GatheringId, long SeriesId, long? RollNumber, long? ParcelId = null);

    public Task<Outcome<SheetAtBench>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "number a sheet", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => NumberAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<SheetAtBench>> NumberAsync(Request request, Act act, CancellationToken cancellation)
    {
        // Two who number sheets of one gathering take turns; those of different ones never wait for each other.
        var gathering = await db.Gatherings.Held()
            .SingleOrDefaultAsync(g => g.Id == request.GatheringId, cancellation);
        if (gathering is null)
        {
            return new Refusal(RefusalKind.NotFound, "That gathering is not in the register.");
        }

        if (await ClosedBatch.WhyNoSheetAsync(db, gathering.AccessionId, cancellation) is { } closed)
        {
            return closed;
        }

        if (gathering.WhyNoSheetIsLeft() is { } refusal)
        {
            return refusal;
        }

        var parcel = await ParcelInHand.FindAsync(db, gathering.AccessionId, request.ParcelId, cancellation);
        if (parcel.IsRefused)
        {
            return parcel.Refusals.ToList();
        }

        var number = request.RollNumber is { } fromRoll
            ? await FromRollAsync(request.SeriesId, fromRoll, cancellation)
            : await numbers.NextForSheetAsync(request.SeriesId, cancellation);
        if (number.IsRefused)
        {
            return number.Refusals.ToList();
        }

        var plan = await db.StepPlans.AsNoTracking()
            .Where(plan => plan.Kind == StepPlan.Sheet
                && (plan.SeriesId == null || plan.SeriesId == request.SeriesId))
            .OrderByDescending(plan => plan.SeriesId != null).ThenByDescending(plan => plan.Edition)
            .FirstAsync(cancellation);
        var specimen = Specimen.NumberSheet(
            new(request.SeriesId, number.Value.Number, number.Value.Written),
            gathering, house.Value.Name, proven: request.RollNumber is not null, plan, parcel.Value, act,
            await HistoryOfRow.OfAsync(db, gathering, cancellation));
        if (specimen.IsRefused)
        {
            return specimen.Refusals.ToList();
        }

        db.Add(specimen.Value);
        return Answer(specimen.Value, gathering, request.RollNumber is not null);
    }

    private async Task<Outcome<IssuedNumber>> FromRollAsync(long seriesId, long number, CancellationToken cancellation)
    {
        var series = await db.Series.AsNoTracking()
            .SingleOrDefaultAsync(s => s.Id == seriesId && s.Use == SeriesUse.Specimens, cancellation);
        if (series is null)
        {
            return new Refusal(RefusalKind.Invalid, "Choose a series whose numbers go on sheets.");
        }

        var written = series.Pattern.Write(number, 0);
        // Whoever makes numbers of this roll void waits until this sheet is numbered, and sees that it is.
        var roll = await db.Rolls.AsNoTracking().HeldTogether()
            .Where(roll => roll.SeriesId == seriesId && roll.First <= number && roll.Last >= number)
            .FirstOrDefaultAsync(cancellation);
        if (await db.Specimens.Where(s => s.SeriesId == seriesId && s.Number == number)
                .Select(s => s.Gathering).FirstOrDefaultAsync(cancellation) is { } other)
        {
            return new Refusal(RefusalKind.Conflict,
                $"{written} is taken: it is on a sheet of {other.Label}. Put another barcode on this one.");
        }

        if (roll is null)
        {
            return new Refusal(RefusalKind.NotFound,
                $"{written} stands on no roll that is registered here, and was never issued. Set the sheet aside"
                + (series.IsClosed
                    ? $": {series.Name} is closed, and when it is opened the number may be known."
                    : "."));
        }

        return await rolls.VoidAsync(roll.Id, number, cancellation) is { } isVoid
            ? new Refusal(
                RefusalKind.Conflict,
                $"{written} is void since {calendar.ShowDay(isVoid.Since)}: {isVoid.Reason}. Put another barcode on "
                + "the sheet; if the void was a mistake, a curator takes it back, under Every number.")
            : new IssuedNumber(number, written);
    }

    private static SheetAtBench Answer(Specimen specimen, Gathering gathering, bool isProven) => new(
        isProven ? BenchResult.Numbered : BenchResult.Issued,
        specimen.CatalogNumber, gathering.Id, gathering.Label, specimen.CurrentName,
        gathering.SheetsNumbered, gathering.SheetsExpected);
}
