using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Accession.Benchmarks.Serving;

/// <summary>A server that has one small file and nothing else: how soon any server could answer.</summary>
internal static class BareServer
{
    /// <summary>What stands in the place of a data folder; the arguments are those that start the program.</summary>
    public const string Folder = "none: a bare server";

    /// <summary>Whether this process is to be the bare server.</summary>
    public static bool IsAskedFor(string[] arguments) => arguments is ["serve", "--data", Folder, ..];

    /// <summary>Runs until it is ended, and says where it listens as the program does.</summary>
    public static async Task<int> RunAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        await using var app = builder.Build();
        var file = new byte[300];
        app.MapGet("/file", () => Results.Bytes(file, "image/svg+xml"));
        await app.StartAsync();
        var address = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses
            .Single();
        await Console.Out.WriteLineAsync($"Accession listens on {address}");
        await app.WaitForShutdownAsync();
        return 0;
    }
}
