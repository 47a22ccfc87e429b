namespace Accession.Benchmarks;

/// <summary>One job of the program beside its limit.</summary>
internal interface IBenchmark
{
    /// <summary>The word on the command line.</summary>
    string Name { get; }

    /// <summary>What is measured, in a sentence.</summary>
    string Measures { get; }

    /// <summary>Makes everything ready and names the contestants, the limit first.</summary>
    Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation);
}

/// <summary>Somebody who does the job.</summary>
/// <param name="Name">What is run, as a person would type it.</param>
/// <param name="RunAsync">Does the job once.</param>
internal sealed record Contestant(string Name, Func<CancellationToken, Task<Sample>> RunAsync);

/// <summary>The job done once.</summary>
/// <param name="Seconds">How long it took.</param>
/// <param name="PeakMegabytes">The most memory that it had at once; null where nobody looked.</param>
internal sealed record Sample(double Seconds, double? PeakMegabytes);

/// <summary>A program of this machine that a benchmark needs is not here.</summary>
internal sealed class MissingToolException(string tool)
    : Exception($"\"{tool}\" is not installed; without it there is nothing to compare with.");
