using Accession.Core.Batches;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>What waits, for the work that this person does.</summary>
public sealed class WorkWaitingModel(AccessionDb db, TimeProvider clock) : PageModel
{
    public IReadOnlyList<Waiting> Tasks { get; private set; } = [];

    public sealed record Waiting(string Name, string Address, string Mark, string State, string Says);

    public async Task<IActionResult> OnGetAsync(CancellationToken cancellation)
    {
        if (!User.Actor().WorksHere)
        {
            // Whoever does not work here begins with what there is to see.
            return Redirect(User.IsInRole(nameof(Role.Collector)) ? "/mine" : "/specimens");
        }

        List<Waiting?> tasks = [];
        if (User.IsInRole(nameof(Role.Curator)))
        {
            tasks.Add(await SeriesAsync(cancellation));
            tasks.Add(await BatchesAsync(cancellation));
            tasks.AddRange(await RestingAsync(cancellation));
            tasks.Add(await RefusedLettersAsync(cancellation));
            tasks.Add(await OpinionsAsync(cancellation));
        }

        if (User.IsInRole(nameof(Role.Curator)) || User.IsInRole(nameof(Role.Technician)))
        {
            tasks.Add(await SheetsAsync(cancellation));
            tasks.Add(await ScanBacksAsync(cancellation));
            tasks.Add(await RefileAsync(cancellation));
            tasks.AddRange(await new TreatmentWaiting(db, clock).OfAsync(cancellation));
        }

        if (User.IsInRole(nameof(Role.Administrator)))
        {
            tasks.Add(await HeldMailAsync(cancellation));
        }

        if (User.IsInRole(nameof(Role.Curator)) || User.IsInRole(nameof(Role.Administrator)))
        {
            tasks.Add(await ClosedSeriesAsync(cancellation));
        }

        tasks.Add(await FailedAsync(cancellation));
        Tasks = [.. tasks.OfType<Waiting>()];
        return Page();
    }

    private async Task<Waiting?> SeriesAsync(CancellationToken cancellation)
    {
        var uses = await db.Series.Select(s => s.Use).Distinct().ToListAsync(cancellation);
        return uses.Contains(SeriesUse.Specimens) && uses.Contains(SeriesUse.Accessions)
            ? null
            : new("Begin the number series", "/series", "stop", "Not begun",
                "One for sheets and one for accessions: nothing can be numbered before.");
    }

    private async Task<Waiting?> ClosedSeriesAsync(CancellationToken cancellation)
    {
        var closed = await db.Series.CountAsync(series => series.ClosedAs != null, cancellation);
        return closed == 0
            ? null
            : new("Open the closed number series", "/series", "stop",
                closed == 1 ? "1 series" : $"{closed:N0} series",
                "They give no number until an administrator enters the highest one that is on paper.");
    }

    private async Task<Waiting?> BatchesAsync(CancellationToken cancellation)
    {
        var waiting = db.Rows.Where(BatchRow.Waiting);
        var batches = await db.Batches.CountAsync(
            b => b.JoinedToBatchId == null && waiting.Any(row => row.BatchId == b.Id), cancellation);
        return batches == 0
            ? null
            : new("Settle batches and take them in", "/batches", "waiting",
                batches == 1 ? "1 batch" : $"{batches:N0} batches",
                "Lists with rows that are not in the register yet.");
    }

    private async Task<Waiting?> SheetsAsync(CancellationToken cancellation)
    {
        var sheets = await db.Gatherings.SumAsync(g => g.SheetsExpected - g.SheetsNumbered, cancellation);
        return sheets == 0
            ? null
            : new("Number sheets in hand", "/numbering", "waiting", sheets == 1 ? "1 sheet" : $"{sheets:N0} sheets",
                "Taken into the register, and still without a number.");
    }

