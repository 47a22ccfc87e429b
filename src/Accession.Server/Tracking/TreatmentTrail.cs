using Accession.Core.Specimens;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>What cleared the parts of a specimen, and where they were put, for its trail.</summary>
internal static class TreatmentTrail
{
    public static async Task<IReadOnlyList<SpecimenPageModel.TrailEntry>> OfAsync(
        AccessionDb db, long specimenId, CancellationToken cancellation)
    {
        var cleared = await db.Parts.Where(p => p.SpecimenId == specimenId).SelectMany(p => p.Clearances)
            .Select(c => new
            {
                c.Act.At,
                c.Act.ActorName,
                c.Act.Reason,
                c.By,
                Load = db.Loads.Where(l => l.Id == c.LoadId).Select(l => (int?)l.Number).FirstOrDefault(),
                Parcel = db.Parcels.Where(q => q.Id == c.ParcelId).Select(q => q.Tag).FirstOrDefault(),
            })
            .ToListAsync(cancellation);
        var moved = await db.Parts.Where(p => p.SpecimenId == specimenId).SelectMany(p => p.Places)
            .Select(e => new
            {
                e.Act.At,
                e.Act.ActorName,
                e.Act.Reason,
                e.CrossedOutside,
                IsTakenBack = e.TakenBackActId != null,
                Place = db.Places.Where(place => place.Id == e.PlaceId).Select(place => place.Name).First(),
            })
            .ToListAsync(cancellation);
        return
        [
            .. cleared.Select(c => new SpecimenPageModel.TrailEntry(
                c.At,
                TreatmentWords.Of(c.By) + (c.Load is { } load ? $", load {load}" : "")
                    + (c.Parcel is { } parcel ? $", in parcel {parcel}" : "") + Said(c.Reason),
                c.ActorName)),
            .. moved.Select(e => new SpecimenPageModel.TrailEntry(
                e.At,
                $"Put in {e.Place}" + (e.IsTakenBack ? "; taken back, it never went there"
                    : e.CrossedOutside ? "; it was outside: to be treated again" : "")
                    + Said(e.Reason),
                e.ActorName)),
        ];
    }

    private static string Said(string? reason) => reason is null ? "" : $": {reason}";
}
