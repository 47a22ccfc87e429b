using Accession.Core.Gatherings;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>The numbering bench: one line to scan into, one big answer, the last ten scans.</summary>
public sealed class BenchModel(
    AccessionDb db, ScanSheet scan, NumberSheet numberSheet, ExpectAnotherSheet another,
    CatalogNumbers codes, BenchHands bench) : PageModel
{
    private const int MostScans = 10;

    private long _accessionId;

    public string AccessionNumber { get; private set; } = "";

    /// <summary>Who works.</summary>
    public BenchHands.Hands Hands { get; private set; } = null!;

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

    public async Task<IActionResult> OnGetAsync(string number, long? gathering, CancellationToken cancellation)
    {
        if (!await FindAsync(number, cancellation))
        {
            return NotFound();
        }

        Hands = await bench.OfPageAsync(HttpContext, cancellation);
        return await ShowAsync(gathering, StatusCodes.Status200OK, cancellation);
    }

    public async Task<IActionResult> OnPostAsync(
        string number, string? code, long? gathering, string? hands, CancellationToken cancellation)
    {
        if (!await FindAsync(number, cancellation))
        {
            return NotFound();
        }

        var text = code?.Trim() ?? "";
        if (Badge.IsCode(text))
        {
            (Hands, var taken) = await bench.TakeUpAsync(HttpContext, text, cancellation);
            Answer = BenchAnswer.TookUp(taken);
            return await ShowAsync(gathering, StatusOf(taken), cancellation);
        }

        if (IsWord(text, BenchCommand.HandBack))
        {
            Hands = await bench.HandBackAsync(HttpContext, cancellation);
            Answer = BenchAnswer.HandedBack(Hands.By!.Name);
            return await ShowAsync(gathering, StatusCodes.Status200OK, cancellation);
        }

        if (await WhyNobodyAsync(text, hands, cancellation) is { } status)
        {
            return await ShowAsync(gathering, status, cancellation);
        }

        return IsWord(text, "more") ? await CountAnotherAsync(gathering ?? 0, cancellation)
            : IsWord(text, "next") && Series is [var series]
                ? await IssueNextAsync(gathering ?? 0, series.Id, cancellation)
            : BenchCommand.Read(text) is { } command ? await ObeyAsync(command, gathering, cancellation)
            : await ScanAsync(text, gathering, cancellation);
    }

    private async Task<IActionResult> ScanAsync(string text, long? gathering, CancellationToken cancellation)
    {
        var scanned = await scan.RunAsync(new(text, gathering, Parcel), Door, cancellation);
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
        string number, long gathering, long series, string? hands, CancellationToken cancellation) =>
        !await FindAsync(number, cancellation) ? NotFound()
        : await WhyNobodyAsync("next", hands, cancellation) is { } status
            ? await ShowAsync(gathering, status, cancellation)
            : await IssueNextAsync(gathering, series, cancellation);

    public async Task<IActionResult> OnPostExtraAsync(
        string number, long gathering, string? hands, CancellationToken cancellation) =>
        !await FindAsync(number, cancellation) ? NotFound()
        : await WhyNobodyAsync("more", hands, cancellation) is { } status
            ? await ShowAsync(gathering, status, cancellation)
            : await CountAnotherAsync(gathering, cancellation);

    private Door Door => HttpContext.Door() with { By = Hands.By! };

    // In whose name it is done; with a status, nobody's, and the answer says why.
    private async Task<int?> WhyNobodyAsync(string text, string? hands, CancellationToken cancellation)
    {
        var who = await bench.OfScanAsync(HttpContext, hands, cancellation);
        Hands = new(who.IsRefused ? null : who.Value, hands ?? "");
        Answer = who.IsRefused ? BenchAnswer.Refused(text, who.Refusals) : null;
        return who.IsRefused ? StatusOf(who) : null;
    }

    private async Task<IActionResult> ObeyAsync(BenchCommand command, long? gathering, CancellationToken cancellation)
    {
        if (command.Kind != CommandKind.SameAsLast)
        {
            Answer = BenchAnswer.Refused(command.Word, [new(RefusalKind.Conflict, command.Kind == CommandKind.Undo
                ? "A number is never given back: what is on the wrong sheet a curator makes void, under Every number."
                : "That is a word of the other bench, under Bench.")]);
            return await ShowAsync(gathering, StatusCodes.Status409Conflict, cancellation);
        }

        var last = await db.Specimens.Where(s => s.Gathering.AccessionId == _accessionId && s.Act.ActorId == Hands.Id)
            .OrderByDescending(s => s.ActId).Select(s => (long?)s.GatheringId).FirstOrDefaultAsync(cancellation);
        var sheet = last is null ? null : await PileInHand.OfAsync(db, _accessionId, last.Value, cancellation);
        if (sheet is { Left: 0 })
        {
            return await CountAnotherAsync(sheet.Id, cancellation);
        }

        Answer = sheet is null
            ? BenchAnswer.Refused(
                command.Word, [new(RefusalKind.Conflict, "You numbered no sheet of this pile yet.")])
            : BenchAnswer.TakenUp(command.Word, sheet);
        return await ShowAsync(
            sheet?.Id ?? gathering,
            sheet is null ? StatusCodes.Status409Conflict : StatusCodes.Status200OK, cancellation);
    }

    private async Task<IActionResult> IssueNextAsync(long gathering, long series, CancellationToken cancellation)
    {
        var outcome = await numberSheet.RunAsync(
            new(gathering, series, null, Parcel), Door, cancellation);
        var asked = outcome.IsRefused ? await PileInHand.OfAsync(db, _accessionId, gathering, cancellation) : null;
        Answer = BenchAnswer.Of(asked?.Label ?? "", outcome);
        return await ShowAsync(gathering, StatusOf(outcome), cancellation);
    }

    private async Task<IActionResult> CountAnotherAsync(long gathering, CancellationToken cancellation)
    {
        var outcome = await another.RunAsync(gathering, Door, cancellation);
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

        var acts = await LastActs.OfAsync(db, _accessionId, Hands.Id, cancellation);
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
