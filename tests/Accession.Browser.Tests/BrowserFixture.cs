using Accession.Tests;
using Microsoft.Playwright;

namespace Accession.Browser.Tests;

/// <summary>
/// The program with its demo as a process of its own, and one browser. The browser is Debian's Chromium, or the one that
/// ACCESSION_CHROMIUM names; without any, the tests say so and are skipped, except in continuous integration.
/// </summary>
public sealed class BrowserFixture : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("accession-test-").FullName;
    private readonly SemaphoreSlim _one = new(1);
    private readonly Dictionary<string, string> _signedIn = [];
    private ServerProcess? _server;
    private IPlaywright? _playwright;
    private IBrowser? _browser;
    private string? _whyMissing;

    public Uri Address => _server!.Address;

    public async ValueTask InitializeAsync()
    {
        var chromium = Environment.GetEnvironmentVariable("ACCESSION_CHROMIUM") is { Length: > 0 } named
            ? named
            : "/usr/bin/chromium";
        if (!File.Exists(chromium))
        {
            _whyMissing = $"Needs a Chromium in ACCESSION_CHROMIUM; there is none at {chromium}.";
            Assert.False(Environment.GetEnvironmentVariable("CI") == "true", _whyMissing);
            return;
        }

        _server = await ServerProcess.ServeAsync(_folder, ["--demo"]);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new() { ExecutablePath = chromium });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
        if (_server is not null)
        {
            await _server.DisposeAsync();
        }

        _one.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>
    /// A watched page of somebody who came in by the printed link of a role: Curator, Weed officer; of a stranger where
    /// no role is named.
    /// </summary>
    public async Task<WatchedPage> OpenAsync(string? role, int width = 1280, ColorScheme paper = ColorScheme.Light)
    {
        Assert.SkipWhen(_whyMissing is not null, _whyMissing ?? "");
        var context = await _browser!.NewContextAsync(new()
        {
            BaseURL = Address.ToString(),
            StorageState = role is null ? null : await SignInOnceAsync(role),
            ViewportSize = new() { Width = width, Height = 900 },
            ColorScheme = paper,
            ReducedMotion = ReducedMotion.Reduce,
        });
        return new WatchedPage(context, await context.NewPageAsync(), Address);
    }

    // A link opens once, so the first page of each role uses it, and the others have its cookies.
    private async Task<string> SignInOnceAsync(string role)
    {
        await _one.WaitAsync();
        try
        {
            if (!_signedIn.TryGetValue(role, out var state))
            {
                await using var context = await _browser!.NewContextAsync(new() { BaseURL = Address.ToString() });
                var page = await context.NewPageAsync();
                await page.GotoAsync(await _server!.LinkAsync(role));
                await page.GetByRole(AriaRole.Button, new() { Name = "Come in" }).ClickAsync();
                await page.Locator(".who").WaitForAsync();
                _signedIn[role] = state = await context.StorageStateAsync();
            }

            return state;
        }
        finally
        {
            _one.Release();
        }
    }
}
