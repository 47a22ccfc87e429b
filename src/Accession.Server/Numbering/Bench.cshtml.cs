using Accession.Core.Gatherings;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>The numbering bench: one line to scan into, one big answer, the last ten scans.</summary>
public sealed class BenchModel(
    AccessionDb db, ScanSheet scan, NumberSheet numberSheet, ExpectAnotherSheet another) : PageModel
{
    private long _accessionId;

    public string AccessionNumber { get; private set; } = "";

    public string? Who => User.Actor().Id;

    public PileInHand.Sheet? InHand { get; private set; }

    public IReadOnlyList<PileInHand.Sheet> Found { get; private set; } = [];

    public BenchAnswer? Answer { get; private set; }

    public IReadOnlyList<ShownSeries> Series { get; private set; } = [];

    public int Expected { get; private set; }

    public int Left { get; private set; }

    public int ToScanBack { get; private set; }

    /// <summary>Whether the sheet in hand was just given a number that has still to be read from it.</summary>
    public bool AwaitsScan => Answer?.AwaitsScan == true;

    public sealed record ShownSeries(long Id, string Name);

    public async Task<IActionResult> OnGetAsync(string number, long? gathering, CancellationToken cancellation) =>
        await LoadAsync(number, gathering, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(
        string number, string? code, long? gathering, CancellationToken cancellation)
    {
        if (!await LoadAsync(number, gathering, cancellation))
        {
            return NotFound();
        }

        var text = code?.Trim() ?? "";
        if (IsWord(text, "more"))
        {
            return await OnPostExtraAsync(number, gathering ?? 0, cancellation);
        }

        if (IsWord(text, "next") && Series is [var series])
        {
            return await OnPostNextAsync(number, gathering ?? 0, series.Id, cancellation);
        }

        var scanned = await scan.RunAsync(new(text, gathering), HttpContext.Door(), cancellation);
        if (scanned is { IsRefused: true, Refusals: [{ Kind: RefusalKind.NotFound }] })
        {
            // What is no number of ours may be a collector number: that takes up another gathering of the pile.
            Found = await PileInHand.FindAsync(db, _accessionId, text, cancellation);
        }

        Answer = Found switch
        {
            [var only] => BenchAnswer.TakenUp(text, only),
            { Count: > 1 } => BenchAnswer.Several(text, Found.Count),
            _ => BenchAnswer.Of(text, scanned),
        };
        var stay = Found is [var chosen] ? chosen.Id : gathering;
        return await RespondAsync(number, stay, Found.Count > 0 ? (Outcome<SheetAtBench>?)null : scanned, cancellation);
    }

    public async Task<IActionResult> OnPostNextAsync(
        string number, long gathering, long series, CancellationToken cancellation)
    {
        if (!await LoadAsync(number, gathering, cancellation))
        {
            return NotFound();
        }

        var outcome = await numberSheet.RunAsync(new(gathering, series, null), HttpContext.Door(), cancellation);
        Answer = BenchAnswer.Of(InHand?.Label ?? "", outcome);
        return await RespondAsync(number, gathering, outcome, cancellation);
    }

    public async Task<IActionResult> OnPostExtraAsync(string number, long gathering, CancellationToken cancellation)
    {
        var outcome = await another.RunAsync(gathering, HttpContext.Door(), cancellation);
        Answer = outcome.IsRefused
            ? BenchAnswer.Refused("one more", outcome.Refusals)
            : BenchAnswer.Counted(outcome.Value);
        var status = outcome.IsRefused ? outcome.Refusals[0].Kind.StatusCode() : StatusCodes.Status200OK;
        return await ShowAsync(number, gathering, status, cancellation);
    }

    // The script asks for a fragment and keeps the line; without script the whole page is the answer.
    private async Task<IActionResult> RespondAsync(
        string number, long? stay, Outcome<SheetAtBench>? outcome, CancellationToken cancellation)
    {
        var status = outcome is { IsRefused: true } refused
            ? refused.Refusals[0].Kind.StatusCode()
            : StatusCodes.Status200OK;
        return await ShowAsync(number, stay, status, cancellation);
    }

    private async Task<IActionResult> ShowAsync(
        string number, long? stay, int status, CancellationToken cancellation)
    {
        if (!await LoadAsync(number, stay, cancellation))
        {
            return NotFound();
        }

        if (Request.Headers["X-Scan"] == "1")
        {
            Response.StatusCode = status;
            return Partial("/Numbering/_ScanFragment.cshtml", this);
        }

        return new PageResult { StatusCode = status };
    }

    private static bool IsWord(string text, string word) => text.Equals(word, StringComparison.OrdinalIgnoreCase);

    private async Task<bool> LoadAsync(string number, long? gathering, CancellationToken cancellation)
    {
        var lot = await db.Accessions.Where(l => l.Number == number).Select(l => new { l.Id })
            .SingleOrDefaultAsync(cancellation);
        if (lot is null)
        {
            return false;
        }

        (AccessionNumber, _accessionId) = (number, lot.Id);
        var pile = db.Gatherings.Where(g => g.AccessionId == lot.Id);
        Expected = await pile.SumAsync(g => g.SheetsExpected, cancellation);
        Left = Expected - await pile.SumAsync(g => g.SheetsNumbered, cancellation);
        ToScanBack = await db.Specimens.CountAsync(
            s => s.Gathering.AccessionId == lot.Id && s.Parts.Any(part => !part.IsNumbered), cancellation);
        Series = await db.Series.Where(s => s.Use == SeriesUse.Specimens).OrderBy(s => s.Id)
            .Select(s => new ShownSeries(s.Id, s.Name)).ToListAsync(cancellation);
        var chosen = gathering is null
            ? null
            : await PileInHand.OfAsync(db, lot.Id, gathering.Value, cancellation);
        // A gathering whose sheets are all numbered makes room for the next one of the pile; not before its last number
        // was scanned back, or the label on the screen would not be that of the sheet in the hand.
        InHand = chosen is { Left: > 0 } || Answer?.Mark == "stop" || AwaitsScan
            ? chosen ?? await PileInHand.NextAsync(db, lot.Id, cancellation)
            : await PileInHand.NextAsync(db, lot.Id, cancellation);
        return true;
    }
}
