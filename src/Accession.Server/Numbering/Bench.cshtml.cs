using Accession.Core.Gatherings;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>The numbering bench: one line to scan into, one big answer, the last ten scans.</summary>
public sealed class BenchModel(
    AccessionDb db, ScanSheet scan, NumberSheet numberSheet, ExpectAnotherSheet another,
    CatalogNumbers codes) : PageModel
{
    private const int MostScans = 10;

    private long _accessionId;

    public string AccessionNumber { get; private set; } = "";

    public string? Who => User.Actor().Id;

    public PileInHand.Sheet? InHand { get; private set; }

    public IReadOnlyList<PileInHand.Sheet> Found { get; private set; } = [];

    public BenchAnswer? Answer { get; private set; }

    /// <summary>
    /// The last ten lines of the list: what this person did here, from the register, and above it an answer that was no
    /// act and would be gone.
    /// </summary>
    public IReadOnlyList<BenchAnswer> Scans { get; private set; } = [];

    public IReadOnlyList<ShownSeries> Series { get; private set; } = [];

    /// <summary>
    /// The parcels its batch came in; it is asked out of which a sheet is only where there are several.
    /// </summary>
    public IReadOnlyList<ParcelInHand.Shown> Parcels { get; private set; } = [];

    /// <summary>The parcel that was chosen, which stays chosen.</summary>
    [BindProperty(SupportsGet = true)]
    public long? Parcel { get; set; }

    public int Expected { get; private set; }

    public int Left { get; private set; }

    public int ToScanBack { get; private set; }

    /// <summary>Whether the sheet in hand was just given a number that has still to be read from it.</summary>
    public bool AwaitsScan => Answer?.AwaitsScan == true;

    public sealed record ShownSeries(long Id, string Name, bool IsClosed);

    public async Task<IActionResult> OnGetAsync(string number, long? gathering, CancellationToken cancellation) =>
        await FindAsync(number, cancellation)
            ? await ShowAsync(gathering, StatusCodes.Status200OK, cancellation)
            : NotFound();

    public async Task<IActionResult> OnPostAsync(
        string number, string? code, long? gathering, CancellationToken cancellation)
    {
        if (!await FindAsync(number, cancellation))
        {
            return NotFound();
        }

        var text = code?.Trim() ?? "";
        if (IsWord(text, "more"))
        {
            return await CountAnotherAsync(gathering ?? 0, cancellation);
        }

        if (IsWord(text, "next") && Series is [var series])
        {
            return await IssueNextAsync(gathering ?? 0, series.Id, cancellation);
        }

        var scanned = await scan.RunAsync(new(text, gathering, Parcel), HttpContext.Door(), cancellation);
        if (scanned is { IsRefused: true, Refusals: [{ Kind: RefusalKind.NotFound }] })
        {
            // What is no number of ours may be a collector number: that takes up another gathering of the pile.
            Found = await PileInHand.FindAsync(db, _accessionId, text, cancellation);
        }

        Answer = Found switch
        {
            [var only] => BenchAnswer.TakenUp(text, only),
            { Count: > 1 } => BenchAnswer.Several(text, Found.Count),
            _ => BenchAnswer.Of(text, scanned) with { Bearing = await BearingAsync(text, scanned, cancellation) },
        };
        var stay = Found is [var chosen] ? chosen.Id : gathering;
        var status = Found.Count > 0 ? StatusCodes.Status200OK : StatusOf(scanned);
        return await ShowAsync(stay, status, cancellation);
    }

    // Where a number is taken, whoever has the sheet in hand looks at what it is on.
    private async Task<string?> BearingAsync(
        string text, Outcome<SheetAtBench> scanned, CancellationToken cancellation)
    {
        if (scanned is not { IsRefused: true, Refusals: [{ Kind: RefusalKind.Conflict }] })
        {
            return null;
        }

        var meaning = await codes.ReadAsync(text, cancellation);
        var number = meaning.FromBefore ?? meaning.Code?.Written;
        return number is not null
            && await db.Specimens.AnyAsync(s => s.CatalogNumber == number, cancellation)
            ? SpecimenAddress.Of(number)
            : null;
    }

    public async Task<IActionResult> OnPostNextAsync(
        string number, long gathering, long series, CancellationToken cancellation) =>
        await FindAsync(number, cancellation)
            ? await IssueNextAsync(gathering, series, cancellation)
            : NotFound();

    public async Task<IActionResult> OnPostExtraAsync(
        string number, long gathering, CancellationToken cancellation) =>
        await FindAsync(number, cancellation) ? await CountAnotherAsync(gathering, cancellation) : NotFound();

    private async Task<IActionResult> IssueNextAsync(long gathering, long series, CancellationToken cancellation)
    {
        var outcome = await numberSheet.RunAsync(
            new(gathering, series, null, Parcel), HttpContext.Door(), cancellation);
        var asked = outcome.IsRefused ? await PileInHand.OfAsync(db, _accessionId, gathering, cancellation) : null;
        Answer = BenchAnswer.Of(asked?.Label ?? "", outcome);
        return await ShowAsync(gathering, StatusOf(outcome), cancellation);
    }

    private async Task<IActionResult> CountAnotherAsync(long gathering, CancellationToken cancellation)
    {
        var outcome = await another.RunAsync(gathering, HttpContext.Door(), cancellation);
        Answer = outcome.IsRefused
            ? BenchAnswer.Refused("one more", outcome.Refusals)
            : BenchAnswer.Counted(outcome.Value);
        return await ShowAsync(gathering, StatusOf(outcome), cancellation);
    }

    private static int StatusOf<T>(Outcome<T> outcome) =>
        outcome.IsRefused ? outcome.Refusals[0].Kind.StatusCode() : StatusCodes.Status200OK;

    // The script asks for a fragment and keeps the line; without script the whole page is the answer.
    private async Task<IActionResult> ShowAsync(long? stay, int status, CancellationToken cancellation)
    {
        await LookAtPileAsync(stay, cancellation);
        if (Answer is not null && Request.Headers["X-Scan"] == "1")
        {
            Response.StatusCode = status;
            return Partial("/Numbering/_ScanFragment.cshtml", this);
        }

        var acts = await LastActs.OfAsync(db, _accessionId, Who, cancellation);
        Scans = [.. (Answer is { IsOnRecord: false } said ? acts.Prepend(said) : acts).Take(MostScans)];
        return new PageResult { StatusCode = status };
    }

    private static bool IsWord(string text, string word) => text.Equals(word, StringComparison.OrdinalIgnoreCase);

    private async Task<bool> FindAsync(string number, CancellationToken cancellation)
    {
        var lot = await db.Accessions.Where(l => l.Number == number).Select(l => new { l.Id })
            .SingleOrDefaultAsync(cancellation);
        if (lot is null)
        {
            return false;
        }

        (AccessionNumber, _accessionId) = (number, lot.Id);
        Series = await db.Series.Where(s => s.Use == SeriesUse.Specimens).OrderBy(s => s.Id)
            .Select(s => new ShownSeries(s.Id, s.Name, s.ClosedAs != null)).ToListAsync(cancellation);
        Parcels = await ParcelInHand.OfAsync(db, _accessionId, cancellation);
        return true;
    }

    // After the act, so that it is counted once and as it is now.
    private async Task LookAtPileAsync(long? gathering, CancellationToken cancellation)
    {
        var pile = await db.Gatherings.Where(g => g.AccessionId == _accessionId).GroupBy(g => g.AccessionId)
            .Select(all => new
            {
                Expected = all.Sum(g => g.SheetsExpected),
                Numbered = all.Sum(g => g.SheetsNumbered),
            })
            .SingleOrDefaultAsync(cancellation);
        (Expected, Left) = pile is null ? (0, 0) : (pile.Expected, pile.Expected - pile.Numbered);
        ToScanBack = await db.Specimens.CountAsync(
            s => s.Gathering.AccessionId == _accessionId
                && s.Parts.Any(part => !part.IsNumbered && !part.IsFromBefore),
            cancellation);
        var chosen = gathering is null
            ? null
            : await PileInHand.OfAsync(db, _accessionId, gathering.Value, cancellation);
        // A gathering whose sheets are all numbered makes room for the next one of the pile; not before its last number
        // was scanned back, or the label on the screen would not be that of the sheet in the hand.
        InHand = chosen is { Left: > 0 } || Answer?.Mark == "stop" || AwaitsScan
            ? chosen ?? await PileInHand.NextAsync(db, _accessionId, cancellation)
            : await PileInHand.NextAsync(db, _accessionId, cancellation);
    }
}
