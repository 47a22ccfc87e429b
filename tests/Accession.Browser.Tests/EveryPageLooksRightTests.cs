using Microsoft.Playwright;

namespace Accession.Browser.Tests;

/// <summary>
/// Everybody looks at every page of theirs on a desk and on a telephone, on light and on dark paper: nothing that axe
/// finds, nothing in the console, nothing asked of another host, nothing to scroll sideways. A new page is a new line.
/// </summary>
public sealed class EveryPageLooksRightTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    private const string Staff = "Curator,Technician,Administrator";
    private const string Everybody = $"{Staff},Determiner,Collector,Weed officer";

    // Addresses that stand in no navigation; those that do are found by looking.
    private static readonly (string Address, string Roles)[] Further =
    [
        ("/account", Everybody),
        ("/account/ways-in", Everybody),
        ("/account/tokens", Everybody),
        ("/sign-out", Everybody),
        ("/account/badge", "Curator,Technician"),
        ("/bench-card", "Curator,Technician"),
        ("/step-plans", Staff),
        ("/labels", "Curator,Technician"),
        ("/labels?sheets=DEMO-H0005001", "Curator,Technician"),
        ("/collector/1", "Curator"),
        ("/specimen/DEMO-H0005001/name", "Curator,Determiner"),
        ("/specimen/DEMO-H0005001/correct", "Curator"),
        ("/specimens/correct?q=sylvester", "Curator"),
        ("/opinions", "Curator"),
        ("/bench/filed", "Curator,Technician"),
        ("/refile", "Curator,Technician"),
        ("/progress/1", Staff),
        ("/gathering/1/protection", "Curator"),
        ("/batches/paste", "Curator"),
        ("/batches/key", "Curator,Technician"),
        ("/batch/1", "Curator"),
        ("/batch/1/papers", "Curator"),
        ("/batch/1/permits", "Curator"),
        ("/batch/1/closing", "Curator"),
        ("/batch/1/private-link", "Curator"),
        ("/parcel/Q2026-0001", "Curator,Technician"),
        ("/parcel/Q2026-0001/receipt", "Curator,Technician"),
        ("/freezer-load/1", "Curator,Technician"),
        ("/freezer-load/2", "Curator,Technician"),
        ("/freezers", "Curator,Technician"),
        ("/part/1/waiver", "Curator"),
        ("/step/treated", Staff),
        ("/series", Staff),
        ("/numbers", Staff),
        ("/numbers/repeated", Staff),
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
    [InlineData("Determiner", 320, ColorScheme.Light)]
    [InlineData("Collector", 1280, ColorScheme.Light)]
    [InlineData("Collector", 320, ColorScheme.Dark)]
    [InlineData("Weed officer", 1280, ColorScheme.Dark)]
    [InlineData("Weed officer", 320, ColorScheme.Light)]
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

    /// <summary>Whoever has a private link, and whoever has still to come in.</summary>
    [Theory]
    [InlineData(1280, ColorScheme.Light)]
    [InlineData(1280, ColorScheme.Dark)]
    [InlineData(320, ColorScheme.Light)]
    [InlineData(320, ColorScheme.Dark)]
    public async Task For_somebody_without_an_account(int width, ColorScheme paper)
    {
        await using var curator = await browser.OpenAsync("Curator");
        var link = await LinkAsync(curator.Page);
        await using var stranger = await browser.OpenAsync(null, width, paper);

        List<string> wrong = [.. await stranger.LookAtAsync(link), .. await stranger.LookAtAsync("/sign-in")];

        await stranger.Page.GotoAsync(link);
        Assert.Equal(0, await stranger.Page.Locator("a[href^='/specimen'], a[href^='/batch']").CountAsync());
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    /// <summary>What is there only after something was done: a link that was just made, and a correction.</summary>
    [Theory]
    [InlineData(1280, ColorScheme.Light)]
    [InlineData(1280, ColorScheme.Dark)]
    [InlineData(320, ColorScheme.Light)]
    [InlineData(320, ColorScheme.Dark)]
    public async Task After_an_act_of_a_curator(int width, ColorScheme paper)
    {
        await using var curator = await browser.OpenAsync("Curator", width, paper);
        var link = await LinkAsync(curator.Page);
        List<string> wrong = [.. await curator.LookHereAsync(), .. await curator.LookAtAsync(link)];

        await curator.Page.GotoAsync("/specimen/DEMO-H0005001/correct");
        await curator.Page.FillAsync("#Habitat", $"Gravel, looked at on {width} px, {paper}");
        await curator.Page.FillAsync("#Reason", "label read again");
        await curator.Page.GetByRole(AriaRole.Button, new() { Name = "Correct the record" }).ClickAsync();
        await curator.Page.HearAsync("corrected");
        var correction = await curator.Page.Locator(".trail a[href^='/correction/']").First.GetAttributeAsync("href");
        wrong.AddRange(await curator.LookAtAsync(correction!));

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    // It is told once, on the page that makes it.
    private static async Task<string> LinkAsync(IPage page)
    {
        await page.GotoAsync("/batch/1/private-link");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make a private link" }).ClickAsync();
        return new Uri(await page.Locator("#private-link").InnerTextAsync()).AbsolutePath;
    }

    private static async Task<IReadOnlyList<string>> AddressesAsync(WatchedPage watched, string role)
    {
        await watched.Page.GotoAsync("/");
        var navigation = await watched.Page.Locator("nav a")
            .EvaluateAllAsync<string[]>("links => links.map(link => link.getAttribute('href'))");
        Assert.NotEmpty(navigation);
        // Not everybody sees the same sheets; whoever sees one sees its page.
        await watched.Page.GotoAsync("/specimens");
        var sheet = await watched.Page.Locator("main tbody th a").First.GetAttributeAsync("href");
        return [.. navigation.Append(sheet!).Concat(Further.Where(page => page.Roles.Contains(role)).Select(page => page.Address)).Distinct()];
    }
}
