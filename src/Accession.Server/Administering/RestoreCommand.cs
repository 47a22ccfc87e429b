using System.CommandLine;
using System.Globalization;
using Accession.Server.Hosting;

namespace Accession.Server.Administering;

/// <summary>
/// <c>restore</c>: puts a backup back into an empty folder, and on PostgreSQL into an empty database as well.
/// </summary>
internal static class RestoreCommand
{
    private const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.OtherRead;

    public static Command Create()
    {
        var file = new Argument<FileInfo>("file") { Description = "The file that accession backup wrote" };
        var dryRun = new Option<bool>("--dry-run")
        {
            Description = "Check all of the file and say what would be done, without doing it",
        };
        var json = new Option<bool>("--json") { Description = "Tell the result as JSON" };
        var command = new CommandWithExamples(
            "restore", "Put a backup back into an empty folder and, with PostgreSQL, database.",
            "accession restore nightly.backup --data herbarium-restored --dry-run",
            "accession restore nightly.backup --data herbarium-restored")
        {
            file, dryRun, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => CommandAnswers.InOneSentenceAsync(() => RestoreAsync(
            settings(parsed),
            parsed.GetRequiredValue(file).FullName,
            parsed.GetValue(dryRun),
            parsed.GetValue(json),
            cancellation)));
        return command;
    }

    private static async Task<int> RestoreAsync(
        Settings settings, string file, bool dryRun, bool json, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(settings);
        app.CheckSettings();
        var clock = app.Services.GetRequiredService<TimeProvider>();
        var folder = Path.TrimEndingDirectorySeparator(app.Services.GetRequiredService<DataFolder>().Root);
        var began = clock.GetTimestamp();
        using var backup = OpenedBackup.Of(file);
        if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(file) & Others) != 0)
        {
            await CommandTalk.SayAsync(
                $"Others than its owner may read {file}, and it holds exact places and mail addresses: chmod 600.");
        }

        await using (var scope = app.Services.CreateAsyncScope())
        {
            var restore = scope.ServiceProvider.GetRequiredService<RestoreBackup>();
            if (await restore.WhyNotAsync(backup.Manifest, folder, cancellation) is { } reason)
            {
                throw new BackupRefusedException(reason);
            }
        }

        var shown = new ShownOnTerminal(clock);
        var bytes = 0L;
        backup.Check(read => shown.TellBytes("Checked", bytes += read, backup.Manifest.Bytes), cancellation);
        shown.End();
        var done = dryRun ? null : await PutBackAsync(settings, backup, folder, cancellation);
        var seconds = Math.Round(clock.GetElapsedTime(began).TotalSeconds, 2);
        await CommandTalk.AnswerAsync(
            json,
            () => Answer(backup.Manifest, folder, done, seconds),
            () => Sentences(backup.Manifest, folder, done, seconds));
        return ExitCode.Done;
    }

    // Another host, whose data folder is the one that is being filled.
    private static async Task<RestoredRegister.Restored> PutBackAsync(
        Settings settings, OpenedBackup backup, string folder, CancellationToken cancellation)
    {
        using var filling = RestoringFolder.Of(folder);
        using var app = AccessionServer.BuildForCommand(settings with { DataFolder = filling.Path });
        await using var scope = app.Services.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<RestoreBackup>()
            .RunAsync(backup, filling, cancellation);
    }

    private static object Answer(
        BackupManifest manifest, string folder, RestoredRegister.Restored? done, double seconds) => new
        {
            folder,
            manifest.TakenAt,
            manifest.Program,
            manifest.Database,
            Specimens = manifest.RowsOf("specimen"),
            Lists = manifest.ReceivedLists,
            DryRun = done is null,
            done?.SeriesClosed,
            done?.WorkAtRest,
            done?.Links,
            seconds,
        };

    private static string Sentences(
        BackupManifest manifest, string folder, RestoredRegister.Restored? done, double seconds)
    {
        var what = string.Create(
            CultureInfo.InvariantCulture,
            $"the backup of {manifest.TakenAt:d MMM yyyy, HH:mm} UTC, on {manifest.Database}: "
            + $"{manifest.RowsOf("specimen"):N0} specimens, {manifest.ReceivedLists:N0} lists");
        if (done is null)
        {
            return $"""
                The backup is whole. It would restore into {folder} {what}.
                It would close {manifest.RowsOf("number_series")} number series, until an administrator enters the
                highest number of each on paper; hold the mail until an administrator lets it go; put to rest what is to
                be published; and end all sessions and sign-in links of before.
                Nothing was done.
                """;
        }

        var links = string.Concat(done.Links.Select(link => $"\n  {link.Who,-15} {link.Link}"));
        return string.Create(CultureInfo.InvariantCulture, $"""
            Restored into {folder} {what}, in {seconds} s.
            {done.SeriesClosed} number series are closed: an administrator enters the highest number of each on paper,
            under Series and rolls. The mail is held until an administrator lets it go, under Mail. {done.WorkAtRest}
            pieces of work that publish rest. No session and no sign-in link of before works any more.
            Links to sign in with once, within 24 hours, behind the address of the server:{links}
            """);
    }
}
