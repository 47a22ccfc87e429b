using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>For a collector: every number of mine, and where its sheets are. What came last stands first.</summary>
[Authorize(Access.Collectors)]
public sealed class MyGatheringsModel(AccessionDb db, SeenSheets seen) : PageModel
{
    private const int PageSize = 50;

    /// <summary>As whom a curator knows this account; null while nobody said so.</summary>
    public string? Person { get; private set; }

    public string? Query { get; private set; }

    public IReadOnlyList<Mine> Shown { get; private set; } = [];

    public long? Next { get; private set; }

    /// <summary>One gathering with its sheets, in the order in which they were numbered.</summary>
    public sealed record Mine(Gathered Of, IReadOnlyList<Sheet> Sheets, IReadOnlyList<Away> SetAside)
    {
        public int Waiting => Of.Expected - Of.Numbered;
    }

    public sealed record Gathered(
        long Id, string RecordNumber, string EventDate, string DateVerbatim, string NameVerbatim, string Accession,
        int Expected, int Numbered);

    public sealed record Sheet(
        long GatheringId, string CatalogNumber, int Repeat, bool IsRepeated, string Name, string Holder)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    public sealed record Away(long GatheringId, int Sheets, RowDecision Decision);

    public async Task OnGetAsync(string? q, long? before, CancellationToken cancellation)
    {
        var me = User.Actor();
        Query = string.IsNullOrWhiteSpace(q) ? null : q.Trim();
        Person = await db.AccountTies.Where(t => t.AccountId == me.Id && t.EndedActId == null)
            .Join(db.Persons, tie => tie.PersonId, person => person.Id, (_, person) => person.Name)
            .SingleOrDefaultAsync(cancellation);
        var number = Query is null ? default : CollectorNumber.Read(Query);
        var key = number is { IsRead: true, Value.IsWithoutNumber: false } ? number.Value.Key : null;
        var found = await seen.OwnOf(me)
            .Where(g => Query == null || (key != null ? g.Notes.NumberKey == key : g.Notes.RecordNumber == Query))
            .Where(g => before == null || g.Id < before)
            .OrderByDescending(g => g.Id)
            .Take(PageSize + 1)
            .Select(g => new Gathered(
                g.Id, g.Notes.RecordNumber, g.Notes.EventDate, g.Notes.DateVerbatim, g.Notes.NameVerbatim,
                db.Accessions.Where(lot => lot.Id == g.AccessionId).Select(lot => lot.Number).Single(),
                g.SheetsExpected, g.SheetsNumbered))
            .ToListAsync(cancellation);
        Next = found.Count > PageSize ? found[PageSize - 1].Id : null;
        Shown = await WithSheetsAsync([.. found.Take(PageSize)], cancellation);
    }

    private async Task<List<Mine>> WithSheetsAsync(List<Gathered> gathered, CancellationToken cancellation)
    {
        var ids = gathered.ConvertAll(g => g.Id);
        var sheets = (await db.Specimens.Where(s => ids.Contains(s.GatheringId)).OrderBy(s => s.Id)
            .Select(s => new Sheet(
                s.GatheringId, s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                s.CurrentName, s.Parts.OrderBy(part => part.Id).Select(part => part.Holder).First()))
            .ToListAsync(cancellation)).ToLookup(sheet => sheet.GatheringId);
        var away = (await db.SetAside.Where(s => ids.Contains(s.GatheringId)).OrderBy(s => s.Id)
            .Select(s => new Away(s.GatheringId, s.Sheets, s.Decision))
            .ToListAsync(cancellation)).ToLookup(one => one.GatheringId);
        return gathered.ConvertAll(g => new Mine(g, [.. sheets[g.Id]], [.. away[g.Id]]));
    }
}
