using Microsoft.Playwright;

namespace Accession.Browser.Tests;

/// <summary>
/// Everybody looks at every page of theirs on a desk and on a telephone, on light and on dark paper: nothing that axe
/// finds, nothing in the console, nothing asked of another host, nothing to scroll sideways. A new page is a new line.
/// </summary>
public sealed class EveryPageLooksRightTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    private const string Everybody = "Curator,Technician,Administrator";

    // Addresses that stand in no navigation; those that do are found by looking.
    private static readonly (string Address, string Roles)[] Further =
    [
        ("/account", Everybody),
        ("/account/tokens", Everybody),
        ("/sign-out", Everybody),
        ("/progress/1", Everybody),
        ("/gathering/1/protection", "Curator"),
        ("/batch/1", "Curator"),
        ("/batch/1/papers", "Curator"),
        ("/batch/1/permits", "Curator"),
        ("/batch/1/closing", "Curator"),
        ("/series", Everybody),
        ("/numbers", Everybody),
        ("/numbers/repeated", Everybody),
    ];

    [Theory]
    [InlineData("Curator", 1280, ColorScheme.Light)]
    [InlineData("Curator", 1280, ColorScheme.Dark)]
    [InlineData("Curator", 320, ColorScheme.Light)]
    [InlineData("Curator", 320, ColorScheme.Dark)]
    [InlineData("Technician", 1280, ColorScheme.Light)]
    [InlineData("Technician", 320, ColorScheme.Dark)]
    [InlineData("Administrator", 1280, ColorScheme.Light)]
    [InlineData("Administrator", 320, ColorScheme.Dark)]
    public async Task For(string role, int width, ColorScheme paper)
    {
        await using var watched = await browser.OpenAsync(role, width, paper);
        List<string> wrong = [];
        foreach (var address in await AddressesAsync(watched, role))
        {
            wrong.AddRange(await watched.LookAtAsync(address));
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    private static async Task<IReadOnlyList<string>> AddressesAsync(WatchedPage watched, string role)
    {
        await watched.Page.GotoAsync("/");
        var navigation = await watched.Page.Locator("nav a")
            .EvaluateAllAsync<string[]>("links => links.map(link => link.getAttribute('href'))");
        Assert.NotEmpty(navigation);
        return [.. navigation.Concat(Further.Where(page => page.Roles.Contains(role)).Select(page => page.Address)).Distinct()];
    }
}
