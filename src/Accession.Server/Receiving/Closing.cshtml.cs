using Accession.Core.Accessions;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

public sealed class ClosingModel(AccessionDb db, CloseBatch close, ReopenBatch reopen) : PageModel
{
    private const int MostEntries = 50;

    public long Id { get; private set; }

    public string Source { get; private set; } = "";

    public string? AccessionNumber { get; private set; }

    public string? PileNote { get; private set; }

    public bool IsClosed { get; private set; }

    /// <summary>The check as the register has it now; null while nothing is in the register.</summary>
    public TransmittalCheck? Check { get; private set; }

    /// <summary>What is missing and extra: as it was kept when the batch was closed, otherwise as it is now.</summary>
    public IReadOnlyList<TransmittalCheck.Differing> Missing { get; private set; } = [];

    public IReadOnlyList<TransmittalCheck.Differing> Extra { get; private set; } = [];

    /// <summary>Closings and reopenings, the latest first.</summary>
    public IReadOnlyList<Entry> Entries { get; private set; } = [];

    [BindProperty]
    public int? SheetsInTransmittal { get; set; }

    [BindProperty]
    public string? Note { get; set; }

    [BindProperty]
    public int? DifferingSeen { get; set; }

    [BindProperty]
    public string? Reason { get; set; }

    /// <summary>An entry of the batch's closings.</summary>
    public sealed record Entry(
        long Id, bool IsClosing, DateTime At, string By, string? Note, int? SheetsInTransmittal, int SheetsOnList,
        int? SheetsInPile, int SheetsNumbered, int SheetsSetAside);

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation) =>
        await LoadAsync(id, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(long id, CancellationToken cancellation)
    {
        var outcome = await close.RunAsync(
            new(id, SheetsInTransmittal, Note, DifferingSeen), HttpContext.Door(), cancellation);
        return await AnswerAsync(
            id, outcome, "The batch is closed. Print what is missing for the sender.", nameof(Note), cancellation);
    }

    public async Task<IActionResult> OnPostReopenAsync(long id, CancellationToken cancellation)
    {
        var outcome = await reopen.RunAsync(new(id, Reason), HttpContext.Door(), cancellation);
        return await AnswerAsync(id, outcome, "The batch is open again.", nameof(Reason), cancellation);
    }

    private async Task<IActionResult> AnswerAsync(
        long id, Outcome<long> outcome, string said, string field, CancellationToken cancellation)
    {
        if (!outcome.IsRefused)
        {
            TempData["Said"] = said;
            return Redirect($"/batch/{id}/closing");
        }

        return await LoadAsync(id, cancellation)
            ? this.Show(outcome.Refusals, outcome.Refusals[0].Kind == RefusalKind.Invalid ? field : "")
            : NotFound();
    }

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        var batch = await db.Batches.Where(b => b.Id == id && b.JoinedToBatchId == null)
            .Select(b => new { b.Source.Name, b.ClosedActId }).SingleOrDefaultAsync(cancellation);
        if (batch is null)
        {
            return false;
        }

        (Id, Source, IsClosed) = (id, batch.Name, batch.ClosedActId is not null);
        var lot = await db.Accessions.Where(l => l.BatchId == id).Select(l => new { l.Number, l.CountNote })
            .SingleOrDefaultAsync(cancellation);
        (AccessionNumber, PileNote) = (lot?.Number, lot?.CountNote);
        Entries = await db.Closings.Where(c => c.BatchId == id).OrderByDescending(c => c.Id).Take(MostEntries)
            .Select(c => new Entry(
                c.Id, c.IsClosing, c.Act.At, c.Act.ActorName, c.Act.Reason, c.SheetsInTransmittal, c.SheetsOnList,
                c.SheetsInPile, c.SheetsNumbered, c.SheetsSetAside))
            .ToListAsync(cancellation);
        if (IsClosed)
        {
            await LoadKeptAsync(Entries[0].Id, cancellation);
            return true;
        }

        Check = await TransmittalChecks.OfAsync(db, id, SheetsInTransmittal, cancellation);
        (Missing, Extra) = (Check?.Missing ?? [], Check?.Extra ?? []);
        return true;
    }

    private async Task LoadKeptAsync(long entryId, CancellationToken cancellation)
    {
        var kept = await db.Closings.Where(c => c.Id == entryId).SelectMany(c => c.Sheets).OrderBy(s => s.Id)
            .Select(s => new { s.IsMissing, s.GatheringId, s.Collector, s.Number, s.Plant, s.Sheets })
            .ToListAsync(cancellation);
        var sheets = kept.ToLookup(
            s => s.IsMissing,
            s => new TransmittalCheck.Differing(s.GatheringId, s.Collector, s.Number, s.Plant, s.Sheets));
        (Missing, Extra) = ([.. sheets[true]], [.. sheets[false]]);
    }
}
