using Accession.Core.Accessions;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Background;
using Accession.Server.Numbering;
using Accession.Server.Receiving;
using Accession.Server.Tracking;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// What happened in the demo's herbarium before the visitor came, act by act: one batch in each stage between the
/// door and the last number.
/// </summary>
public sealed partial class DemoStory(
    IServiceScopeFactory scopes, Actor curator, Actor technician, Actor determiner, Actor giver)
{
    /// <summary>The request key of the first act.</summary>
    public const string FirstKey = "demo: series of sheets";

    /// <summary>The request key of the last act.</summary>
    public const string LastKey = "demo: protect";

    private const int FirstOfRoll = 5001;

    public async Task TellAsync(CancellationToken cancellation)
    {
        await BeginAsync(cancellation);
        await SetUpColdAsync(cancellation);
        await NumberTheGiftAsync(cancellation);
        await NumberHalfOfTheSurveyAsync(cancellation);
        await MountSomeOfTheGiftAsync(cancellation);
        await FileSomeOfTheGiftAsync(cancellation);
        await FailOnTheVolunteersAsync(await ReceiveAsync(DemoLists.Volunteers(), null, cancellation), cancellation);
        await ReceiveAsync(DemoLists.VolunteersAgain(), null, cancellation);
        await SettleAsync(await ReceiveAsync(DemoLists.Settled(), null, cancellation), cancellation);
        await ReceiveAsync(DemoLists.WithQuestions(), null, cancellation);
        await FreezeTheExchangeAsync(await ReceiveAsync(DemoLists.Exchange(), null, cancellation), cancellation);
        await TieTheGiverAsync(cancellation);
        await TakeOverTheOldHerbariumAsync(cancellation);
        await LookThroughTheGrassesAsync(cancellation);
        await ProtectAsync(cancellation);
    }

    private async Task BeginAsync(CancellationToken cancellation)
    {
        await DoAsync<BeginSeries, string>(begin => begin.RunAsync(
            new("Sheets of DEMO-H", SeriesUse.Specimens, "DEMO-H0000000"), Curator(FirstKey), cancellation));
        await DoAsync<BeginSeries, string>(begin => begin.RunAsync(
            new("Accessions", SeriesUse.Accessions, "YYYY.0000"), Curator("demo: series of accessions"), cancellation));
        await DoAsync<RegisterRoll, RegisterRoll.Registered>(register => register.RunAsync(
            new("Printer's roll 1", Code(FirstOfRoll), Code(FirstOfRoll + 499)), Curator("demo: roll"), cancellation));
    }

    // Everything of the gift bears a barcode of the roll, which a scan both assigns and proves.
    private async Task NumberTheGiftAsync(CancellationToken cancellation)
    {
        var batch = await ReceiveAsync(DemoLists.Numbered(), null, cancellation);
        await FreezeTheGiftAsync(batch, cancellation);
        var pile = await TakeInAsync(
            batch, AccessionTerms.Gift, "Naphthalene smell: open under the hood.", cancellation);
        var next = FirstOfRoll;
        foreach (var (gathering, sheets) in pile)
        {
            for (var sheet = 0; sheet < sheets; sheet++, next++)
            {
                await DoAsync<ScanSheet, SheetAtBench>(scan => scan.RunAsync(
                    new(Code(next), gathering), Technician($"demo: roll {next}"), cancellation));
            }
        }
    }

    // The survey takes the next number each time. The last sheets have theirs, and nobody has scanned them back yet.
    private async Task NumberHalfOfTheSurveyAsync(CancellationToken cancellation)
    {
        const int notScannedBack = 4;
        var batch = await ReceiveAsync(DemoLists.HalfNumbered(), null, cancellation);
        await TagAsync("Hedda Lindenrook, Candlestick Rim survey", 1, 2, "", -6, batch, cancellation);
        var pile = await TakeInAsync(batch, AccessionTerms.FieldCollection, null, cancellation);
        var series = await LookAsync(db => db.Series
            .Where(s => s.Use == SeriesUse.Specimens).Select(s => s.Id).SingleAsync(cancellation));
        var half = pile.Take(pile.Count / 2).ToList();
        for (var k = 0; k < half.Count; k++)
        {
            var issued = await DoAsync<NumberSheet, SheetAtBench>(number => number.RunAsync(
                new(half[k].GatheringId, series, null), Technician($"demo: number {k}"), cancellation));
            if (k < half.Count - notScannedBack)
            {
                await DoAsync<ScanSheet, SheetAtBench>(scan => scan.RunAsync(
                    new(issued.CatalogNumber, half[k].GatheringId), Technician($"demo: scan back {k}"), cancellation));
            }
        }
    }

    private async Task SettleAsync(long batch, CancellationToken cancellation)
    {
        await DoAsync<TakeAsWritten, int>(take => take.RunAsync(
            new(batch, [], "The collector no longer knows the day."), Curator("demo: as written"), cancellation));
    }

    private async Task TieTheGiverAsync(CancellationToken cancellation)
    {
        var person = await PutOnRecordAsync(DemoLists.Giver, cancellation);
        await DoAsync<RecordPerson, string>(record => record.TieAsync(
            person, giver.Id, "Brought the boxes himself and signed for them.", Curator("demo: tie"), cancellation));
    }

    private async Task ProtectAsync(CancellationToken cancellation)
    {
        var gathering = await LookAsync(db => db.Gatherings
            .Where(g => g.Notes.NameVerbatim == DemoFlora.Protected.Name).Select(g => g.Id).SingleAsync(cancellation));
        await DoAsync<ProtectLocality, string>(protect => protect.RunAsync(
            new(gathering, SensitivityCategory.High, new DateOnly(2031, 5, 1),
                "Known from one hill; collectors have dug it up."),
            Curator(LastKey), cancellation));
    }

    private Task<long> ReceiveAsync(DemoLists.AtTheDoor list, long? batch, CancellationToken cancellation) =>
        ReceiveAsync(list.Source, list.FileName, list.List.ToCsv(), batch, false, cancellation);

    private async Task<long> ReceiveAsync(
        string source, string fileName, byte[] list, long? batch, bool carriesNumbers, CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        var files = scope.ServiceProvider.GetRequiredService<ReceivedFiles>();
        var kept = await files.KeepAsync(new MemoryStream(list), fileName, cancellation);
        var receipt = await DoAsync<ReceiveList, ReceiveList.Receipt>(receive => receive.RunAsync(
            new(source, batch, kept, carriesNumbers), Curator($"demo: {fileName}"), cancellation));
        return receipt.BatchId;
    }

    private async Task<IReadOnlyList<(long GatheringId, int Sheets)>> TakeInAsync(
        long batch, AccessionTerms terms, string? hazards, CancellationToken cancellation)
    {
        var sheets = await LookAsync(
            db => db.Rows.Where(row => row.BatchId == batch).SumAsync(row => row.Sheets, cancellation));
        var taken = await DoAsync<TakeIn, TakeIn.Taken>(takeIn => takeIn.RunAsync(
            new(batch, new(terms, sheets, null, null, "Dry and flat, in newspaper.", hazards)),
            Curator($"demo: take in {batch}"), cancellation));
        var pile = await LookAsync(db => db.Gatherings
            .Where(g => db.Accessions.Any(lot => lot.Id == g.AccessionId && lot.Number == taken.AccessionNumber))
            .OrderBy(g => g.Id).Select(g => new { g.Id, g.SheetsExpected }).ToListAsync(cancellation));
        return [.. pile.Select(g => (g.Id, g.SheetsExpected))];
    }

    // Each act has a scope of its own, as each request has; the work it wants is done before the next act.
    private async Task<T> DoAsync<TOperation, T>(Func<TOperation, Task<Outcome<T>>> run)
        where TOperation : notnull
    {
        await using var scope = scopes.CreateAsyncScope();
        var outcome = await run(scope.ServiceProvider.GetRequiredService<TOperation>());
        if (outcome.IsRefused)
        {
            throw new InvalidOperationException(
                $"The demo cannot go on: {string.Join(" ", outcome.Refusals.Select(refusal => refusal.Reason))}");
        }

        await FinishWorkAsync(scope.ServiceProvider);
        return outcome.Value;
    }

    // A running server hears of the work too. Whoever claims it first does it, and this waits for both.
    private static async Task FinishWorkAsync(IServiceProvider services)
    {
        var db = services.GetRequiredService<AccessionDb>();
        var runWork = services.GetRequiredService<RunWork>();
        var clock = services.GetRequiredService<TimeProvider>();
        while (await UnfinishedAsync(db) is { } work)
        {
            await runWork.RunAsync(work.Id, CancellationToken.None);
            await db.Entry(work).ReloadAsync();
            if (work.FinishedAt is null)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(20), clock);
            }
        }
    }

    private static Task<WorkRow?> UnfinishedAsync(AccessionDb db) =>
        db.Work.Where(work => work.FinishedAt == null).OrderBy(work => work.Id).FirstOrDefaultAsync();

    private async Task<T> LookAsync<T>(Func<AccessionDb, Task<T>> look)
    {
        await using var scope = scopes.CreateAsyncScope();
        return await look(scope.ServiceProvider.GetRequiredService<AccessionDb>());
    }

    private Door Curator(string key) => new(curator, key);

    private Door Technician(string key) => new(technician, key);

    private Door Determiner(string key) => new(determiner, key);

    private static string Code(int number) => $"DEMO-H{number:0000000}";
}
