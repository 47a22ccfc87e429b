using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Server.Hosting;
using Accession.Server.Mail;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

/// <summary>
/// Settling what was found: one row at a time beside what it was found with, one key for each decision.
/// </summary>
public sealed class FindingsModel(
    AccessionDb db, FoundRows found, SettleFinding settle, ReopenFinding reopen, HoldMail hold,
    IOptions<MailOptions> mail, IOptions<InstitutionOptions> house, InstitutionClock clock, TimeProvider time)
    : PageModel
{
    private const string LastSettled = "LastSettled";
    private const string LastReason = "LastReason";

    public long Id { get; private set; }

    public string Source { get; private set; } = "";

    public int Undecided { get; private set; }

    public int Asked { get; private set; }

    public int Settled { get; private set; }

    /// <summary>The row that is shown; null when nothing is open.</summary>
    public FoundRows.Shown? Row { get; private set; }

    /// <summary>
    /// The row that was settled last by this person, which can be taken back; null when there is none.
    /// </summary>
    public long? Undoable { get; private set; }

    public string? Reason { get; private set; }

    public bool ShowsAsked { get; private set; }

    /// <summary>The letter to the collector that is being written; null while nobody writes one.</summary>
    public AskCollector.Question? Asks { get; private set; }

    /// <summary>The letters that were written about the row that is shown.</summary>
    public IReadOnlyList<ShownLetter> Letters { get; private set; } = [];

    /// <summary>The rows whose collector is asked, with the letter of each; empty elsewhere.</summary>
    public IReadOnlyList<AskedRow> AskedRows { get; private set; } = [];

    /// <summary>Whether an administrator holds all mail.</summary>
    public bool IsMailHeld { get; private set; }

    /// <summary>Whether letters become files and leave the house by nobody's hand but the curator's.</summary>
    public bool MailsToFiles => mail.Value.Kind == MailKind.Files;

    /// <summary>
    /// Whether the collector may be written to: never while a letter is out that may still be answered.
    /// </summary>
    public bool MayAsk { get; private set; }

    public async Task<IActionResult> OnGetAsync(
        long id, int? after, string? show, long? ask, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, after ?? 0, show == "asked", ask, cancellation))
        {
            return NotFound();
        }

        if (ask is not null && Row?.RowId == ask && MayAsk)
        {
            Asks = await DraftAsync(id, Row, cancellation);
        }

        return Page();
    }

    public async Task<IActionResult> OnPostAsync(
        long id, long row, RowDecision decision, long seen, string? reason, string? show,
        CancellationToken cancellation)
    {
        var outcome = await settle.RunAsync(
            new(id, row, decision, seen, TakesReason(decision) || show == "asked" ? reason : null),
            HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            Reason = reason;
            return await LoadAsync(id, 0, show == "asked", row, cancellation)
                ? this.Show(outcome.Refusals)
                : NotFound();
        }

        TempData["Said"] = $"Line {outcome.Value.Line}: {Words(outcome.Value.Decision)}.";
        TempData[LastSettled] = row.ToString(System.Globalization.CultureInfo.InvariantCulture);
        if (TakesReason(decision))
        {
            TempData[LastReason] = reason;
        }

        return Redirect($"/batch/{id}/findings?after={outcome.Value.Line}{(show == "asked" ? "&show=asked" : "")}");
    }

    public async Task<IActionResult> OnPostAskAsync(
        long id, long row, long seen, string? address, string? subject, string? text, int lettersSeen, string? show,
        CancellationToken cancellation)
    {
        var question = new AskCollector.Question(address, subject, text, lettersSeen);
        var outcome = await settle.RunAsync(
            new(id, row, RowDecision.Ask, seen, null, question), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            if (!await LoadAsync(id, 0, show == "asked", row, cancellation))
            {
                return NotFound();
            }

            // What was written stands there again, as long as it can still be sent.
            Asks = MayAsk ? question : null;
            return this.Show(outcome.Refusals);
        }

        TempData["Said"] = MailsToFiles
            ? $"Line {outcome.Value.Line}: the question to the collector is written into the folder mail/out."
            : $"Line {outcome.Value.Line}: the question goes to the collector.";
        TempData[LastSettled] = row.ToString(System.Globalization.CultureInfo.InvariantCulture);
        return Redirect($"/batch/{id}/findings?after={outcome.Value.Line}{(show == "asked" ? "&show=asked" : "")}");
    }

    public async Task<IActionResult> OnPostReopenAsync(long id, long row, CancellationToken cancellation)
    {
        var outcome = await reopen.RunAsync(new(id, row), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            return await LoadAsync(id, 0, false, null, cancellation) ? this.Show(outcome.Refusals) : NotFound();
        }

        var letter = outcome.Value.Letter is { } at
            ? $" The letter of {clock.ShowDay(at)} to the collector is not recalled."
            : "";
        TempData["Said"] = $"Line {outcome.Value.Line} is open again.{letter}";
        return Redirect($"/batch/{id}/findings?after={outcome.Value.Line - 1}");
    }

    // One that was written for other sheets stands in the field still, and says nothing about those of an exchange.
    private static bool TakesReason(RowDecision decision) => decision is RowDecision.Return or RowDecision.Discard;

    /// <summary>What a finding is called.</summary>
    public static string Name(FindingKind kind) => kind switch
    {
        FindingKind.Repeat => "Repeat",
        FindingKind.SameGathering => "Same gathering",
        FindingKind.NumberClash => "Number clash",
        FindingKind.Possible => "Possible",
        _ => "New",
    };

    private static string Words(RowDecision decision) => decision switch
    {
        RowDecision.Keep => "kept as a duplicate sheet",
        RowDecision.Ask => "waits for the collector's answer",
        RowDecision.Different => "another gathering, and not asked again",
        _ => $"set aside {Shared.WayOut.Of(decision)}",
    };

    private async Task<bool> LoadAsync(
        long id, int after, bool asked, long? rowId, CancellationToken cancellation)
    {
        var batch = await found.BatchAsync(id, cancellation);
        if (batch is null)
        {
            return false;
        }

        (Id, Source, ShowsAsked) = (id, batch.Source.Name, asked);
        var rows = db.Rows.AsNoTracking().Where(row => row.BatchId == id);
        Undecided = await rows.Where(SettledRows.Undecided).CountAsync(cancellation);
        Asked = await rows.Where(SettledRows.Asked).CountAsync(cancellation);
        Settled = await rows.CountAsync(row => row.Decision != null && row.Decision != RowDecision.Ask, cancellation);
        var open = rows.Where(asked ? SettledRows.Asked : SettledRows.Undecided)
            .OrderBy(row => row.Line).ThenBy(row => row.Id);
        var row = rowId is { } wanted
            ? await rows.SingleOrDefaultAsync(r => r.Id == wanted && r.Finding != null, cancellation)
            : null;
        row ??= await open.FirstOrDefaultAsync(r => r.Line > after, cancellation)
            ?? await open.FirstOrDefaultAsync(cancellation);
        Row = row is null ? null : (await found.OfAsync(batch, [row], cancellation))[0];
        Letters = Row is null ? [] : await ShownLetter.AboutAsync(db, [Row.RowId], cancellation);
        MayAsk = row is not null && (row.Decision != RowDecision.Ask
            || await AskCollector.LetterInForceAsync(db, row, cancellation) is null or { IsRefused: true });
        IsMailHeld = await hold.CurrentAsync(cancellation) is not null;
        AskedRows = asked ? await AskedRow.OfAsync(db, id, cancellation) : [];
        Undoable = long.TryParse(TempData.Peek(LastSettled) as string, out var last)
            && await rows.AnyAsync(r => r.Id == last && r.GatheringId == null, cancellation)
            ? last
            : null;
        // Why sheets leave stays for the next; what one collector answered does not.
        Reason ??= asked ? null : TempData.Peek(LastReason) as string;
        return true;
    }

    private async Task<AskCollector.Question> DraftAsync(long id, FoundRows.Shown row, CancellationToken cancellation)
    {
        var address = await db.Batches.Where(batch => batch.Id == id).Select(batch => batch.Source.CollectorAddress)
            .SingleAsync(cancellation);
        var answerBy = clock.ShowDay(time.GetUtcNow().UtcDateTime + QuestionToCollector.AnswerWithin);
        return new(
            address, QuestionToCollector.Subject(row), QuestionToCollector.Draft(row, house.Value.Name, answerBy),
            Letters.Count);
    }
}
