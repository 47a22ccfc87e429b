using System.Collections.Concurrent;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Accession.Browser.Tests;

/// <summary>A page whose every complaint and every request is written down.</summary>
public sealed class WatchedPage : IAsyncDisposable
{
    private readonly IBrowserContext _context;
    private readonly ConcurrentQueue<string> _complaints = new();

    internal WatchedPage(IBrowserContext context, IPage page, Uri address)
    {
        _context = context;
        Page = page;
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
            {
                _complaints.Enqueue($"console: {message.Text}");
            }
        };
        page.PageError += (_, error) => _complaints.Enqueue($"script: {error}");
        page.Request += (_, request) =>
        {
            var asked = new Uri(request.Url);
            if (asked.Scheme != "data" && asked.Authority != address.Authority)
            {
                _complaints.Enqueue($"asks another host: {request.Url}");
            }
        };
    }

    public IPage Page { get; }

    /// <summary>What the console, the scripts and the network complained of so far.</summary>
    public IReadOnlyCollection<string> Complaints => _complaints;

    /// <summary>Opens an address and says everything that is wrong with what is shown there.</summary>
    public async Task<IReadOnlyList<string>> LookAtAsync(string path)
    {
        var answer = await Page.GotoAsync(path, new() { WaitUntil = WaitUntilState.Load });
        List<string> wrong = [];
        if (!answer!.Ok)
        {
            wrong.Add($"answered {answer.Status}");
        }

        wrong.AddRange(await LookHereAsync());
        return [.. wrong.Select(what => $"{path} {what}")];
    }

    /// <summary>Everything that is wrong with what is shown now.</summary>
    public async Task<IReadOnlyList<string>> LookHereAsync()
    {
        List<string> wrong = [];
        var wider = await Page.EvaluateAsync<int>(
            "() => document.documentElement.scrollWidth - document.documentElement.clientWidth");
        if (wider > 0)
        {
            wrong.Add($"is {wider} px wider than the window");
        }

        wrong.AddRange((await Page.RunAxe()).Violations.Select(Spoken));
        wrong.AddRange(Complaints);
        _complaints.Clear();
        return wrong;
    }

    /// <summary>
    /// At a desk, the same again on the narrowest telephone, on light and on dark paper; on a telephone, once as it is.
    /// </summary>
    public async Task<IReadOnlyList<string>> LookHereEverywhereAsync(string state)
    {
        var usual = Page.ViewportSize!;
        List<string> wrong = [];
        if (usual.Width < 1280)
        {
            return [.. (await LookHereAsync()).Select(what => $"{state} at {usual.Width} px: {what}")];
        }

        foreach (var (width, paper) in new[]
        {
            (1280, ColorScheme.Light), (1280, ColorScheme.Dark), (320, ColorScheme.Light), (320, ColorScheme.Dark),
        })
        {
            await Page.SetViewportSizeAsync(width, usual.Height);
            await Page.EmulateMediaAsync(new() { ColorScheme = paper });
            wrong.AddRange((await LookHereAsync()).Select(what => $"{state} at {width} px, {paper}: {what}"));
        }

        await Page.SetViewportSizeAsync(usual.Width, usual.Height);
        await Page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
        return wrong;
    }

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();

    private static string Spoken(AxeResultItem finding) =>
        $"axe {finding.Id} ({finding.Impact}): {finding.Help}: {string.Join(" | ", finding.Nodes.Select(n => n.Html))}";
}
