using System.CommandLine;
using Accession.Server.Hosting;
using Accession.Storage.Verifying;

namespace Accession.Server.Administering;

/// <summary>
/// <c>verify</c>: recomputes every present of the register from its entries and tells where they disagree. It changes
/// nothing, and may run while a server runs.
/// </summary>
internal static class VerifyCommand
{
    public static Command Create()
    {
        var json = new Option<bool>("--json") { Description = "Tell each disagreement as a line of JSON" };
        var command = new CommandWithExamples(
            "verify", "Recompute what the register shows from its entries, and tell where they disagree.",
            "accession verify --data herbarium")
        {
            json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => CommandAnswers.InOneSentenceAsync(
            () => VerifyAsync(settings(parsed), parsed.GetValue(json), cancellation)));
        return command;
    }

    private static async Task<int> VerifyAsync(Settings settings, bool json, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(settings);
        app.CheckSettings();
        await using var scope = app.Services.CreateAsyncScope();
        await RegistersAtHand.RequireAsync(scope.ServiceProvider, cancellation);
        var verify = scope.ServiceProvider.GetRequiredService<VerifyRegister>();
        var (checks, found) = (0, 0L);
        await foreach (var wrong in verify.RunAsync(Begins, cancellation))
        {
            found++;
            await CommandTalk.AnswerAsync(
                json,
                () => wrong,
                () => $"{wrong.Check}: {wrong.Subject}: stored \"{wrong.Stored}\", the entries say "
                    + $"\"{wrong.Entries}\"");
        }

        if (!json)
        {
            await CommandTalk.TellAsync(found == 0
                ? $"{checks} checks: the register agrees with its entries."
                : $"{checks} checks, {found:N0} disagreements.");
        }

        return found == 0 ? ExitCode.Done : ExitCode.Found;

        void Begins(string check)
        {
            checks++;
            CommandTalk.Show($"{checks}. {check}{Environment.NewLine}");
        }
    }
}