    private async Task<Waiting?> ScanBacksAsync(CancellationToken cancellation)
    {
        var parts = await db.Parts.CountAsync(part => !part.IsNumbered && !part.IsFromBefore, cancellation);
        return parts == 0
            ? null
            : new("Scan numbers back", "/numbering", "waiting", parts == 1 ? "1 sheet" : $"{parts:N0} sheets",
                "Numbers that were issued and not yet read from the sheet itself.");
    }

    private async Task<List<Waiting>> RestingAsync(CancellationToken cancellation)
    {
        var resting = await db.Work.Where(work => work.StoppedAt != null && work.FinishedAt == null)
            .OrderBy(work => work.Id)
            .Select(work => new { work.Id, work.Kind, By = work.StopAct!.ActorName, work.Done, work.Total })
            .ToListAsync(cancellation);
        return
        [
            .. resting.Select(work => new Waiting(
                $"Go on with what was stopped: {work.Kind}", $"/progress/{work.Id}", "waiting",
                work.Total > 0 ? $"{work.Done:N0} of {work.Total:N0}" : "Not begun",
                $"{work.By} stopped it, and whatever hangs on it waits.")),
        ];
    }

    // Only where the row still waits for the answer to just that letter.
    private async Task<Waiting?> RefusedLettersAsync(CancellationToken cancellation)
    {
        var batches = await db.Letters
            .Where(letter => letter.RefusedAt != null && letter.DecisionId != null
                && letter.DecisionId == db.Decisions.Where(d => d.RowId == letter.RowId).Max(d => (long?)d.Id))
            .Join(
                db.Rows.Where(BatchRow.Waiting).Where(row => row.Decision == RowDecision.Ask),
                letter => letter.RowId, row => (long?)row.Id, (_, row) => row.BatchId)
            .ToListAsync(cancellation);
        return batches.Count == 0
            ? null
            : new("Ask collectors again whose letters were refused",
                $"/batch/{batches.Min()}/findings?show=asked", "stop",
                batches.Count == 1 ? "1 letter" : $"{batches.Count:N0} letters",
                "They did not arrive. Beside each stands why.");
    }

    private async Task<Waiting?> OpinionsAsync(CancellationToken cancellation)
    {
        var opinions = await db.Determinations.CountAsync(d => d.Waits, cancellation);
        return opinions == 0
            ? null
            : new("Decide on names", "/opinions", "waiting",
                opinions == 1 ? "1 opinion" : $"{opinions:N0} opinions",
                "What determiners said. Nothing changes before a curator says that it counts.");
    }

    private async Task<Waiting?> RefileAsync(CancellationToken cancellation)
    {
        var sheets = await db.Specimens.CountAsync(s => s.FiledAs != "" && s.FiledAs != s.CurrentName, cancellation);
        return sheets == 0
            ? null
            : new("Refile", "/refile", "waiting",
                sheets == 1 ? "1 sheet" : $"{sheets:N0} sheets", "They lie under a name that no longer counts.");
    }

    private async Task<Waiting?> HeldMailAsync(CancellationToken cancellation)
    {
        if (!await db.MailHolds.AnyAsync(hold => hold.ReleasedActId == null, cancellation))
        {
            return null;
        }

        var letters = await db.Letters.CountAsync(l => l.SentAt == null && l.RefusedAt == null, cancellation);
        return new("Let the mail go", "/mail", "stop",
            letters switch { 0 => "No letter waits", 1 => "1 letter waits", _ => $"{letters:N0} letters wait" },
            "All mail is held.");
    }

    private async Task<Waiting?> FailedAsync(CancellationToken cancellation)
    {
        var failed = await db.Work.Where(work => work.Failure != null).OrderByDescending(work => work.Id)
            .Select(work => new { work.Kind, work.Failure }).FirstOrDefaultAsync(cancellation);
        return failed is null
            ? null
            : new($"Long work stopped: {failed.Kind}", "/batches", "stop", "Given up", failed.Failure!);
    }
}
