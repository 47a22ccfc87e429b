using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// One bench for mounting, labelling, photographing, filing and putting away: one line to scan into, one big answer,
/// the last ten scans, and a word for everything that a hand would otherwise need a mouse for.
/// </summary>
[Authorize(Access.Bench)]
public sealed class StepBenchModel(AccessionDb db, StepBenchScan scan, BenchHands bench) : PageModel
{
    public Step Step { get; private set; }

    /// <summary>What is done with what is scanned.</summary>
    public BenchDoing Doing { get; private set; } = null!;

    /// <summary>Who works.</summary>
    public BenchHands.Hands Hands { get; private set; } = null!;

    public BenchScan? Answer { get; private set; }

    public IReadOnlyList<BenchScan> Scans { get; private set; } = [];

    /// <summary>How many sheets wait for this step next.</summary>
    public int Waiting { get; private set; }

    public async Task<IActionResult> OnGetAsync(string step, string? doing, CancellationToken cancellation)
    {
        if (!Knows(step, doing))
        {
            return NotFound();
        }

        Hands = await bench.OfPageAsync(HttpContext, cancellation);
        return await ShowAsync(StatusCodes.Status200OK, cancellation);
    }

    public async Task<IActionResult> OnPostAsync(
        string step, string? code, string? doing, string? hands, CancellationToken cancellation)
    {
        if (!Knows(step, doing))
        {
            return NotFound();
        }

        var text = code?.Trim() ?? "";
        if (Badge.IsCode(text))
        {
            (Hands, var taken) = await bench.TakeUpAsync(HttpContext, text, cancellation);
            Answer = BenchScan.TookUp(taken);
            return await ShowAsync(StatusOf(taken), cancellation);
        }

        var command = BenchCommand.Read(text);
        if (command?.Kind == CommandKind.HandBack)
        {
            Hands = await bench.HandBackAsync(HttpContext, cancellation);
            Answer = BenchScan.HandedBack(Hands.By!.Name);
            return await ShowAsync(StatusCodes.Status200OK, cancellation);
        }

        var who = await bench.OfScanAsync(HttpContext, hands, cancellation);
        Hands = new(who.IsRefused ? null : who.Value, hands ?? "");
        if (who.IsRefused)
        {
            Answer = BenchScan.Refused(text, who.Refusals);
            return await ShowAsync(StatusOf(who), cancellation);
        }

        return command is null or { Kind: CommandKind.Undo }
            ? await ScanAsync(text, who.Value, cancellation)
            : await ObeyAsync(command, cancellation);
    }

    private async Task<IActionResult> ScanAsync(string text, Actor who, CancellationToken cancellation)
    {
        var outcome = await scan.RunAsync(Doing, text, HttpContext.Door() with { By = who }, cancellation);
        Answer = outcome.IsRefused ? BenchScan.Refused(text, outcome.Refusals) : BenchScan.Of(outcome.Value);
        return await ShowAsync(StatusOf(outcome), cancellation);
    }

    private async Task<IActionResult> ObeyAsync(BenchCommand command, CancellationToken cancellation)
    {
        if (BenchDoing.Read(command.Word) is not { } doing)
        {
            Answer = BenchScan.SameAlready(command.Word);
            return await ShowAsync(StatusCodes.Status200OK, cancellation);
        }

        // Also where it cannot be done: what is scanned next was meant for it, and is refused rather than done to
        // another place.
        Doing = doing;
        var refusal = await scan.WhyNotAsync(doing, cancellation);
        Answer = refusal is null ? BenchScan.Now(doing) : BenchScan.Refused(command.Word, [refusal]);
        return await ShowAsync(refusal?.Kind.StatusCode() ?? StatusCodes.Status200OK, cancellation);
    }

    private static int StatusOf<T>(Outcome<T> outcome) =>
        outcome.IsRefused ? outcome.Refusals[0].Kind.StatusCode() : StatusCodes.Status200OK;

    private bool Knows(string step, string? doing)
    {
        var known = BenchCommand.Steps.Select(one => (Step?)one.Step)
            .FirstOrDefault(one => one.ToString()!.Equals(step, StringComparison.OrdinalIgnoreCase));
        if (known is null)
        {
            return false;
        }

        Doing = BenchDoing.Read(doing) ?? BenchDoing.Of(known.Value);
        Step = Doing.Step ?? known.Value;
        return true;
    }

    // The script asks for a fragment and keeps the line; without script the whole page is the answer.
    private async Task<IActionResult> ShowAsync(int status, CancellationToken cancellation)
    {
        Step = Doing.Step ?? Step;
        Waiting = Doing.Step is null ? 0 : await db.Parts.CountAsync(p => p.NextStep == Step, cancellation);
        if (Answer is not null && Request.Headers["X-Scan"] == "1")
        {
            Response.StatusCode = status;
            return Partial("/Mounting/_StepFragment.cshtml", this);
        }

        var acts = Doing.Step is null || Hands.By is null
            ? []
            : await LastScans.OfAsync(db, Step, Hands.Id, cancellation);
        // What was refused, and what was no act, stands above the acts until the page is loaded again.
        Scans = [.. (Answer is { } said && !acts.Any(act => act.Code == said.Code) ? acts.Prepend(said) : acts)
            .Take(LastScans.Most)];
        return new PageResult { StatusCode = status };
    }
}
