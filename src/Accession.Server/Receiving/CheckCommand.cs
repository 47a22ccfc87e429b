using System.CommandLine;
using System.Globalization;
using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Server.Hosting;
using Accession.Storage;

namespace Accession.Server.Receiving;

/// <summary>
/// <c>check</c>: says what receiving a list would bring, and stores nothing. It may run while a server runs.
/// </summary>
internal static class CheckCommand
{
    public static Command Create()
    {
        var file = new Argument<FileInfo>("file")
        {
            Description = "The list: CSV, tab-separated text, a workbook or a Darwin Core archive",
        };
        var source = new Option<string?>("--source")
        {
            Description = "Who sends it, so that it is compared with the lists that came from there before",
        };
        var bears = new Option<bool>("--bears-numbers")
        {
            Description = "The sheets bear the catalog numbers that they keep",
        };
        var json = new Option<bool>("--json") { Description = "Tell each thing found as a line of JSON" };
        var command = new CommandWithExamples(
            "check", "Say what receiving a list would bring: problems and duplicates. Nothing is stored.",
            "accession check list.csv --data herbarium --source \"Orla Finch\"",
            "accession check list.csv --json")
        {
            file, source, bears, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => CommandAnswers.InOneSentenceAsync(() => CheckAsync(
            settings(parsed),
            new(parsed.GetRequiredValue(file).FullName, parsed.GetValue(source), null, parsed.GetValue(bears)),
            parsed.GetValue(json),
            cancellation)));
        return command;
    }

    /// <summary>Checks a list against the register, or alone where there is none.</summary>
    public static async Task<int> CheckAsync(
        Settings settings, CheckList.Request request, bool json, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(settings);
        app.CheckSettings();
        if (WhyUnreadable(request.File) is { } reason)
        {
            await CommandTalk.SayAsync(reason);
            return ExitCode.Wrong;
        }

        await using var scope = app.Services.CreateAsyncScope();
        var folder = app.Services.GetRequiredService<DataFolder>();
        var register = await RegistersAtHand.OfAsync(
            scope.ServiceProvider.GetRequiredService<AccessionDb>(), cancellation);
        if (register == RegisterAtHand.None && request.BatchId is null)
        {
            return await CheckAloneAsync(settings, folder, request, json, cancellation);
        }

        return RegistersAtHand.WhyNot(register, folder) is { } why
            ? throw new CommandRefusedException(why)
            : await CheckAsync(scope.ServiceProvider, request, (json, true), cancellation);
    }

    /// <summary>Why a file cannot be a list; null when it may be one.</summary>
    public static string? WhyUnreadable(string file) =>
        Directory.Exists(file) ? $"{file} is a folder. Name the file that holds the list."
        : !File.Exists(file) ? $"There is no file {file}."
        : null;

    // An empty register in a folder of the moment stands in for the one that is not there; it is gone afterwards.
    private static async Task<int> CheckAloneAsync(
        Settings settings, DataFolder folder, CheckList.Request request, bool json, CancellationToken cancellation)
    {
        var own = Path.Combine(folder.Root, "accession.json");
        var scratch = Directory.CreateTempSubdirectory("accession-check-");
        try
        {
            using var app = AccessionServer.BuildForCommand(settings with
            {
                DataFolder = scratch.FullName,
                File = settings.File ?? (File.Exists(own) ? own : null),
                Set = [.. settings.Set, "Store:Kind=Sqlite"],
            });
            await using (await app.AloneAsync(cancellation))
            {
                await app.MigrateAsync(cancellation);
            }

            await using var scope = app.Services.CreateAsyncScope();
            return await CheckAsync(scope.ServiceProvider, request, (json, false), cancellation);
        }
        finally
        {
            scratch.Delete(recursive: true);
        }
    }

    private static async Task<int> CheckAsync(
        IServiceProvider services, CheckList.Request request, (bool Json, bool WithHoldings) how,
        CancellationToken cancellation)
    {
        var shown = new ShownOnTerminal(services.GetRequiredService<TimeProvider>());
        var outcome = await services.GetRequiredService<CheckList>().RunAsync(
            request,
            new(
                (done, total, _) => ProgressAsync(shown, done, total),
                problem => ProblemAsync(problem, how.Json, shown),
                finding => FindingAsync(finding, how.Json, shown)),
            cancellation);
        shown.End();
        if (outcome.IsRefused)
        {
            return await CommandTalk.RefuseAsync(outcome.Refusals);
        }

        var answer = outcome.Value;
        await CommandTalk.AnswerAsync(
            how.Json, () => Summary(request, answer, how.WithHoldings), () => Words(answer, how.WithHoldings));
        return answer.HasSomethingToLookAt ? ExitCode.Found : ExitCode.Done;
    }

