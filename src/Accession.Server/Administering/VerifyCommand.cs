using System.CommandLine;
using System.Text.Json;
using Accession.Server.Hosting;
using Accession.Storage.Verifying;
using Microsoft.Extensions.Options;

namespace Accession.Server.Administering;

/// <summary>
/// <c>verify</c>: recomputes every present of the register from its entries and tells where they disagree. It changes
/// nothing, and may run while a server runs.
/// </summary>
internal static class VerifyCommand
{
    private const int Disagrees = 1;
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static Command Create()
    {
        var json = new Option<bool>("--json") { Description = "Tell each disagreement as a line of JSON" };
        var command = new Command(
            "verify", "Recompute what the register shows from its entries, and tell where they disagree.")
        {
            json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => VerifyAsync(settings(parsed), parsed.GetValue(json), cancellation));
        return command;
    }

    private static async Task<int> VerifyAsync(Settings settings, bool json, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(settings);
        app.Services.GetRequiredService<IStartupValidator>().Validate();
        await using var scope = app.Services.CreateAsyncScope();
        var verify = scope.ServiceProvider.GetRequiredService<VerifyRegister>();
        var (checks, found) = (0, 0L);
        await foreach (var wrong in verify.RunAsync(Begins, cancellation))
        {
            found++;
            await Console.Out.WriteLineAsync(json
                ? JsonSerializer.Serialize(wrong, Json)
                : $"{wrong.Check}: {wrong.Subject}: stored \"{wrong.Stored}\", the entries say \"{wrong.Entries}\"");
        }

        if (!json)
        {
            await Console.Out.WriteLineAsync(found == 0
                ? $"{checks} checks: the register agrees with its entries."
                : $"{checks} checks, {found:N0} disagreements.");
        }

        return found == 0 ? 0 : Disagrees;

        void Begins(string check)
        {
            checks++;
            if (!Console.IsErrorRedirected)
            {
                Console.Error.WriteLine($"{checks}. {check}");
            }
        }
    }
}
