using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>The numbers that more than one sheet bears, with the sheets.</summary>
public sealed class RepeatedNumbersModel(AccessionDb db) : PageModel
{
    private const int PageSize = 100;

    public long Count { get; private set; }

    public IReadOnlyList<Repeated> Shown { get; private set; } = [];

    /// <summary>Where the next page begins; null on the last one.</summary>
    public (string Number, long Id)? Next { get; private set; }

    /// <summary>A number and the sheets that bear it.</summary>
    public sealed record Repeated(string CatalogNumber, IReadOnlyList<Sheet> Sheets);

    public sealed record Sheet(
        long SeriesId, long Number, string CatalogNumber, int Repeat, string Name, string RecordedBy,
        string RecordNumber)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, isRepeated: true);
    }

    public async Task OnGetAsync(string? after, long? id, CancellationToken cancellation)
    {
        await using var moment = await db.Kind.ReadOneMomentAsync(db, cancellation);
        // Each such number has just one second sheet. The two conditions are what its index asks for.
        var second = db.Specimens.Where(s => s.Repeat > 0 && s.Repeat == 1);
        Count = await second.LongCountAsync(cancellation);
        var from = after ?? "";
        var keys = await second
            .Where(s => after == null || s.CatalogNumber.CompareTo(from) > 0
                || (s.CatalogNumber == from && s.Id > (id ?? 0)))
            .OrderBy(s => s.CatalogNumber).ThenBy(s => s.Id).Take(PageSize + 1)
            .Select(s => new { s.Id, s.SeriesId, s.Number, s.CatalogNumber }).ToListAsync(cancellation);
        var ids = keys.Take(PageSize).Select(key => key.Id).ToList();
        var sheets = (await db.Specimens
            .Where(s => db.Specimens.Any(
                o => ids.Contains(o.Id) && o.SeriesId == s.SeriesId && o.Number == s.Number))
            .OrderBy(s => s.Repeat)
            .Select(s => new Sheet(
                s.SeriesId, s.Number, s.CatalogNumber, s.Repeat, s.CurrentName, s.Gathering.Notes.RecordedBy,
                s.Gathering.Notes.RecordNumber))
            .ToListAsync(cancellation)).ToLookup(sheet => (sheet.SeriesId, sheet.Number));
        Shown =
        [
            .. keys.Take(PageSize).Select(key => new Repeated(
                key.CatalogNumber, [.. sheets[(key.SeriesId, key.Number)]])),
        ];
        Next = keys.Count > PageSize ? (keys[PageSize - 1].CatalogNumber, keys[PageSize - 1].Id) : null;
    }
}
