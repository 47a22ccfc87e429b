using System.CommandLine;
using System.Globalization;
using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Core.Outcomes;
using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

/// <summary>
/// <c>receive</c>: receives a list as the page of batches does, and runs the work that comes of it unless a server
/// does.
/// </summary>
internal static class ReceiveCommand
{
    public static Command Create()
    {
        var file = new Argument<FileInfo>("file")
        {
            Description = "The list: CSV, tab-separated text, a workbook or a Darwin Core archive",
        };
        var source = new Option<string?>("--source")
        {
            Description = "Who sends it: a collector, a project, a herbarium",
        };
        var batch = new Option<long?>("--batch") { Description = "The batch whose list this is again" };
        var bears = new Option<bool>("--bears-numbers")
        {
            Description = "The sheets bear the catalog numbers that they keep",
        };
        var dryRun = new Option<bool>("--dry-run") { Description = "Only check it, as accession check does" };
        var json = new Option<bool>("--json") { Description = "Tell the batch as JSON" };
        var command = new CommandWithExamples(
            "receive", "Receive a list of vouchers, read it and find its duplicates.",
            "accession receive list.csv --data herbarium --source \"Orla Finch\"",
            "accession receive archive.zip --data herbarium --source \"Marten Herbarium\"",
            "accession receive corrected.csv --data herbarium --batch 12")
        {
            file, source, batch, bears, dryRun, json,
        };
        command.Validators.Add(parsed =>
        {
            if (parsed.GetResult(source) is null == parsed.GetResult(batch) is null)
            {
                parsed.AddError("Say who sends the list with --source, or whose list it is again with --batch.");
            }
        });
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => CommandAnswers.InOneSentenceAsync(() =>
        {
            var asked = new CheckList.Request(
                parsed.GetRequiredValue(file).FullName, parsed.GetValue(source), parsed.GetValue(batch),
                parsed.GetValue(bears));
            return parsed.GetValue(dryRun)
                ? CheckCommand.CheckAsync(settings(parsed), asked, parsed.GetValue(json), cancellation)
                : ReceiveAsync(settings(parsed), asked, parsed.GetValue(json), cancellation);
        }));
        return command;
    }

    private static async Task<int> ReceiveAsync(
        Settings settings, CheckList.Request asked, bool json, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(settings);
        app.CheckSettings();
        var most = app.Services.GetRequiredService<IOptions<ReceivingOptions>>().Value;
        var unreadable = CheckCommand.WhyUnreadable(asked.File)
            ?? (new FileInfo(asked.File).Length > most.MaximumFileBytes
                ? $"{asked.File} is larger than {most.MaximumFileMegabytes} MB, the most that "
                    + "Receiving:MaximumFileMegabytes allows."
                : null);
        if (unreadable is not null)
        {
            await CommandTalk.SayAsync(unreadable);
            return ExitCode.Wrong;
        }

        await using var scope = app.Services.CreateAsyncScope();
        await RegistersAtHand.RequireAsync(scope.ServiceProvider, cancellation);
        var outcome = await ReceiveAsync(scope.ServiceProvider, asked, cancellation);
        if (outcome.IsRefused)
        {
            return await CommandTalk.RefuseAsync(outcome.Refusals);
        }

        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        var list = await db.Lists.Where(l => l.BatchId == outcome.Value.BatchId).MaxAsync(l => l.Id, cancellation);
        return await WorkAsync(app.Services, list, outcome.Value, cancellation) is { } stopped
            ? stopped
            : await TellAsync(db, list, outcome.Value.WasHere, json, cancellation);
    }

    // What was copied stays only where the register says so.
    private static async Task<Outcome<ReceiveList.Receipt>> ReceiveAsync(
        IServiceProvider services, CheckList.Request asked, CancellationToken cancellation)
    {
        var files = services.GetRequiredService<ReceivedFiles>();
        await using var content = File.OpenRead(asked.File);
        var kept = await files.KeepAsync(content, Path.GetFileName(asked.File), cancellation);
        try
        {
            return await services.GetRequiredService<ReceiveList>().RunAsync(
                new(asked.SourceName, asked.BatchId, kept, asked.CarriesNumbers), Door.System, cancellation);
        }
        catch
        {
            await using var again = services.GetRequiredService<IServiceScopeFactory>().CreateAsyncScope();
            var db = again.ServiceProvider.GetRequiredService<AccessionDb>();
            if (!await db.Lists.AnyAsync(list => list.KeptAs == kept.KeptAs, CancellationToken.None))
            {
                files.Discard(kept);
            }

            throw;
        }
    }

    private static async Task<int?> WorkAsync(
        IServiceProvider services, long list, ReceiveList.Receipt receipt, CancellationToken cancellation)
    {
        var clock = services.GetRequiredService<TimeProvider>();
        var shown = new ShownOnTerminal(clock);
        var work = new OwnWork(
            services.GetRequiredService<IServiceScopeFactory>(), services.GetRequiredService<RunWork>(), clock);
        var stays = $"The list is received as batch {receipt.BatchId}. What is left to do waits for a server, or for "
            + "the same command again.";
        try
        {
            if (await work.FinishAsync(db => Left(db, list), shown, cancellation))
            {
                shown.End();
                return null;
            }

            shown.End();
            await CommandTalk.SayAsync($"Work that this list needs rests, or waits for other work. {stays}");
            return ExitCode.Found;
        }
        catch (OperationCanceledException)
        {
            shown.End();
            await CommandTalk.SayAsync($"Stopped. {stays}");
            return ExitCode.Interrupted;
        }
    }

    // A list waits for those that came from its source before it, and moves to the batch that it turns out to belong
    // to.
    private static IQueryable<WorkRow> Left(AccessionDb db, long listId) => db.Work.Where(
        work => work.FinishedAt == null
            && ((work.Kind == ReadListWork.Kind && work.Subject <= listId
                    && db.Lists.Any(list => list.Id == work.Subject
                        && db.Lists.Any(own => own.Id == listId && own.Batch.SourceId == list.Batch.SourceId)))
                || ((work.Kind == FindDuplicatesWork.Kind || work.Kind == ComparePermitsWork.Kind)
                    && db.Lists.Any(own => own.Id == listId && own.BatchId == work.Subject))));

    private static async Task<int> TellAsync(
        AccessionDb db, long listId, bool wasHere, bool json, CancellationToken cancellation)
    {
        db.ChangeTracker.Clear();
        var list = await db.Lists.AsNoTracking().SingleAsync(l => l.Id == listId, cancellation);
        if (await WhyFailedAsync(db, list, cancellation) is { } failure)
        {
            await CommandTalk.SayAsync($"Batch {list.BatchId}: {failure}");
            return ExitCode.Defect;
        }

        if (list.RefusedBecause is { } refused)
        {
            await CommandTalk.SayAsync($"Batch {list.BatchId}: {refused}");
            return ExitCode.Wrong;
        }

        var batch = (await BatchSummary.OfAsync(db, list.BatchId, cancellation))!;
        var problems = await db.Problems.CountAsync(problem => problem.ListId == listId, cancellation);
        var counted = await db.Rows.Where(BatchRow.Waiting)
            .Where(row => row.BatchId == batch.Id && row.Finding != null)
            .GroupBy(row => row.Finding!.Value).Select(group => new { group.Key, Count = group.Count() })
            .ToDictionaryAsync(group => group.Key, group => group.Count, cancellation);
        var findings = Enum.GetValues<FindingKind>()
            .ToDictionary(kind => kind, kind => counted.GetValueOrDefault(kind));
        await CommandTalk.AnswerAsync(
            json,
            () => new
            {
                Batch = batch.Id,
                Address = $"/batch/{batch.Id}",
                batch.Source,
                WasHere = wasHere,
                list.Counts.Rows,
                list.Counts.LinesNotRead,
                list.Counts.Added,
                list.Counts.Changed,
                list.Counts.Unchanged,
                list.Counts.Withdrawn,
                Problems = problems,
                batch.Open,
                Findings = findings,
                batch.AsksWhichList,
                AsksForOrder = batch.NeedsOrder,
                batch.UnmatchedColumns,
            },
            () => Words(batch, list.Counts, (problems, findings, wasHere)));
        return ExitCode.Done;
    }

    private static async Task<string?> WhyFailedAsync(
        AccessionDb db, ReceivedList list, CancellationToken cancellation) =>
        (await ShownProgress.LatestAsync(db, ReadListWork.Kind, list.Id, cancellation))?.Failure
        ?? (await ShownProgress.LatestAsync(db, FindDuplicatesWork.Kind, list.BatchId, cancellation))?.Failure;

    private static string Words(
        BatchSummary batch, ListCounts counts,
        (int Problems, Dictionary<FindingKind, int> Findings, bool WasHere) told)
    {
        var kinds = told.Findings.OrderByDescending(kind => kind.Key)
            .Select(kind => $"{kind.Value:N0} {FindingsModel.Name(kind.Key).ToLowerInvariant()}");
        string?[] lines =
        [
            told.WasHere ? "This very list was received before: nothing was changed. Here is its batch." : null,
            $"Batch {batch.Id} of {batch.Source}, at /batch/{batch.Id} behind the address of the server.",
            string.Create(CultureInfo.InvariantCulture,
                $"{counts.Rows:N0} rows: {counts.Added:N0} added, {counts.Changed:N0} changed, {counts.Unchanged:N0} "
                + $"unchanged; {counts.Withdrawn:N0} withdrawn, {counts.LinesNotRead:N0} lines not read."),
            $"{told.Problems:N0} problems, {batch.Open:N0} rows to settle. Found: {string.Join(", ", kinds)}.",
            batch.AsksWhichList ? "Somebody has to say on its page which list it is." : null,
            batch.NeedsOrder ? "Somebody has to say on its page if the day or the month comes first." : null,
            batch.UnmatchedColumns > 0 ? $"{batch.UnmatchedColumns} columns are to be matched on its page." : null,
        ];
        return string.Join('\n', lines.OfType<string>());
    }
}
