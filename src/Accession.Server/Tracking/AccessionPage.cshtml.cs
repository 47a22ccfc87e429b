using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

public sealed class AccessionPageModel(AccessionDb db) : PageModel
{
    public Lot Shown { get; private set; } = null!;

    public string Terms => Shown.Terms switch
    {
        AccessionTerms.FieldCollection => "Field collection",
        AccessionTerms.TakenOver => "Taken over with the numbers on the sheets",
        var terms => terms.ToString(),
    };

    public bool IsTakenOver => Shown.Terms == AccessionTerms.TakenOver;

    /// <summary>Sheets that have still no number.</summary>
    public int Left => Shown.Expected - Shown.Numbered;

    public sealed record Lot(
        long BatchId, string Number, string Source, DateTime At, string By, AccessionTerms Terms, int SheetsOnList,
        int SheetsInPile, string? CountNote, string? Conditions, string? ConditionOnArrival, string? Hazards,
        int Gatherings, int Expected, int Numbered);

    /// <summary>Sheets of the lot that do not stay, under the gathering they are of.</summary>
    public sealed record Away(
        string Collector, string Number, string Plant, int Sheets, RowDecision Decision, string? Why, string Who,
        DateTime At, string? SheetHere);

    public IReadOnlyList<Away> SetAside { get; private set; } = [];

    public int SheetsSetAside => SetAside.Sum(away => away.Sheets);

    /// <summary>The papers of its batch; empty for whoever may not see rows of batches.</summary>
    public IReadOnlyList<ShownPaper> Papers { get; private set; } = [];

    /// <summary>The permits of its batch, for the same persons.</summary>
    public IReadOnlyList<ShownPermit> Permits { get; private set; } = [];

    /// <summary>Whether this person may see the papers, which may name exact places.</summary>
    public bool MayPrint => User.IsInRole(nameof(Role.Curator)) || User.IsInRole(nameof(Role.Technician));

    public bool MaySeePapers => User.Actor().MaySeePapers;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken cancellation)
    {
        var lot = await db.Accessions.Where(l => l.Number == number)
            .Select(l => new Lot(
                l.BatchId, l.Number, db.Batches.Where(b => b.Id == l.BatchId).Select(b => b.Source.Name).Single(),
                l.Act.At, l.Act.ActorName, l.Terms, l.SheetsOnList, l.SheetsInPile, l.CountNote, l.Conditions,
                l.ConditionOnArrival, l.Hazards, db.Gatherings.Count(g => g.AccessionId == l.Id),
                db.Gatherings.Where(g => g.AccessionId == l.Id).Sum(g => g.SheetsExpected),
                db.Gatherings.Where(g => g.AccessionId == l.Id).Sum(g => g.SheetsNumbered)))
            .SingleOrDefaultAsync(cancellation);
        if (lot is null)
        {
            return NotFound();
        }

        Shown = lot;
        SetAside = await db.SetAside
            .Where(s => db.Accessions.Any(l => l.Id == s.AccessionId && l.Number == number))
            .OrderBy(s => s.Decision).ThenBy(s => s.Id)
            .Join(db.Gatherings, s => s.GatheringId, g => g.Id, (s, g) => new Away(
                g.Notes.RecordedBy, g.Notes.RecordNumber, g.Notes.NameVerbatim, s.Sheets, s.Decision, s.Act.Reason,
                s.Act.ActorName, s.Act.At,
                db.Specimens.Where(sheet => sheet.GatheringId == g.Id).OrderBy(sheet => sheet.Id)
                    .Select(sheet => sheet.CatalogNumber).FirstOrDefault()))
            .ToListAsync(cancellation);
        Papers = MaySeePapers ? await ShownPaper.OfAsync(db, lot.BatchId, cancellation) : [];
        Permits = MaySeePapers ? await ShownPermit.OfAsync(db, lot.BatchId, cancellation) : [];
        return Page();
    }
}
