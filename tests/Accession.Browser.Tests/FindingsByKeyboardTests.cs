using System.Globalization;
using System.Text.RegularExpressions;
using Accession.Tests;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>
/// Both invented donations, on top of the holdings they were made for, settled to the last finding with one key each.
/// What the findings should be is checked elsewhere; here hands never leave the keys.
/// </summary>
public sealed partial class FindingsByKeyboardTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    [Fact]
    public async Task Every_finding_of_both_donations()
    {
        List<string> wrong = [];
        await using var curator = await browser.OpenAsync("Curator", 1280);
        var page = curator.Page;
        await page.BeginSeriesAsync();
        await page.GotoAsync("/");
        await page.Keyboard.PressAsync("?");
        await page.Locator("[data-single-keys]").CheckAsync();
        await page.Keyboard.PressAsync("Escape");

        // Equal holdings wait for somebody to settle them; all others go in.
        await page.ReceiveFileAsync("Holdings", ReferenceData.Require("samples", "batches", "holdings.csv"));
        var settled = await SettledAsync(page);
        await page.TakeInAsync(settled);

        foreach (var (file, least) in new[] { ("donation-1.csv", 350), ("donation-2.xlsx", 230) })
        {
            await page.ReceiveFileAsync(file, ReferenceData.Require("samples", "batches", file));
            if (await page.HeadAct("Settle day and month").CountAsync() > 0)
            {
                await page.DoAsync(page.HeadAct("Settle day and month"));
                await page.TabToAsync(page.Locator("input[name=order]:checked"));
                await page.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Settle for the whole list" }));
                await page.Keyboard.PressAsync("Enter");
                await page.SeeAsync(".tasks a[href$='/columns']");
            }

            var batch = page.Url;
            await page.GotoAsync($"{batch}/findings");
            wrong.AddRange(await curator.LookHereEverywhereAsync($"findings of {file}"));
            Assert.InRange(await SettleAllAsync(page), least, 600);
            await page.GotoAsync($"{batch}/findings?show=asked");
            wrong.AddRange(await curator.LookHereEverywhereAsync($"questions about {file}"));
            await AskAsync(page);
            wrong.AddRange(await curator.LookHereEverywhereAsync($"asked about {file}"));
            await page.GotoAsync(batch);
            await Expect(page.Locator(".tasks")).ToContainTextAsync("asked");
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    /// <summary>Settles finding after finding by what the page calls it; how many there were.</summary>
    private static async Task<int> SettleAllAsync(IPage page)
    {
        var heading = page.Locator("#finding");
        for (var done = 0; ; done++)
        {
            // What was said stands above it, and may be read while the rest of the page is still on its way.
            await page.SeeAsync("#finding, .empty");
            if (await heading.CountAsync() == 0)
            {
                await Expect(page.Locator(".empty")).ToContainTextAsync("Nothing is open");
                return done;
            }

            var found = await heading.InnerTextAsync();
            var line = Line().Match(found).Groups[1].Value;
            if (found.StartsWith("Number clash", StringComparison.Ordinal))
            {
                await page.StrikeAsync("a");
                await page.SeeAsync("#address");
                await page.StrikeAsync("l");
            }
            else
            {
                await page.StrikeAsync(
                    found.StartsWith("Possible", StringComparison.Ordinal) ? "n" : done % 5 == 4 ? "x" : "k");
            }

            await page.HearAsync($"Line {line}:");
        }
    }

    /// <summary>Writes to the collector of the first number clash.</summary>
    private static async Task AskAsync(IPage page)
    {
        await page.StrikeAsync("a");
        await page.SeeAsync("#address");
        await page.StrikeAsync("w");
        await Expect(page.Locator("#address")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Control+A");
        await page.Keyboard.TypeAsync("collector@example.org");
        await page.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Send the question" }));
        await page.Keyboard.PressAsync("Enter");
        await page.HearAsync("Line ");
    }

    private static async Task<int> SettledAsync(IPage page) => int.Parse(
        Count().Match(await page.HeadAct("into the register").InnerTextAsync()).Value.Replace(",", "", StringComparison.Ordinal),
        CultureInfo.InvariantCulture);

    [GeneratedRegex("Line ([0-9]+)")]
    private static partial Regex Line();

    [GeneratedRegex("[0-9,]+")]
    private static partial Regex Count();
}
