using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Specimens;

/// <summary>Takes moves of parts back, with what the verb needs to know of the time before.</summary>
public sealed class MovesBack(AccessionDb db)
{
    /// <summary>
    /// Takes the last move of a part back, and that it was filed where the same act did that. The act must be stored.
    /// </summary>
    /// <param name="part">The part, with the acts of its places.</param>
    /// <param name="plan">The step plan it follows; null when it follows none.</param>
    /// <param name="act">The act that takes it back.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<Refusal?> TakeBackAsync(Part part, StepPlan? plan, Act act, CancellationToken cancellation)
    {
        var counting = part.Places.Where(entry => entry.TakenBackActId is null).OrderBy(entry => entry.Id).ToList();
        var filed = part.Steps.OrderBy(one => one.Id).LastOrDefault(one => one.Step == Step.Filed);
        if (filed is { Mark: StepMark.Done } && filed.ActId == counting.LastOrDefault()?.ActId
            && part.TakeBack(Step.Filed, plan, act) is { } stays)
        {
            return stays;
        }

        var before = counting.SkipLast(1).LastOrDefault()?.PlaceId is { } id
            ? await db.Places.SingleAsync(place => place.Id == id, cancellation)
            : null;
        return part.MoveBack(before, await FirstCameAsync(part, cancellation), plan, act);
    }

    // As it was when it was numbered: with its parcel, or with its number.
    private async Task<DateTime?> FirstCameAsync(Part part, CancellationToken cancellation) =>
        part.IsFromBefore ? null
        : part.ParcelId is { } parcel
            ? await db.Parcels.Where(p => p.Id == parcel).Select(p => (DateTime?)p.CameAt).SingleAsync(cancellation)
            : await db.Parts.Where(p => p.Id == part.Id).SelectMany(p => p.Custody).OrderBy(c => c.Id)
                .Select(c => (DateTime?)c.Act.At).FirstAsync(cancellation);
}