    private static Task ProgressAsync(ShownOnTerminal shown, long done, long total)
    {
        shown.Tell(() => total > 0
            ? string.Create(CultureInfo.InvariantCulture, $"{done:N0} of {total:N0} steps")
            : "looking through the file");
        return Task.CompletedTask;
    }

    private static Task ProblemAsync(RowProblem problem, bool json, ShownOnTerminal shown)
    {
        shown.End();
        return CommandTalk.AnswerAsync(
            json,
            () => new
            {
                Type = "problem",
                problem.Line,
                Column = problem.ColumnName,
                Written = problem.Text,
                problem.Reason,
                HoldsUp = problem.Blocks,
            },
            () => $"line {problem.Line}{(problem.ColumnName is { Length: > 0 } column ? $", {column}" : "")}: "
                + (problem.Text is { Length: > 0 } text ? $"\"{text.ReplaceLineEndings(" ")}\": " : "") + problem.Reason
                + (problem.Blocks ? "" : " (The row is taken all the same.)"));
    }

    private static Task FindingAsync(FoundRows.Shown finding, bool json, ShownOnTerminal shown)
    {
        shown.End();
        return CommandTalk.AnswerAsync(
            json,
            () => new
            {
                Type = "finding",
                finding.Line,
                finding.Kind,
                finding.AlikeNotCompared,
                With = finding.Members.Select(member => new
                {
                    member.CatalogNumber,
                    Accession = member.AccessionNumber,
                    member.Line,
                    Reasons = member.Sentences,
                }),
            },
            () => string.Join('\n', Lines(finding)));
    }

    private static IEnumerable<string> Lines(FoundRows.Shown finding)
    {
        yield return $"line {finding.Line}: {FindingsModel.Name(finding.Kind)}";
        foreach (var member in finding.Members)
        {
            yield return $"    {member.Label.Title}: {string.Join(' ', member.Sentences)}";
        }

        if (finding.AlikeNotCompared > 0)
        {
            yield return $"    {finding.AlikeNotCompared} more are like it and were not compared singly.";
        }
    }

    private static object Summary(CheckList.Request request, CheckList.Answer answer, bool withHoldings) => new
    {
        Type = "summary",
        request.File,
        answer.Counts.Rows,
        answer.Counts.LinesNotRead,
        answer.Problems,
        answer.Blocking,
        Findings = answer.Findings,
        answer.UnmatchedColumns,
        answer.AsksForOrder,
        ComparedWithHoldings = withHoldings,
        answer.NotComparable,
        answer.HereAs,
        answer.BelongsTo,
        answer.MayBelongTo,
    };

    private static string Words(CheckList.Answer answer, bool withHoldings)
    {
        var kinds = answer.Findings.Where(kind => kind.Key != FindingKind.New && kind.Value > 0)
            .OrderByDescending(kind => kind.Key)
            .Select(kind => $"{kind.Value:N0} {FindingsModel.Name(kind.Key).ToLowerInvariant()}");
        string?[] lines =
        [
            $"{answer.Counts.Rows:N0} rows, {answer.Counts.LinesNotRead:N0} lines not read, {answer.Problems:N0} "
                + $"problems, {answer.Blocking:N0} of them hold a row up.",
            $"Found: {string.Join(", ", kinds.Append($"{answer.Findings[FindingKind.New]:N0} new"))}.",
            answer.UnmatchedColumns.Count > 0
                ? $"Nobody knows what these columns say: {string.Join(", ", answer.UnmatchedColumns)}."
                : null,
            answer.AsksForOrder ? "Whether the day or the month comes first in its dates has to be said." : null,
            Again(answer),
            withHoldings
                ? null
                : "There were no holdings to compare it with: there is no register in the data folder.",
            answer.NotComparable > 0
                ? $"{answer.NotComparable:N0} gatherings of the register could not be compared yet: they are made "
                    + "ready when the next list is received."
                : null,
            "Nothing was stored.",
        ];
        return string.Join('\n', lines.OfType<string>());
    }

    private static string? Again(CheckList.Answer answer) => answer switch
    {
        { HereAs: { } here } => $"This very file is here already, as batch {here}: sent again it changes nothing.",
        { BelongsTo: { } again } => $"It is the list of batch {again} again.",
        { MayBelongTo: { } like } =>
            $"It is much like the list of batch {like}: somebody has to say if it is that list again.",
        _ => null,
    };
}
