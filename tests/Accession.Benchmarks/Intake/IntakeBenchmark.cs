using System.Globalization;
using Accession.Benchmarks.Matching;
using Accession.Server.Hosting;
using Accession.Server.Receiving;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Benchmarks.Intake;

/// <summary>
/// A list of vouchers received whole: kept, read, compared with earlier lists, its rows stored with their problems, and
/// found to be what they are against a register of signed gatherings. The limit is the database's own tool importing the
/// same file as plain text.
/// </summary>
internal sealed class IntakeBenchmark : IBenchmark
{
    private int _round;

    public string Name => "intake";

    public string Measures => "Receive a list with its findings; the limit imports the same file as plain text";

    public async Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation)
    {
        Tool.Require("sqlite3");
        var list = Path.Combine(holdings.Folder, "list.csv");
        var labels = new InventedLabels(holdings.Settings.Seed);
        await new InventedList(labels, holdings.Settings.Specimens, holdings.Settings.Rows).WriteAsync(list, cancellation);
        using (var app = AccessionServer.BuildForCommand(holdings.Program))
        {
            await SignedHoldings.SignAsync(app, holdings, cancellation);
        }

        await ReceiveAsync(holdings, list, cancellation);
        return
        [
            new("sqlite3 .import of the same file", c => ImportAsync(holdings, list, c)),
            new("receive a list and find, in a program that runs already", c => ReceiveAsync(holdings, list, c)),
        ];
    }

    private Task<Sample> ImportAsync(Holdings holdings, string list, CancellationToken cancellation) => Tool.RunAsync(
        "sqlite3",
        [Path.Combine(holdings.Folder, $"import-{_round++}.db"), "-cmd", ".mode csv", $".import {list} list"],
        environment: null,
        cancellation);

    private async Task<Sample> ReceiveAsync(Holdings holdings, string list, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(holdings.Program);
        await using var scope = app.Services.CreateAsyncScope();
        var services = scope.ServiceProvider;
        var (began, worked) = (TimeProvider.System.GetTimestamp(), Environment.CpuUsage.TotalTime);
        string Since() => string.Create(
            CultureInfo.InvariantCulture,
            $"{TimeProvider.System.GetElapsedTime(began).TotalSeconds:F2} s "
            + $"({(Environment.CpuUsage.TotalTime - worked).TotalSeconds:F2} s of processor)");
        var batch = await SignedHoldings.ReceiveAsync(services, list, $"Sender {_round++}", cancellation);
        var read = Since();
        await services.GetRequiredService<FindDuplicates>()
            .StageAndFindAsync(batch, (_, _, _) => Task.CompletedTask, cancellation);
        var seconds = TimeProvider.System.GetElapsedTime(began).TotalSeconds;
        await Console.Error.WriteLineAsync($"read after {read}, found after {Since()}");
        return new Sample(seconds, Tool.PeakMegabytesOfThis());
    }
}
