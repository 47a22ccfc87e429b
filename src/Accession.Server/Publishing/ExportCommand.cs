using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Publishing;

/// <summary>
/// <c>export</c>: builds an archive into a file. It may run while a server runs, and stops nobody from working.
/// </summary>
internal static class ExportCommand
{
    private const int Refused = 1;
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static Command Create()
    {
        var file = new Option<FileInfo>("--out")
        {
            Description = "The file to write, such as archive.zip. It appears when it is whole",
            Required = true,
        };
        var replace = new Option<bool>("--replace") { Description = "Replace the file if it is there" };
        var json = new Option<bool>("--json") { Description = "Tell the result as JSON" };
        var command = new Command("export", "Write everything that may be public as a Darwin Core archive.")
        {
            file, replace, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => ExportAsync(
            settings(parsed),
            parsed.GetRequiredValue(file).FullName,
            parsed.GetValue(replace),
            parsed.GetValue(json),
            cancellation));
        return command;
    }

    private static async Task<int> ExportAsync(
        Settings settings, string file, bool replace, bool json, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(settings);
        app.Services.GetRequiredService<IStartupValidator>().Validate();
        await using var scope = app.Services.CreateAsyncScope();
        var clock = scope.ServiceProvider.GetRequiredService<TimeProvider>();
        var began = clock.GetTimestamp();
        var outcome = await BuildAsync(scope.ServiceProvider, file, replace, cancellation);
        if (outcome.IsRefused)
        {
            foreach (var refusal in outcome.Refusals)
            {
                await Console.Error.WriteLineAsync(refusal.Reason);
            }

            return Refused;
        }

        var archive = outcome.Value;
        var seconds = Math.Round(clock.GetElapsedTime(began).TotalSeconds, 2);
        await Console.Out.WriteLineAsync(json
            ? JsonSerializer.Serialize(
                new { file, archive.Version, archive.Specimens, archive.Determinations, archive.Bytes, seconds }, Json)
            : string.Create(
                CultureInfo.InvariantCulture,
                $"{file}: {archive.Specimens:N0} specimens, {archive.Determinations:N0} determinations, "
                + $"{archive.Bytes:N0} bytes, {seconds} s"));
        return 0;
    }

    private static async Task<Outcome<BuildArchive.Archive>> BuildAsync(
        IServiceProvider services, string file, bool replace, CancellationToken cancellation)
    {
        if (await WhyNotAsync(services, file, replace, cancellation) is { } reason)
        {
            return new Refusal(RefusalKind.Conflict, reason);
        }

        var wanted = await services.GetRequiredService<WantArchive>()
            .RunAsync(new(InBackground: false), Door.System, cancellation);
        if (wanted.IsRefused)
        {
            return wanted.Refusals.ToList();
        }

        // What starting left behind is given back first: it would stay beside the copying as long as that takes.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive);
        var outcome = await services.GetRequiredService<BuildArchive>()
            .RunAsync(new(wanted.Value.ActId, file, replace), TellAsync, cancellation);
        if (!Console.IsErrorRedirected)
        {
            await Console.Error.WriteLineAsync();
        }

        return outcome;
    }

    // Asked before an act is on record, and before a register is made where none was.
    private static async Task<string?> WhyNotAsync(
        IServiceProvider services, string file, bool replace, CancellationToken cancellation)
    {
        if (!replace && File.Exists(file))
        {
            return $"There is a file {file} already. Name another one, or say --replace.";
        }

        if (!Directory.Exists(Path.GetDirectoryName(file)))
        {
            return $"There is no folder {Path.GetDirectoryName(file)}.";
        }

        var db = services.GetRequiredService<AccessionDb>();
        if (!await db.Database.CanConnectAsync(cancellation))
        {
            var folder = services.GetRequiredService<DataFolder>().Root;
            return $"There is no register in {folder}. Name its folder with --data.";
        }

        return (await db.Database.GetPendingMigrationsAsync(cancellation)).Any()
            ? "The register is of another version of the program. Start the server once, which brings it up to date."
            : null;
    }

    private static Task TellAsync(long done, long total, CancellationToken cancellation) => Console.IsErrorRedirected
        ? Task.CompletedTask
        : Console.Error.WriteAsync(
            string.Create(CultureInfo.InvariantCulture, $"\r{done:N0} of {total:N0} lines").AsMemory(), cancellation);
}
