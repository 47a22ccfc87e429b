using System.Globalization;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Receiving;
using Accession.Storage;
using Bogus;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Benchmarks.Intake;

/// <summary>
/// A list of vouchers received whole: kept, read, compared with earlier lists, its rows stored with their problems. The
/// limit is the database's own tool importing the same file as plain text. Findings against the holdings do not exist
/// yet, so they are not in the figure.
/// </summary>
internal sealed class IntakeBenchmark : IBenchmark
{
    private static readonly string[] Families = ["Finch", "Brandt", "Quill", "Osei", "Farrow", "Orm", "Brask", "Tolliver"];

    private static readonly string[] Plants =
        ["Artemisia tridentata Nutt.", "Poa secunda J.Presl", "Bromus tectorum L.", "Purshia tridentata (Pursh) DC."];

    private int _round;

    public string Name => "intake";

    public string Measures => "Receive a list, all but the findings; the limit imports the same file as plain text";

    public async Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation)
    {
        Tool.Require("sqlite3");
        var list = Path.Combine(holdings.Folder, "list.csv");
        await File.WriteAllLinesAsync(list, Lines(holdings.Settings), Encoding.UTF8, cancellation);
        await ReceiveAsync(holdings, list, cancellation);
        return
        [
            new("sqlite3 .import of the same file", c => ImportAsync(holdings, list, c)),
            new("receive a list, in a program that runs already", c => ReceiveAsync(holdings, list, c)),
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
        var began = TimeProvider.System.GetTimestamp();
        await using (var content = File.OpenRead(list))
        {
            var kept = await services.GetRequiredService<ReceivedFiles>().KeepAsync(content, "list.csv", cancellation);
            var received = await services.GetRequiredService<ReceiveList>().RunAsync(
                new($"Sender {_round++}", null, kept), Door.System, cancellation);
            var listId = await services.GetRequiredService<AccessionDb>().Lists
                .Where(l => l.BatchId == received.Value.BatchId).Select(l => l.Id).SingleAsync(cancellation);
            await services.GetRequiredService<ReadList>()
                .RunAsync(listId, (_, _, _) => Task.CompletedTask, cancellation);
        }

        return new Sample(TimeProvider.System.GetElapsedTime(began).TotalSeconds, Tool.PeakMegabytesOfThis());
    }

    private static IEnumerable<string> Lines(BenchmarkSettings settings)
    {
        yield return "Collector,Number,Date,Country,State,County,Locality,Habitat,Latitude,Longitude,Elevation m,Species,"
            + "Determined by,Notes";
        var random = new Randomizer(settings.Seed);
        for (var row = 0; row < settings.Rows; row++)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"\"{random.Char('A', 'E')}. {random.ArrayElement(Families)} & T. {random.ArrayElement(Families)}\","
                + $"{(row % 9000) + 1},{random.Int(1950, 2024)}-{random.Int(1, 12):00}-{random.Int(1, 28):00},"
                + $"United States,Oregon,Harney,\"{row} m N of Cold Ford, road {random.Int(1, 999)}\",sagebrush on silt,"
                + $"{random.Double(42.5, 44):F5},{random.Double(-119.9, -118):F5},{random.Int(1250, 2000)},"
                + $"{random.ArrayElement(Plants)},R. Quillon,\"shrub to {random.Int(1, 9)} dm; flowers yellow\"");
        }
    }
}
