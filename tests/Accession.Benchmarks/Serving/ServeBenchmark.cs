using System.Globalization;
using System.Text.RegularExpressions;
using Accession.Tests;

namespace Accession.Benchmarks.Serving;

/// <summary>
/// A sheet by its number, as JSON and as a page, to 64 callers at once who ask for one after another of all numbers. The
/// limit is a small file of the same server.
/// </summary>
internal sealed partial class ServeBenchmark : IBenchmark, IAsyncDisposable
{
    private const int Callers = 64;
    private const int Seconds = 6;

    private ServerProcess? _server;
    private Curator? _curator;

    public string Name => "serve";

    public string Measures => $"A sheet by its number, {Callers} callers; the time of a thousand answers";

    public async Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation)
    {
        Tool.Require("wrk");
        _server = await ServerProcess.ServeAsync(
            holdings.Folder, environment: holdings.Environs, program: holdings.Settings.Program);
        _curator = await Curator.ComeInAsync(holdings, _server.Address, cancellation);
        var numbers = Path.Combine(holdings.Folder, "numbers.lua");
        // Another prime than the number of pages: neighbours in time are no neighbours in the file.
        await File.WriteAllTextAsync(
            numbers,
            $$"""
            local k = 0
            local before = ""
            function init(args) before = args[1] end
            function request()
              k = (k + 7919) % {{holdings.Settings.Specimens}}
              return wrk.format("GET", before .. "BENCH-" .. (10000001 + k))
            end
            """,
            cancellation);
        return
        [
            new("a small file", c => AskAsync("/dist/icon.svg", [], [], c)),
            new("a sheet as JSON", c => AskAsync(
                "/", ["-s", numbers, "-H", $"Authorization: Bearer {_curator.Token}"], ["/api/v1/specimens/"], c)),
            new("a sheet as a page", async c => await AskAsync(
                "/", ["-s", numbers, "-H", $"Cookie: {await _curator.CookieAsync(c)}"], ["/specimen/"], c)),
        ];
    }

    public async ValueTask DisposeAsync()
    {
        _curator?.Dispose();
        if (_server is not null)
        {
            await _server.DisposeAsync();
        }
    }

    private async Task<Sample> AskAsync(
        string path, string[] more, string[] behind, CancellationToken cancellation)
    {
        var told = await Tool.ReadAsync(
            "wrk",
            [
                "-t1", $"-c{Callers}", $"-d{Seconds}s", .. more, new Uri(_server!.Address, path).ToString(),
                .. behind.Length > 0 ? (string[])["--", .. behind] : [],
            ],
            cancellation);
        if (told.Contains("Non-2xx", StringComparison.Ordinal))
        {
            throw new InvalidOperationException($"Not every answer was a sheet, so nothing was measured:\n{told}");
        }

        var aSecond = double.Parse(Rate().Match(told).Groups[1].Value, CultureInfo.InvariantCulture);
        return new Sample(1000 / aSecond, Tool.MegabytesNow(_server.Id));
    }

    [GeneratedRegex(@"Requests/sec:\s+([0-9.]+)")]
    private static partial Regex Rate();
}
