using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>
/// The scan line when the server cannot be reached: nothing is lost, nothing runs together, nothing counts twice.
/// </summary>
public sealed class ScanLineTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    private const int Sheets = 100;
    private const int BetweenScans = 150;

    // One gathering of a hundred duplicates. Invented collector and place.
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Locality,Species,Sheets
        Ines Farrow,7,2024-06-14,Oregon,Lake,"Dry Lakes, east shore",Sarcobatus vermiculatus (Hook.) Torr.,100
        """;

    [Fact]
    public async Task A_hundred_codes_scanned_without_a_network_all_arrive_once_and_in_order()
    {
        await using var curator = await browser.OpenAsync("Curator");
        var page = curator.Page;
        await page.BeginSeriesAsync();
        await RegisterRollAsync(page);
        await page.ReceiveAsync("Ines Farrow", List);
        await page.TakeInAsync(Sheets);
        await page.DoAsync(page.HeadAct($"Number {Sheets} sheets"));
        await Expect(page.Locator("#code")).ToBeFocusedAsync();

        await page.Context.SetOfflineAsync(true);
        var codes = Enumerable.Range(1001, Sheets).Select(number => $"DEMO-H{number:0000000}").ToList();
        foreach (var code in codes)
        {
            await page.ScanAsync(code);
            await page.WaitForTimeoutAsync(BetweenScans);
        }

        await Expect(page.Locator("[data-scan-queue]")).ToContainTextAsync($"{Sheets} scans are waiting");
        await page.Context.SetOfflineAsync(false);
        await Expect(page.Locator("[data-scan-queue]")).ToBeEmptyAsync(new() { Timeout = 90_000 });
        await page.SeeAsync("text=Every sheet of this accession has its number");
        Assert.Equal(
            codes.AsEnumerable().Reverse().Take(10), await page.Locator(".scans .code").AllInnerTextsAsync());
        Assert.Equal(10, await page.Locator(".scans .scan.done").CountAsync());

        await page.GotoAsync("/series");
        var roll = page.Locator("tr").Filter(new() { HasText = "Roll of a hundred" });
        // Used, void, unused.
        Assert.Equal(["100", "0", "0"], await roll.Locator(".num").AllInnerTextsAsync());
    }

    private static async Task RegisterRollAsync(IPage page)
    {
        await page.GotoAsync("/series");
        await page.FillAsync("#rollName", "Roll of a hundred");
        await page.FillAsync("#first", "DEMO-H0001001");
        await page.FillAsync("#last", "DEMO-H0001100");
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync(".said.done");
    }
}
