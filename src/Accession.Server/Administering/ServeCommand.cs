using System.CommandLine;
using Accession.Server.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace Accession.Server.Administering;

/// <summary><c>serve</c>: starts the server and says where it listens.</summary>
internal static class ServeCommand
{
    public static Command Create()
    {
        var urls = new Option<string?>("--urls")
        {
            Description = "Where to listen. The default is http://127.0.0.1:5080",
        };
        var demo = new Option<bool>("--demo")
        {
            Description = "Fill an empty register of its own with an invented herbarium "
                + "and print a sign-in link per role",
        };
        var command = new CommandWithExamples(
            "serve", "Start the server. Without a register yet, an empty one is made.",
            "accession serve --data herbarium",
            "accession serve --demo --urls http://127.0.0.1:5081")
        {
            urls, demo,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            var chosen = settings(parsed) with { Urls = parsed.GetValue(urls) };
            var isDemo = parsed.GetValue(demo);
            return await ServeAsync(isDemo ? Demo.Of(chosen) : chosen, isDemo, cancellation);
        });
        return command;
    }

    private static async Task<int> ServeAsync(Settings settings, bool demo, CancellationToken cancellation)
    {
        await using var app = AccessionServer.Build(settings);
        await FirstStart.PrepareAsync(app, cancellation);
        await app.StartAsync(cancellation);
        var listening = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!;
        var address = listening.Addresses.First();
        await CommandTalk.TellAsync($"Accession listens on {address}");
        foreach (var line in await FirstStart.LinksAsync(app, demo, cancellation))
        {
            await CommandTalk.TellAsync($"  {line.Who,-15} {address}{line.Link}");
        }

        // What starting left behind is twice what is held from here on, and nothing would ask for it back for hours.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive);
        await app.WaitForShutdownAsync(cancellation);
        return ExitCode.Done;
    }
}
