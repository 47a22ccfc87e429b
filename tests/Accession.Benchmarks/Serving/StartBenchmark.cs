using Accession.Tests;

namespace Accession.Benchmarks.Serving;

/// <summary>
/// From the start of the process to its first answer: a file of a bare server, which is the limit; a file of the program;
/// the page of a sheet. The memory is that of the page's process some seconds later.
/// </summary>
internal sealed class StartBenchmark : IBenchmark
{
    private static readonly TimeSpan Idle = TimeSpan.FromSeconds(5);

    public string Name => "start";

    public string Measures => "Start, and give the first answer; what the program holds when nobody asks";

    public async Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation)
    {
        string cookie;
        await using (var server = await ServeAsync(holdings))
        {
            using var curator = await Curator.ComeInAsync(holdings, server.Address, cancellation);
            cookie = await curator.CookieAsync(cancellation);
        }

        var bare = typeof(StartBenchmark).Assembly.Location;
        return
        [
            new("a bare server, a file", c => AnswerAsync(
                () => ServerProcess.ServeAsync(BareServer.Folder, program: bare), "/file", null, c)),
            new("accession, a file", c => AnswerAsync(() => ServeAsync(holdings), "/dist/icon.svg", null, c)),
            new("accession, the page of a sheet", c => AnswerAsync(
                () => ServeAsync(holdings), "/specimen/BENCH-10000007", cookie, c)),
        ];
    }

    private static Task<ServerProcess> ServeAsync(Holdings holdings) => ServerProcess.ServeAsync(
        holdings.Folder, environment: holdings.Environs, program: holdings.Settings.Program);

    private static async Task<Sample> AnswerAsync(
        Func<Task<ServerProcess>> start, string path, string? cookie, CancellationToken cancellation)
    {
        using var http = new HttpClient(new HttpClientHandler { UseCookies = false, AllowAutoRedirect = false });
        var began = TimeProvider.System.GetTimestamp();
        await using var server = await start();
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(server.Address, path));
        if (cookie is not null)
        {
            request.Headers.Add("Cookie", cookie);
        }

        using var answer = await http.SendAsync(request, cancellation);
        var seconds = TimeProvider.System.GetElapsedTime(began).TotalSeconds;
        if (answer.StatusCode != System.Net.HttpStatusCode.OK)
        {
            throw new InvalidOperationException($"{path} answered {(int)answer.StatusCode}, so nothing was measured.");
        }

        await Task.Delay(Idle, cancellation);
        return new Sample(seconds, Tool.MegabytesNow(server.Id));
    }
}
