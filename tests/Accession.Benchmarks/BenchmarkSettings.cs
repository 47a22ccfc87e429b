namespace Accession.Benchmarks;

/// <summary>What was asked for on the command line.</summary>
/// <param name="Specimens">How many specimens the invented register holds.</param>
/// <param name="Rows">How many rows an invented list has, for benchmarks of intake.</param>
/// <param name="Seed">From which everything invented follows.</param>
/// <param name="Store">Which database.</param>
/// <param name="Rounds">How often each contestant runs; the median counts.</param>
/// <param name="Program">The accession.dll that is measured.</param>
internal sealed record BenchmarkSettings(
    int Specimens, int Rows, int Seed, string Store, int Rounds, string Program)
{
    public bool IsPostgreSql => Store == "postgresql";
}
