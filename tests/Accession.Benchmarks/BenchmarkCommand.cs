using System.CommandLine;
using System.Globalization;
using System.Text.Json;

namespace Accession.Benchmarks;

/// <summary>A benchmark as a command: options, rounds in turns, medians, ratios.</summary>
internal static class BenchmarkCommand
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    /// <summary>How a contestant did.</summary>
    public sealed record Standing(
        string Name, double MedianSeconds, double RatioToLimit, double? PeakMegabytes, IReadOnlyList<double> Seconds);

    public static Command Of(IBenchmark benchmark)
    {
        var specimens = Number("--specimens", "How many specimens the invented register holds", 100_000);
        var rows = Number("--rows", "How many rows an invented list has", 200_000);
        var seed = Number("--seed", "From which everything invented follows", 1);
        var rounds = Number("--rounds", "How often each contestant runs; the median counts", 3);
        var json = new Option<bool>("--json") { Description = "Tell the result as JSON" };
        var store = new Option<string>("--store")
        {
            Description = "Which database; postgresql wants a server in ACCESSION_POSTGRES (see tests/postgres.sh)",
            DefaultValueFactory = _ => "sqlite",
        };
        store.AcceptOnlyFromAmong("sqlite", "postgresql");
        var program = new Option<FileInfo>("--program")
        {
            Description = "The accession.dll to measure, such as a published one; the default is the one beside this",
            DefaultValueFactory = _ => new(Path.Combine(AppContext.BaseDirectory, "accession.dll")),
        };
        var command = new Command(benchmark.Name, benchmark.Measures)
        {
            specimens, rows, seed, store, rounds, program, json,
        };
        command.SetAction((parsed, cancellation) => RunAsync(
            benchmark,
            new BenchmarkSettings(
                parsed.GetValue(specimens), parsed.GetValue(rows), parsed.GetValue(seed), parsed.GetValue(store)!,
                parsed.GetValue(rounds), parsed.GetValue(program)!.FullName),
            parsed.GetValue(json),
            cancellation));
        return command;
    }

    private static async Task<int> RunAsync(
        IBenchmark benchmark, BenchmarkSettings settings, bool json, CancellationToken cancellation)
    {
        try
        {
            await using var holdings = await Holdings.InventAsync(settings, cancellation);
            await using var leftRunning = benchmark as IAsyncDisposable;
            var contestants = await benchmark.PrepareAsync(holdings, cancellation);
            var standings = await CompareAsync(contestants, settings.Rounds, cancellation);
            await TellAsync(benchmark, settings, standings, json);
            return 0;
        }
        catch (MissingToolException missing)
        {
            await Console.Error.WriteLineAsync(missing.Message);
            return 1;
        }
    }

    private static async Task<IReadOnlyList<Standing>> CompareAsync(
        IReadOnlyList<Contestant> contestants, int rounds, CancellationToken cancellation)
    {
        var samples = contestants.Select(_ => new List<Sample>()).ToList();
        for (var round = 0; round < rounds; round++)
        {
            for (var i = 0; i < contestants.Count; i++)
            {
                samples[i].Add(await contestants[i].RunAsync(cancellation));
            }
        }

        var medians = samples.Select(runs => Median([.. runs.Select(run => run.Seconds)])).ToList();
        return
        [
            .. contestants.Select((contestant, i) => new Standing(
                contestant.Name, medians[i], medians[i] / medians[0], samples[i].Max(run => run.PeakMegabytes),
                [.. samples[i].Select(run => run.Seconds)])),
        ];
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        return (values[(values.Count - 1) / 2] + values[values.Count / 2]) / 2;
    }

    private static async Task TellAsync(
        IBenchmark benchmark, BenchmarkSettings settings, IReadOnlyList<Standing> standings, bool json)
    {
        if (json)
        {
            var result = new { benchmark = benchmark.Name, settings, machine = Machine.Description, standings };
            await Console.Out.WriteLineAsync(JsonSerializer.Serialize(result, Json));
            return;
        }

        await Console.Out.WriteLineAsync($"{benchmark.Name}: {settings}\n{Machine.Description}\n");
        foreach (var standing in standings)
        {
            var peak = standing.PeakMegabytes is { } megabytes ? $"{megabytes,6:F0} MB" : "";
            await Console.Out.WriteLineAsync(string.Create(
                CultureInfo.InvariantCulture,
                $"{standing.Name,-55} {standing.MedianSeconds,9:F4} s  {standing.RatioToLimit,5:F2}  {peak}"));
        }
    }

    private static Option<int> Number(string name, string description, int otherwise) =>
        new(name) { Description = description, DefaultValueFactory = _ => otherwise };
}
