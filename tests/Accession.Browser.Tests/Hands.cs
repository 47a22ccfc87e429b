using System.Text;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>
/// What hands do at the pages: keys alone, and the scanner, which is a fast keyboard. Files are the exception.
/// </summary>
internal static class Hands
{
    private const int MostTabStops = 8;

    // The disk and the two cores may be busy; nothing here measures time.
    private static readonly LocatorAssertionsToBeVisibleOptions Patiently = new() { Timeout = 60_000 };

    /// <summary>Tabs to an act, past the ways of the head, and strikes Enter; never more than eight stops.</summary>
    public static async Task DoAsync(this IPage page, ILocator act, int atMost = MostTabStops - 1)
    {
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Enter");
        await page.TabToAsync(act, atMost);
        await page.Keyboard.PressAsync("Enter");
    }

    /// <summary>Tabs on to a field or an act.</summary>
    public static async Task TabToAsync(this IPage page, ILocator target, int atMost = MostTabStops)
    {
        for (var stops = 0; stops < atMost; stops++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await target.EvaluateAsync<bool>("element => element === document.activeElement"))
            {
                return;
            }
        }

        Assert.Fail($"{atMost} Tab stops do not reach {target} on {page.Url}.");
    }

    /// <summary>Strikes a single key of the page, once the page listens.</summary>
    public static async Task StrikeAsync(this IPage page, string key)
    {
        await Expect(page.Locator($"[data-key='{key}'][aria-keyshortcuts]").First).ToBeAttachedAsync(
            new() { Timeout = Patiently.Timeout });
        await page.Keyboard.PressAsync(key);
    }

    /// <summary>What the page says after an act.</summary>
    public static Task HearAsync(this IPage page, string text) => Expect(page.Locator("[data-said] .said"))
        .ToContainTextAsync(text, new() { Timeout = Patiently.Timeout });

    /// <summary>Types as a scanner does: 5 ms a character and Enter.</summary>
    public static async Task ScanAsync(this IPage page, string code)
    {
        await page.Keyboard.TypeAsync(code, new() { Delay = 5 });
        await page.Keyboard.PressAsync("Enter");
    }

    public static Task SeeAsync(this IPage page, string selector) =>
        Expect(page.Locator(selector).First).ToBeVisibleAsync(Patiently);

    public static Task SeeAsync(ILocator what) => Expect(what).ToBeVisibleAsync(Patiently);

    /// <summary>An act of the page's head by the verb it begins with.</summary>
    public static ILocator HeadAct(this IPage page, string verb) =>
        page.Locator(".page-head a.act").Filter(new() { HasText = verb });

    /// <summary>Begins the two series, unless another journey has done so.</summary>
    public static async Task BeginSeriesAsync(this IPage page)
    {
        foreach (var (name, use, pattern) in new[]
        {
            ("Sheets", "sheets", "DEMO-H0000000"), ("Accessions", "accessions", "YYYY.0000"),
        })
        {
            await page.GotoAsync("/series");
            if (await page.Locator("tbody th").Filter(new() { HasText = name }).CountAsync() > 0)
            {
                continue;
            }

            await page.FocusAsync("#seriesName");
            await page.Keyboard.TypeAsync(name);
            await page.Keyboard.PressAsync("Tab");
            await page.Keyboard.PressAsync(use == "sheets" ? "Space" : "ArrowDown");
            await page.TabToAsync(page.Locator("#pattern"));
            await page.Keyboard.TypeAsync(pattern);
            await page.Keyboard.PressAsync("Enter");
            await page.SeeAsync(".said.done");
        }
    }

    /// <summary>Receives a list, and stands on the page of its batch when it has been read.</summary>
    public static Task ReceiveAsync(this IPage page, string source, string list) => page.ReceiveAsync(
        source, files => files.SetInputFilesAsync(
            new FilePayload { Name = "list.csv", MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(list) }));

    /// <summary>Receives a list that lies in a file.</summary>
    public static Task ReceiveFileAsync(this IPage page, string source, string path) =>
        page.ReceiveAsync(source, files => files.SetInputFilesAsync(path));

    private static async Task ReceiveAsync(this IPage page, string source, Func<ILocator, Task> choose)
    {
        await page.GotoAsync("/batches");
        await page.DoAsync(page.HeadAct("Receive a list"));
        await Expect(page.Locator("#SourceName")).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync(source);
        await choose(page.Locator("#List"));
        await page.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Receive the list" }));
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync(".tasks a[href$='/columns']");
    }

    /// <summary>Takes every settled row in, and stands on the page of the batch when that is done.</summary>
    public static async Task TakeInAsync(this IPage page, int sheets)
    {
        await page.DoAsync(page.HeadAct("into the register"));
        await page.SeeAsync("#SheetsInPile");
        await page.TabToAsync(page.Locator("input[name=Terms]").First, 20);
        await page.Keyboard.PressAsync("Space");
        await page.TabToAsync(page.Locator("#SheetsInPile"));
        await page.Keyboard.TypeAsync($"{sheets}");
        await page.Keyboard.PressAsync("Enter");
        await SeeAsync(page.HeadAct($"Number {sheets:N0} sheets"));
    }
}
