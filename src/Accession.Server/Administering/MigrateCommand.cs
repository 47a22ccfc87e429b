using System.CommandLine;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary><c>migrate</c>: brings a register up to this version of the program without serving.</summary>
internal static class MigrateCommand
{
    public static Command Create()
    {
        var dryRun = new Option<bool>("--dry-run") { Description = "List what is pending, without doing it" };
        var json = new Option<bool>("--json") { Description = "Tell the result as JSON" };
        var command = new CommandWithExamples(
            "migrate", "Bring a register up to this version of the program, without serving.",
            "accession migrate --data herbarium --dry-run",
            "accession migrate --data herbarium")
        {
            dryRun, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => CommandAnswers.InOneSentenceAsync(
            () => MigrateAsync(settings(parsed), parsed.GetValue(dryRun), parsed.GetValue(json), cancellation)));
        return command;
    }

    private static async Task<int> MigrateAsync(
        Settings settings, bool dryRun, bool json, CancellationToken cancellation)
    {
        await using var app = AccessionServer.BuildWithAccounts(settings);
        app.CheckSettings();
        var folder = app.Services.GetRequiredService<DataFolder>();
        List<string> pending;
        await using (var scope = app.Services.CreateAsyncScope())
        {
            var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
            var register = await RegistersAtHand.OfAsync(db, cancellation);
            if (register is RegisterAtHand.None or RegisterAtHand.Newer)
            {
                throw new CommandRefusedException(RegistersAtHand.WhyNot(register, folder)!);
            }

            pending = [.. await db.Database.GetPendingMigrationsAsync(cancellation)];
        }

        if (pending.Count > 0 && !dryRun)
        {
            await FirstStart.PrepareAsync(app, cancellation);
        }

        await CommandTalk.AnswerAsync(
            json, () => new { folder.Root, pending, dryRun }, () => Words(folder.Root, pending, dryRun));
        return ExitCode.Done;
    }

    private static string Words(string folder, List<string> pending, bool dryRun)
    {
        var steps = string.Concat(pending.Select(step => $"\n  {step}"));
        return pending.Count == 0 ? $"The register in {folder} is of this version: nothing is to be done."
            : dryRun ? $"The register in {folder} lacks {pending.Count} steps:{steps}\nNothing was done."
            : $"The register in {folder} is of this version now. These steps were done:{steps}";
    }
}
