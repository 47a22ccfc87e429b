using Accession.Core.Gatherings;
using Accession.Core.People;
using Accession.Core.Specimens;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>The numbered sheets, newest first: all, or those that answer to a text.</summary>
public sealed class RegisterSheets(AccessionDb db)
{
    public sealed record Sheet(
        long Id, string CatalogNumber, int Repeat, bool IsRepeated, string Name, string RecordedBy,
        string RecordNumber, string EventDate, string DateVerbatim, string County, string StateProvince)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    /// <summary>The sheets before one.</summary>
    /// <param name="query">Collector and number, or one of these; null for every sheet.</param>
    /// <param name="numbered">The catalog numbers that the text may mean.</param>
    /// <param name="before">The sheet before which to begin; null for the newest.</param>
    /// <param name="take">How many at most.</param>
    public async Task<IReadOnlyList<Sheet>> BeforeAsync(
        string? query, IReadOnlyList<string> numbered, long? before, int take, CancellationToken cancellation) =>
        await Found(query, numbered)
            .Where(s => before == null || s.Id < before)
            .OrderByDescending(s => s.Id)
            .Take(take)
            .Select(s => new Sheet(
                s.Id, s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                s.CurrentName, s.Gathering.Notes.RecordedBy, s.Gathering.Notes.RecordNumber,
                s.Gathering.Notes.EventDate, s.Gathering.Notes.DateVerbatim, s.Gathering.Place.County,
                s.Gathering.Place.StateProvince))
            .ToListAsync(cancellation);

    private IQueryable<Specimen> Found(string? query, IReadOnlyList<string> numbered)
    {
        if (query is null)
        {
            return db.Specimens;
        }

        var words = query.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var number = CollectorNumber.Read(words[^1]);
        var key = number is { IsRead: true, Value.IsWithoutNumber: false } ? number.Value.Key : "";
        var names = key.Length == 0 ? words : words[..^1];
        var people = names.Length == 0 ? default : Collectors.Read(string.Join(' ', names));
        var family = people is { IsRead: true, Value.Persons: [var first, ..] } ? first.FamilyKey : "";
        // "1234" may be a collector's number, or what stands under a barcode.
        return db.Specimens.Where(s => numbered.Contains(s.CatalogNumber)
            || ((key == "" || s.Gathering.Notes.NumberKey == key)
                && (family == "" || s.Gathering.Notes.CollectorKey == family)
                && (key != "" || family != "")));
    }
}
