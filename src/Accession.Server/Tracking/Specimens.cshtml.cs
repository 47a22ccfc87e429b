using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// The register of numbered sheets, newest first; found by catalog number, or by collector and number.
/// </summary>
public sealed class SpecimensModel(AccessionDb db, SeenSheets seen, TypedNumbers typed) : PageModel
{
    private const int PageSize = 50;

    public string? Query { get; private set; }

    public IReadOnlyList<Sheet> Shown { get; private set; } = [];

    public long? Next { get; private set; }

    /// <summary>The counties that bound what is shown; null where nothing does.</summary>
    public string? Bounds { get; private set; }

    private IQueryable<Specimen> Seen => seen.Of(User.Actor());

    public string Says => Query is null ? "Every sheet that has a number." : $"What answers to \"{Query}\".";

    public sealed record Sheet(
        long Id, string CatalogNumber, int Repeat, bool IsRepeated, string Name, string RecordedBy,
        string RecordNumber, string EventDate, string DateVerbatim, string County, string StateProvince)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    public async Task<IActionResult> OnGetAsync(string? q, long? before, CancellationToken cancellation)
    {
        Query = string.IsNullOrWhiteSpace(q) ? null : q.Trim();
        Bounds = await BoundsAsync(cancellation);
        var meant = Query is null ? null : await typed.FindAsync(Query, Seen, cancellation);
        if (meant?.Certain is { } written)
        {
            return Redirect(SpecimenAddress.Of(written));
        }

        var sheets = await Found(meant?.Possible ?? [])
            .Where(s => before == null || s.Id < before)
            .OrderByDescending(s => s.Id)
            .Take(PageSize + 1)
            .Select(s => new Sheet(
                s.Id, s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                s.CurrentName, s.Gathering.Notes.RecordedBy, s.Gathering.Notes.RecordNumber,
                s.Gathering.Notes.EventDate, s.Gathering.Notes.DateVerbatim, s.Gathering.Place.County,
                s.Gathering.Place.StateProvince))
            .ToListAsync(cancellation);
        Shown = [.. sheets.Take(PageSize)];
        Next = sheets.Count > PageSize ? Shown[^1].Id : null;
        return Page();
    }

    private async Task<string?> BoundsAsync(CancellationToken cancellation)
    {
        var who = User.Actor();
        if (who.SeesWholeRegister)
        {
            return null;
        }

        List<string> bounds = who.Roles.Contains(Role.WeedOfficer)
            ? await db.AccountCounties.Where(c => c.AccountId == who.Id).OrderBy(c => c.Written)
                .Select(c => c.Written).ToListAsync(cancellation)
            : [];
        return string.Join("; ", who.Roles.Contains(Role.Collector) ? bounds.Append("what I collected") : bounds);
    }

    private IQueryable<Specimen> Found(IReadOnlyList<string> numbered)
    {
        if (Query is null)
        {
            return Seen;
        }

        var words = Query.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var number = CollectorNumber.Read(words[^1]);
        var key = number is { IsRead: true, Value.IsWithoutNumber: false } ? number.Value.Key : "";
        var names = key.Length == 0 ? words : words[..^1];
        var people = names.Length == 0 ? default : Collectors.Read(string.Join(' ', names));
        var family = people is { IsRead: true, Value.Persons: [var first, ..] } ? first.FamilyKey : "";
        // "1234" may be a collector's number, or what stands under a barcode.
        return Seen.Where(s => numbered.Contains(s.CatalogNumber)
            || ((key == "" || s.Gathering.Notes.NumberKey == key)
                && (family == "" || s.Gathering.Notes.CollectorKey == family)
                && (key != "" || family != "")));
    }
}
