using System.Diagnostics;
using System.Globalization;

namespace Accession.Benchmarks;

/// <summary>Another program, run and watched.</summary>
internal static class Tool
{
    private static readonly TimeSpan Glance = TimeSpan.FromMilliseconds(20);

    /// <summary>Whether a program is on the path.</summary>
    public static void Require(string name)
    {
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
        if (!folders.Any(folder => File.Exists(Path.Combine(folder, name))))
        {
            throw new MissingToolException(name);
        }
    }

    /// <summary>Runs a program to its end and gives what it printed.</summary>
    public static async Task<string> ReadAsync(
        string program, IReadOnlyList<string> arguments, CancellationToken cancellation)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
        var output = await process.StandardOutput.ReadToEndAsync(cancellation);
        await process.WaitForExitAsync(cancellation);
        return process.ExitCode == 0
            ? output
            : throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {output}");
    }

    /// <summary>
    /// Runs a program to its end: the time from start to exit, and the peak of its resident memory as the system counts
    /// it (VmHWM, asked again and again while it runs).
    /// </summary>
    public static async Task<Sample> RunAsync(
        string program, IReadOnlyList<string> arguments, IReadOnlyDictionary<string, string>? environment,
        CancellationToken cancellation)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var (name, value) in environment ?? new Dictionary<string, string>())
        {
            start.Environment[name] = value;
        }

        var began = TimeProvider.System.GetTimestamp();
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync(cancellation);
        var errors = process.StandardError.ReadToEndAsync(cancellation);
        var ended = process.WaitForExitAsync(cancellation);
        double peak = 0;
        while (await Task.WhenAny(ended, Task.Delay(Glance, cancellation)) != ended)
        {
            peak = Math.Max(peak, PeakMegabytes(process.Id));
        }

        await ended;
        var seconds = TimeProvider.System.GetElapsedTime(began).TotalSeconds;
        return process.ExitCode == 0
            ? new Sample(seconds, peak)
            : throw new InvalidOperationException(
                $"{program} ended with {process.ExitCode}: {await output}{await errors}");
    }

    /// <summary>The peak of this process's own resident memory since it started.</summary>
    public static double PeakMegabytesOfThis() => PeakMegabytes(Environment.ProcessId);

    /// <summary>The resident memory of a process now.</summary>
    public static double MegabytesNow(int process) => Megabytes(process, "VmRSS:");

    private static double PeakMegabytes(int process) => Megabytes(process, "VmHWM:");

    private static double Megabytes(int process, string kind)
    {
        try
        {
            var line = File.ReadLines($"/proc/{process}/status")
                .FirstOrDefault(line => line.StartsWith(kind, StringComparison.Ordinal));
            return line is null ? 0 : long.Parse(line[kind.Length..^2], CultureInfo.InvariantCulture) / 1024.0;
        }
        catch (IOException)
        {
            return 0;   // it ended between the glance and the look
        }
    }
}
