using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>What a collector collected, and where its sheets are; what came last stands first.</summary>
public sealed class OwnGatherings(AccessionDb db, SeenSheets seen)
{
    /// <summary>One gathering with its sheets, in the order in which they were numbered.</summary>
    public sealed record Mine(Gathered Of, IReadOnlyList<Sheet> Sheets, IReadOnlyList<Away> SetAside)
    {
        /// <summary>How many sheets are here without a number.</summary>
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

    /// <summary>The gatherings of the collector who asks.</summary>
    /// <param name="me">The collector; somebody else has none.</param>
    /// <param name="q">The collector's number; all of them without.</param>
    /// <param name="before">The gathering behind which the page begins; null for the first page.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<IReadOnlyList<Mine>> OfAsync(
        Actor me, string? q, long? before, int take, CancellationToken cancellation)
    {
        var query = string.IsNullOrWhiteSpace(q) ? null : q.Trim();
        var number = query is null ? default : CollectorNumber.Read(query);
        var key = number is { IsRead: true, Value.IsWithoutNumber: false } ? number.Value.Key : null;
        return await WithSheetsAsync(
            await seen.OwnOf(me)
                .Where(g => query == null || (key != null ? g.Notes.NumberKey == key : g.Notes.RecordNumber == query))
                .Where(g => before == null || g.Id < before)
                .OrderByDescending(g => g.Id)
                .Take(take)
                .Select(g => new Gathered(
                    g.Id, g.Notes.RecordNumber, g.Notes.EventDate, g.Notes.DateVerbatim, g.Notes.NameVerbatim,
                    db.Accessions.Where(lot => lot.Id == g.AccessionId).Select(lot => lot.Number).Single(),
                    g.SheetsExpected, g.SheetsNumbered))
                .ToListAsync(cancellation),
            cancellation);
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
