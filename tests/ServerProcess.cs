using System.Collections.Concurrent;
using System.Diagnostics;

namespace Accession.Tests;

/// <summary>
/// The program as people start it: a process of its own, told its settings on the command line and in its environment, and
/// killed without warning at the end.
/// </summary>
internal sealed class ServerProcess : IAsyncDisposable
{
    private const string Greeting = "Accession listens on ";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);

    private readonly Process _process;
    private readonly ConcurrentQueue<string> _said = new();
    private readonly ConcurrentQueue<string> _told = new();

    private ServerProcess(
        string[] arguments, IReadOnlyDictionary<string, string>? environment, bool hearsCtrlC = false,
        string? program = null)
    {
        var start = new ProcessStartInfo(hearsCtrlC ? "env" : "dotnet")
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        if (hearsCtrlC)
        {
            // A shell lets whatever it runs in the background ignore Ctrl-C, and that is handed on from process to process.
            start.ArgumentList.Add("--default-signal=INT");
            start.ArgumentList.Add("dotnet");
        }

        start.ArgumentList.Add(program ?? Path.Combine(AppContext.BaseDirectory, "accession.dll"));
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        foreach (var (name, value) in environment ?? new Dictionary<string, string>())
        {
            start.Environment[name] = value;
        }

        _process = new Process { StartInfo = start };
        _process.OutputDataReceived += (_, line) =>
        {
            Hear(line.Data);
            if (line.Data is not null)
            {
                _told.Enqueue(line.Data);
            }
        };
        _process.ErrorDataReceived += (_, line) => Hear(line.Data);
        _process.Start();
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
    }

    /// <summary>Where it listens.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>The system's number of the process.</summary>
    public int Id => _process.Id;

    /// <summary>Everything it has printed so far.</summary>
    public string Said => string.Join('\n', _said);

    /// <summary>Starts <c>serve</c> and waits until it listens: on a free loopback port, unless more names one.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="more">Further arguments.</param>
    /// <param name="environment">What stands in its environment besides.</param>
    /// <param name="program">Which program; the one beside this otherwise.</param>
    public static async Task<ServerProcess> ServeAsync(
        string folder, string[]? more = null, IReadOnlyDictionary<string, string>? environment = null,
        string? program = null)
    {
        var server = new ServerProcess(
            [
                "serve", "--data", folder, .. more ?? [],
                .. more?.Contains("--urls") == true ? [] : new[] { "--urls", "http://127.0.0.1:0" },
            ],
            environment, program: program);
        try
        {
            server.Address = new Uri((await server.LineAsync(Greeting))[Greeting.Length..]);
            return server;
        }
        catch
        {
            await server.DisposeAsync();
            throw;
        }
    }

    /// <summary>Runs a command to its end.</summary>
    /// <returns>The exit code, and all that was printed.</returns>
    public static async Task<(int ExitCode, string Said)> RunAsync(params string[] arguments)
    {
        await using var process = new ServerProcess(arguments, null);
        using var patience = new CancellationTokenSource(Patience);
        await process._process.WaitForExitAsync(patience.Token);
        return (process._process.ExitCode, process.Said);
    }

    /// <summary>Runs a command to its end, its data and its remarks apart.</summary>
    /// <returns>The exit code, the lines of standard output, and those of standard error.</returns>
    public static async Task<(int ExitCode, string[] Told, string Remarks)> RunApartAsync(params string[] arguments)
    {
        await using var process = new ServerProcess(arguments, null);
        return await process.EndAsync();
    }

    /// <summary>Waits for the end of a command that was begun.</summary>
    public async Task<(int ExitCode, string[] Told, string Remarks)> EndAsync()
    {
        using var patience = new CancellationTokenSource(Patience);
        await _process.WaitForExitAsync(patience.Token);
        string[] told = [.. _told];
        return (_process.ExitCode, told, string.Join('\n', _said.Except(told)));
    }

    /// <summary>Presses Ctrl-C.</summary>
    public async Task InterruptAsync()
    {
        using var kill = Process.Start("kill", ["-INT", $"{_process.Id}"]);
        await kill.WaitForExitAsync();
    }

    /// <summary>Begins a command, to be killed before its end.</summary>
    public static ServerProcess Begin(params string[] arguments) => new(arguments, null, hearsCtrlC: true);

    /// <summary>Whether it came to its end by itself.</summary>
    public bool HasEnded => _process.HasExited;

    /// <summary>The one-time link that was printed for somebody, as a path.</summary>
    public async Task<string> LinkAsync(string who)
    {
        var line = await LineAsync($"  {who} ");
        return new Uri(line[(line.LastIndexOf(' ') + 1)..]).PathAndQuery;
    }

    /// <summary>Ends it as a power cut would.</summary>
    public async Task KillAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }

        await _process.WaitForExitAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await KillAsync();
        _process.Dispose();
    }

    private async Task<string> LineAsync(string beginning)
    {
        var waited = Stopwatch.StartNew();
        while (true)
        {
            if (_said.FirstOrDefault(line => line.StartsWith(beginning, StringComparison.Ordinal)) is { } line)
            {
                return line;
            }

            if (_process.HasExited || waited.Elapsed > Patience)
            {
                var state = _process.HasExited ? $"It ended with {_process.ExitCode}" : "It never said so";
                throw new InvalidOperationException($"{state}; waited for \"{beginning}\". It said:\n{Said}");
            }

            await Task.Delay(TimeSpan.FromMilliseconds(20));
        }
    }

    private void Hear(string? line)
    {
        if (line is not null)
        {
            _said.Enqueue(line);
        }
    }
}
