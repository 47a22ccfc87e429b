using Accession.Core.Gatherings;
using Accession.Core.People;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>The gatherings of an accession whose sheets are being numbered, as far as everyone may know them.</summary>
public static class PileInHand
{
    private const int MostFound = 20;

    /// <summary>A gathering as it stands on its label.</summary>
    public sealed record Sheet(
        long Id, string RecordedBy, string RecordNumber, string EventDate, string DateVerbatim, string Name,
        string Family, string Country, string StateProvince, string County, string Locality, string Withheld,
        string Habitat, string Remarks,
        int SheetsExpected, int SheetsNumbered)
    {
        public string Label => RecordNumber.Length == 0 ? RecordedBy : $"{RecordedBy} {RecordNumber}";

        public int Left => SheetsExpected - SheetsNumbered;
    }

    /// <summary>A gathering of this accession; null when it is of another.</summary>
    public static Task<Sheet?> OfAsync(AccessionDb db, long accessionId, long id, CancellationToken cancellation) =>
        Sheets(db.Gatherings.Where(g => g.AccessionId == accessionId && g.Id == id)).SingleOrDefaultAsync(cancellation);

    /// <summary>The first gathering in pile order that has a sheet left to number.</summary>
    public static Task<Sheet?> NextAsync(AccessionDb db, long accessionId, CancellationToken cancellation) =>
        Sheets(db.Gatherings.Where(g => g.AccessionId == accessionId && g.SheetsNumbered < g.SheetsExpected)
            .OrderBy(g => g.Id)).FirstOrDefaultAsync(cancellation);

    /// <summary>The gatherings behind one that have a sheet left to number, in pile order.</summary>
    public static async Task<IReadOnlyList<Sheet>> LeftAsync(
        AccessionDb db, long accessionId, long after, int take, CancellationToken cancellation) =>
        await Sheets(db.Gatherings
            .Where(g => g.AccessionId == accessionId && g.SheetsNumbered < g.SheetsExpected && g.Id > after)
            .OrderBy(g => g.Id).Take(take)).ToListAsync(cancellation);

    /// <summary>
    /// The gatherings whose collector number reads like this, or whose collector does; "Ashgrove 14" or "14".
    /// </summary>
    public static async Task<IReadOnlyList<Sheet>> FindAsync(
        AccessionDb db, long accessionId, string text, CancellationToken cancellation)
    {
        var words = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0)
        {
            return [];
        }

        var last = words[^1];
        var number = CollectorNumber.Read(last);
        var key = number.IsRead ? number.Value.Key : "";
        var collector = words.Length > 1 ? Collectors.Read(string.Join(' ', words[..^1])) : default;
        var family = words.Length > 1 && collector is { IsRead: true, Value.Persons: [var first, ..] }
            ? first.FamilyKey
            : "";
        return await Sheets(db.Gatherings
            .Where(g => g.AccessionId == accessionId
                && ((g.Notes.NumberKey == key && key != "") || g.Notes.RecordNumber == last)
                && (family == "" || g.Notes.CollectorKey == family))
            .OrderBy(g => g.Id)
            .Take(MostFound)).ToListAsync(cancellation);
    }

    private static IQueryable<Sheet> Sheets(IQueryable<Gathering> gatherings) => gatherings.Select(g => new Sheet(
        g.Id, g.Notes.RecordedBy, g.Notes.RecordNumber, g.Notes.EventDate, g.Notes.DateVerbatim, g.Notes.NameVerbatim,
        g.Notes.Family, g.Place.Country, g.Place.StateProvince, g.Place.County, g.Place.Locality,
        g.Place.InformationWithheld, g.Place.Habitat, g.Place.Remarks, g.SheetsExpected, g.SheetsNumbered));
}
