using System.CommandLine;
using System.Globalization;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Publishing;

/// <summary>
/// <c>export</c>: builds an archive into a file. It may run while a server runs, and stops nobody from working.
/// </summary>
internal static class ExportCommand
{
    public static Command Create()
    {
        var file = new Option<FileInfo>("--out")
        {
            Description = "The file to write, such as archive.zip. It appears when it is whole",
            Required = true,
        };
        var replace = new Option<bool>("--replace") { Description = "Replace the file if it is there" };
        var dryRun = new Option<bool>("--dry-run")
        {
            Description = "Say what would be written, without writing it",
        };
        var json = new Option<bool>("--json") { Description = "Tell the result as JSON" };
        var command = new CommandWithExamples(
            "export", "Write everything that may be public as a Darwin Core archive.",
            "accession export --data herbarium --out archive.zip")
        {
            file, replace, dryRun, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => CommandAnswers.InOneSentenceAsync(() => ExportAsync(
            settings(parsed),
            new(parsed.GetRequiredValue(file).FullName, parsed.GetValue(replace), parsed.GetValue(dryRun)),
            parsed.GetValue(json),
            cancellation)));
        return command;
    }

    private sealed record Asked(string File, bool Replace, bool DryRun);

    private static async Task<int> ExportAsync(
        Settings settings, Asked asked, bool json, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(settings);
        app.CheckSettings();
        await using var scope = app.Services.CreateAsyncScope();
        await RefuseAsync(scope.ServiceProvider, asked, cancellation);
        if (asked.DryRun)
        {
            return await SayWhatWouldBeAsync(scope.ServiceProvider, asked, json, cancellation);
        }

        var clock = scope.ServiceProvider.GetRequiredService<TimeProvider>();
        var began = clock.GetTimestamp();
        var outcome = await BuildAsync(scope.ServiceProvider, asked, clock, cancellation);
        if (outcome.IsRefused)
        {
            return await CommandTalk.RefuseAsync(outcome.Refusals);
        }

        var archive = outcome.Value;
        var seconds = Math.Round(clock.GetElapsedTime(began).TotalSeconds, 2);
        await CommandTalk.AnswerAsync(
            json,
            () => new
            {
                asked.File,
                archive.Version,
                archive.Specimens,
                archive.Determinations,
                archive.Bytes,
                seconds,
            },
            () => string.Create(
                CultureInfo.InvariantCulture,
                $"{asked.File}: {archive.Specimens:N0} specimens, {archive.Determinations:N0} determinations, "
                + $"{archive.Bytes:N0} bytes, {seconds} s"));
        return ExitCode.Done;
    }

    private static async Task<int> SayWhatWouldBeAsync(
        IServiceProvider services, Asked asked, bool json, CancellationToken cancellation)
    {
        var specimens = await services.GetRequiredService<AccessionDb>().Specimens.CountAsync(cancellation);
        await CommandTalk.AnswerAsync(
            json,
            () => new { asked.File, specimens, DryRun = true },
            () => string.Create(
                CultureInfo.InvariantCulture,
                $"{asked.File} would be written, with {specimens:N0} specimens. Nothing was done."));
        return ExitCode.Done;
    }

    private static async Task<Outcome<BuildArchive.Archive>> BuildAsync(
        IServiceProvider services, Asked asked, TimeProvider clock, CancellationToken cancellation)
    {
        var wanted = await services.GetRequiredService<WantArchive>()
            .RunAsync(new(InBackground: false), Door.System, cancellation);
        if (wanted.IsRefused)
        {
            return wanted.Refusals.ToList();
        }

        // What starting left behind is given back first: it would stay beside the copying as long as that takes.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive);
        var shown = new ShownOnTerminal(clock);
        var outcome = await services.GetRequiredService<BuildArchive>().RunAsync(
            new(wanted.Value.ActId, asked.File, asked.Replace), (done, total, _) => TellAsync(shown, done, total),
            cancellation);
        shown.End();
        return outcome;
    }

    private static Task TellAsync(ShownOnTerminal shown, long done, long total)
    {
        shown.Tell(() => string.Create(CultureInfo.InvariantCulture, $"{done:N0} of {total:N0} lines"));
        return Task.CompletedTask;
    }

    // Asked before an act is on record, and before a register is made where none was.
    private static async Task RefuseAsync(IServiceProvider services, Asked asked, CancellationToken cancellation)
    {
        if (!asked.Replace && File.Exists(asked.File))
        {
            throw new CommandRefusedException(
                $"There is a file {asked.File} already. Name another one, or say --replace.");
        }

        if (!Directory.Exists(Path.GetDirectoryName(asked.File)))
        {
            throw new CommandRefusedException($"There is no folder {Path.GetDirectoryName(asked.File)}.");
        }

        await RegistersAtHand.RequireAsync(services, cancellation);
    }
}
