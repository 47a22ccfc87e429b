using System.CommandLine;
using System.Globalization;
using Accession.Server.Hosting;

namespace Accession.Server.Administering;

/// <summary><c>backup</c>: writes everything into one file. It may run while a server runs and people scan.</summary>
internal static class BackupCommand
{
    public static Command Create()
    {
        var file = new Argument<FileInfo>("file")
        {
            Description = "The file to write, such as accession-2026-03-05.backup. It appears when it is whole",
        };
        var replace = new Option<bool>("--replace") { Description = "Replace the file if it is there" };
        var dryRun = new Option<bool>("--dry-run")
        {
            Description = "Say what would be written, where and about how large, and write nothing",
        };
        var json = new Option<bool>("--json") { Description = "Tell the result as JSON" };
        var command = new CommandWithExamples(
            "backup", "Write the register and the lists as they came into one file.",
            "accession backup nightly.backup --data herbarium --replace")
        {
            file, replace, dryRun, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => CommandAnswers.InOneSentenceAsync(() => BackupAsync(
            settings(parsed),
            new(parsed.GetRequiredValue(file).FullName, parsed.GetValue(replace)),
            (parsed.GetValue(dryRun), parsed.GetValue(json)),
            cancellation)));
        return command;
    }

    private static async Task<int> BackupAsync(
        Settings settings, MakeBackup.Request request, (bool DryRun, bool Json) how, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(settings);
        app.CheckSettings();
        await using var scope = app.Services.CreateAsyncScope();
        if (how.DryRun)
        {
            return await PlanAsync(
                request, await scope.ServiceProvider.GetRequiredService<MakeBackup>()
                    .PlanAsync(request, cancellation), how.Json);
        }

        var clock = scope.ServiceProvider.GetRequiredService<TimeProvider>();
        var began = clock.GetTimestamp();
        var shown = new ShownOnTerminal(clock);
        var (manifest, bytes) = await scope.ServiceProvider.GetRequiredService<MakeBackup>().RunAsync(
            request, (done, total) => shown.TellBytes("Copied", done, total), cancellation);
        shown.End();
        var seconds = Math.Round(clock.GetElapsedTime(began).TotalSeconds, 2);
        var (specimens, lists) = (manifest.RowsOf("specimen"), manifest.ReceivedLists);
        await CommandTalk.AnswerAsync(
            how.Json,
            () => new { request.File, manifest.TakenAt, specimens, lists, bytes, seconds, manifest.Missing },
            () => string.Create(
                CultureInfo.InvariantCulture,
                $"{request.File}: {specimens:N0} specimens, {lists:N0} lists, {bytes:N0} bytes, {seconds} s\n"
                + $"It holds exact places and mail addresses; only its owner may read it. Keep copies like that."));
        if (manifest.Missing.Count == 0)
        {
            return ExitCode.Done;
        }

        await CommandTalk.SayAsync(
            "The data folder does not have, or not as they came, the lists kept as "
            + $"{string.Join(", ", manifest.Missing)}. The backup is without them as they came; "
            + "look for them in an earlier one.");
        return ExitCode.Found;
    }

    private static async Task<int> PlanAsync(MakeBackup.Request request, MakeBackup.Plan plan, bool json)
    {
        var replaces = File.Exists(request.File);
        await CommandTalk.AnswerAsync(
            json,
            () => new
            {
                DryRun = true,
                request.File,
                replaces,
                plan.Specimens,
                plan.Lists,
                plan.Papers,
                plan.AboutBytes,
                plan.Missing,
            },
            () => string.Create(
                CultureInfo.InvariantCulture,
                $"{request.File} would {(replaces ? "be replaced" : "be written")}: {plan.Specimens:N0} specimens, "
                + $"{plan.Lists:N0} lists, {plan.Papers:N0} papers, at most about {plan.AboutBytes:N0} bytes.\n"
                + $"Nothing was written."));
        if (plan.Missing.Count == 0)
        {
            return ExitCode.Done;
        }

        await CommandTalk.SayAsync(
            $"The data folder does not have what is kept as {string.Join(", ", plan.Missing)}. The backup would be "
            + "without; look for it in an earlier one.");
        return ExitCode.Found;
    }
}
