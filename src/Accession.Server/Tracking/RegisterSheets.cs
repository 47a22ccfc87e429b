using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>Sheets as they stand in a list: on a line, the newest first.</summary>
public sealed class RegisterSheets(AccessionDb db)
{
    public sealed record Sheet(
        long Id, string CatalogNumber, int Repeat, bool IsRepeated, string Name, string RecordedBy,
        string RecordNumber, string EventDate, string DateVerbatim, string County, string StateProvince)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    /// <summary>The lines of sheets that were found.</summary>
    public async Task<IReadOnlyList<Sheet>> OfAsync(IReadOnlyList<long> ids, CancellationToken cancellation) =>
        await db.Specimens.Where(s => ids.Contains(s.Id))
            .OrderByDescending(s => s.Id)
            .Select(s => new Sheet(
                s.Id, s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                s.CurrentName, s.Gathering.Notes.RecordedBy, s.Gathering.Notes.RecordNumber,
                s.Gathering.Notes.EventDate, s.Gathering.Notes.DateVerbatim, s.Gathering.Place.County,
                s.Gathering.Place.StateProvince))
            .ToListAsync(cancellation);
}
