using System.Net;
using System.Net.Sockets;
using Accession.Tests;
using Accession.Tests.Stores;

namespace Accession.Server.Tests.Ground;

/// <summary>
/// The program as a process of its own on a port of its own, which is killed again and again at moments that nobody
/// chose, and started again each time. Whoever has no answer sends the same once more, as a browser's user would.
/// </summary>
internal sealed class FailingPower(TestStore store, IReadOnlyList<string> settings, int seed) : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    private readonly int _port = FreePort(seed);
    private readonly Random _random = new(seed);
    private ServerProcess? _server;

    public Uri Address => new($"http://127.0.0.1:{_port}");

    /// <summary>What people were doing each time.</summary>
    public List<string> Kills { get; } = [];

    /// <summary>What people are doing now; they say so themselves.</summary>
    public string Doing { get; set; } = "";

    /// <summary>Starts it; the first time it prints a link for an administrator.</summary>
    public async Task<ServerProcess> StartAsync() => _server = await ServerProcess.ServeAsync(
        store.Folder,
        ["--urls", Address.ToString(), .. store.Settings.Concat(settings).SelectMany(one => new[] { "--set", one })]);

    /// <summary>Fails that many times, at most <paramref name="longest"/> after each start.</summary>
    public async Task FailAsync(int times, TimeSpan longest, CancellationToken cancellation)
    {
        for (var i = 0; i < times; i++)
        {
            await Task.Delay(longest * _random.NextDouble(), cancellation);
            var doing = Doing;
            await _server!.KillAsync();
            await _server.DisposeAsync();
            Kills.Add(doing);
            await StartAsync();
        }
    }

    /// <summary>Does something until there is an answer. It must be the same each time, with the same request key.</summary>
    public static async Task<T> InsistAsync<T>(Func<Task<T>> ask)
    {
        var until = TimeProvider.System.GetUtcNow() + Patience;
        while (true)
        {
            try
            {
                return await ask();
            }
            catch (Exception unanswered) when (unanswered is HttpRequestException or IOException
                && TimeProvider.System.GetUtcNow() < until)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(50));
            }
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (_server is not null)
        {
            await _server.DisposeAsync();
        }
    }

    // Below those that the system gives to whoever asks for any: it has to be free again after each kill.
    private static int FreePort(int seed)
    {
        var random = new Random(unchecked((seed * 31) + Environment.ProcessId));
        while (true)
        {
            var port = random.Next(20_000, 32_000);
            try
            {
                using var door = new TcpListener(IPAddress.Loopback, port);
                door.Start();
                return port;
            }
            catch (SocketException)
            {
                // Somebody has it; another one will do.
            }
        }
    }
}
