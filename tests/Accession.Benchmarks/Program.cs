using System.CommandLine;
using Accession.Benchmarks;
using Accession.Benchmarks.Backups;
using Accession.Benchmarks.Export;
using Accession.Benchmarks.Intake;
using Accession.Benchmarks.Matching;
using Accession.Benchmarks.Numbers;
using Accession.Benchmarks.Search;
using Accession.Benchmarks.Serving;

if (BareServer.IsAskedFor(args))
{
    return await BareServer.RunAsync();
}

// One file for each benchmark: it names its contestants, the rest is shared.
IBenchmark[] benchmarks =
[
    new IntakeBenchmark(), new MatchBenchmark(), new ExportBenchmark(), new NumbersBenchmark(), new BackupBenchmark(),
    new SearchBenchmark(), new ServeBenchmark(), new StartBenchmark(),
];

var root = new RootCommand("Runs a path of Accession beside its limit, in turns, and tells both.");
foreach (var benchmark in benchmarks)
{
    root.Subcommands.Add(BenchmarkCommand.Of(benchmark));
}

return await root.Parse(args).InvokeAsync();
