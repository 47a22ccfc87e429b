using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// All sheets of one gathering as far as they ever came here: those of every record that was kept as a duplicate of it,
/// and those that were set aside.
/// </summary>
/// <param name="Numbered">Those with a number.</param>
/// <param name="Waiting">How many wait for their number, by gathering.</param>
/// <param name="SetAside">Those that took no number, with where they went and why.</param>
public sealed record DuplicateSheets(
    IReadOnlyList<DuplicateSheets.Sheet> Numbered,
    IReadOnlyList<DuplicateSheets.Unnumbered> Waiting,
    IReadOnlyList<DuplicateSheets.Away> SetAside)
{
    /// <summary>A numbered sheet, and the accession it came with.</summary>
    public sealed record Sheet(string CatalogNumber, int Repeat, bool IsRepeated, string Accession)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    /// <summary>Sheets of a gathering that have no number yet.</summary>
    public sealed record Unnumbered(long GatheringId, string Accession, int Sheets);

    /// <summary>Sheets that do not stay.</summary>
    public sealed record Away(int Sheets, RowDecision Decision, string Accession, string? Why, string Who, DateTime At);

    /// <summary>All of them that somebody may see, whichever record of the gathering is asked for.</summary>
    /// <param name="seen">The gatherings that the person may see.</param>
    public static async Task<DuplicateSheets> OfAsync(
        AccessionDb db, long gatheringId, IQueryable<Gathering> seen, CancellationToken cancellation)
    {
        var first = await db.Gatherings.Where(g => g.Id == gatheringId).Select(g => g.DuplicateOfId ?? g.Id)
            .SingleAsync(cancellation);
        var gatherings = seen.Where(g => g.Id == first || g.DuplicateOfId == first);
        var numbered = await db.Specimens.Where(s => gatherings.Any(g => g.Id == s.GatheringId))
            .OrderBy(s => s.CatalogNumber).ThenBy(s => s.Repeat)
            .Select(s => new Sheet(
                s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                db.Accessions.Where(lot => lot.Id == s.Gathering.AccessionId).Select(lot => lot.Number).Single()))
            .ToListAsync(cancellation);
        var waiting = await gatherings.Where(g => g.SheetsNumbered < g.SheetsExpected).OrderBy(g => g.Id)
            .Select(g => new Unnumbered(
                g.Id,
                db.Accessions.Where(lot => lot.Id == g.AccessionId).Select(lot => lot.Number).Single(),
                g.SheetsExpected - g.SheetsNumbered))
            .ToListAsync(cancellation);
        var away = await db.SetAside.Where(s => gatherings.Any(g => g.Id == s.GatheringId)).OrderBy(s => s.Id)
            .Select(s => new Away(
                s.Sheets, s.Decision,
                db.Accessions.Where(lot => lot.Id == s.AccessionId).Select(lot => lot.Number).Single(),
                s.Act.Reason, s.Act.ActorName, s.Act.At))
            .ToListAsync(cancellation);
        return new(numbered, waiting, away);
    }
}
