using System.Globalization;
using System.Runtime.InteropServices;

namespace Accession.Benchmarks;

/// <summary>On what the figures were measured.</summary>
internal static class Machine
{
    public static string Description { get; } = string.Create(
        CultureInfo.InvariantCulture,
        $"{Environment.ProcessorCount} cores ({Processor()}), {RuntimeInformation.OSDescription}, "
        + $"{RuntimeInformation.FrameworkDescription}");

    private static string Processor() => File.Exists("/proc/cpuinfo")
        ? File.ReadLines("/proc/cpuinfo")
            .FirstOrDefault(line => line.StartsWith("model name", StringComparison.Ordinal))
            ?.Split(':')[1].Trim() ?? "unknown"
        : RuntimeInformation.ProcessArchitecture.ToString();
}
