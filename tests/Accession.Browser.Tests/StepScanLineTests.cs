using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>
/// The scan line of the step bench under a fast scanner, and when the server cannot be reached. How long an answer takes is
/// measured and told in the test's output, not asserted.
/// </summary>
public sealed class StepScanLineTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    private const int Sheets = 500;
    private const int BetweenScans = 150;

    // One gathering of as many duplicates as a row may have. Invented collector and place.
    private static readonly string List = $"""
        Collector,Coll. No.,Date coll.,State,County,Locality,Species,Sheets
        Tilda Marsh,7,2023-06-14,Oregon,Lake,"Dry Lakes, west shore",Sarcobatus vermiculatus (Hook.) Torr.,{Sheets}
        """;

    // From the stroke of Enter until the line that says the code is taken has been painted, and until the server's word
    // for that code has been: as somebody at the bench sees it. What is put into a frame's task is run behind its paint.
    private const string Watch = """
        () => {
          const struck = new Map();
          window.taken = [];
          window.told = [];
          const painted = done => requestAnimationFrame(() => {
            const channel = new MessageChannel();
            channel.port1.onmessage = () => done(performance.now());
            channel.port2.postMessage("");
          });
          const field = document.querySelector("#code");
          field.addEventListener("keydown", event => {
            if (event.key === "Enter") { struck.set(field.value, performance.now()); }
          }, { capture: true });
          new MutationObserver(changes => {
            for (const row of changes.flatMap(change => [...change.addedNodes])) {
              const at = struck.get(row.querySelector?.(".code")?.textContent);
              if (at === undefined) { continue; }
              const list = row.classList.contains("sent") ? window.taken : window.told;
              painted(now => list.push(now - at));
            }
          }).observe(document.querySelector("[data-scans]"), { childList: true });
        }
        """;

    [Fact]
    public async Task Five_hundred_codes_arrive_once_and_none_runs_into_the_next()
    {
        await using var curator = await browser.OpenAsync("Curator");
        var page = curator.Page;
        var codes = await NumberedAsync(page);
        await page.GotoAsync("/bench/mounted");
        await page.EvaluateAsync(Watch);
        foreach (var code in codes)
        {
            await page.ScanAsync(code);
            await page.WaitForTimeoutAsync(BetweenScans);
        }

        await Expect(page.Locator(".scans .scan.sent")).ToHaveCountAsync(0, new() { Timeout = 300_000 });
        await Expect(page.Locator("[data-scan-queue]")).ToBeEmptyAsync();
        Assert.Equal(codes.Reverse().Take(10), await page.Locator(".scans .code").AllInnerTextsAsync());
        Assert.Equal(10, await page.Locator(".scans .scan.done").CountAsync());
        Assert.Equal(Sheets, (await WaitsAsync(page, "taken", "the line on the screen")).Length);
        // Those whose line had scrolled away before the server answered are not among these.
        await WaitsAsync(page, "told", "the server's word");

        // In the register each was marked once: a second scan of the first and of the last is refused.
        await ReloadedAsync(page);
        foreach (var code in new[] { codes[0], codes[Sheets - 1] })
        {
            await page.ScanAsync(code);
            await Expect(page.Locator(".scans .scan.stop .code").First).ToHaveTextAsync(code, new() { Timeout = 30_000 });
        }

        await page.GotoAsync("/bench/labelled");
        await TenWithoutNetworkAsync(page, codes[..10]);
        await WhatIsNoneAsync(page, codes[10]);
    }

    private static async Task<double[]> WaitsAsync(IPage page, string which, string what)
    {
        var waits = (await page.EvaluateAsync<double[]>($"() => window.{which}")).Order().ToArray();
        TestContext.Current.TestOutputHelper!.WriteLine(
            $"From Enter to {what}, {waits.Length} codes: median {At(waits, 0.5):0.0} ms, 95 of 100 under "
            + $"{At(waits, 0.95):0.0} ms, longest {At(waits, 1):0.0} ms.");
        return waits;
    }

    private static double At(double[] sorted, double share) =>
        sorted.Length == 0 ? double.NaN : sorted[(int)(share * (sorted.Length - 1))];

    private static async Task TenWithoutNetworkAsync(IPage page, string[] codes)
    {
        await ReloadedAsync(page);
        await page.Context.SetOfflineAsync(true);
        foreach (var code in codes)
        {
            await page.ScanAsync(code);
            await page.WaitForTimeoutAsync(BetweenScans);
        }

        await Expect(page.Locator("[data-scan-queue]")).ToContainTextAsync("10 scans are waiting");
        await page.Context.SetOfflineAsync(false);
        await Expect(page.Locator("[data-scan-queue]")).ToBeEmptyAsync(new() { Timeout = 90_000 });
        // It says nothing any more as soon as they are being sent again; each line says when it was answered.
        await Expect(page.Locator(".scans .scan.done")).ToHaveCountAsync(10, new() { Timeout = 90_000 });
        Assert.Equal(codes.Reverse(), await page.Locator(".scans .code").AllInnerTextsAsync());
    }

    // Another herbarium's barcode is loud and swallows nothing; the same code twice within two seconds counts once.
    private static async Task WhatIsNoneAsync(IPage page, string code)
    {
        await ReloadedAsync(page);
        await page.ScanAsync("OTHER-H0000001");
        await page.ScanAsync(code);
        await page.ScanAsync(code);
        await Expect(page.Locator(".scans .scan.stop .code").First).ToHaveTextAsync("OTHER-H0000001", new() { Timeout = 30_000 });
        await Expect(page.Locator(".scans .scan.done .code").First).ToHaveTextAsync(code, new() { Timeout = 30_000 });
        Assert.Equal(1, await page.Locator(".scans .code").GetByText(code, new() { Exact = true }).CountAsync());
        await Expect(page.Locator("#code")).ToBeFocusedAsync();
    }

    private static async Task ReloadedAsync(IPage page)
    {
        await page.ReloadAsync();
        await Expect(page.Locator("#code")).ToBeFocusedAsync();
    }

    // Pasted at the numbering bench: each line is a scan.
    private static async Task<string[]> NumberedAsync(IPage page)
    {
        await page.BeginSeriesAsync();
        await page.GotoAsync("/series");
        await page.FillAsync("#rollName", "Roll of the step bench");
        await page.FillAsync("#first", "DEMO-H0011001");
        await page.FillAsync("#last", $"DEMO-H{11000 + Sheets:0000000}");
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync(".said.done");
        await page.ReceiveAsync("Tilda Marsh", List);
        await page.TakeInAsync(Sheets);
        await page.DoAsync(page.HeadAct($"Number {Sheets} sheets"));
        await Expect(page.Locator("#code")).ToBeFocusedAsync();
        var codes = Enumerable.Range(11001, Sheets).Select(number => $"DEMO-H{number:0000000}").ToArray();
        await page.EvaluateAsync(
            """
            text => {
              const data = new DataTransfer();
              data.setData("text", text);
              document.querySelector("#code").dispatchEvent(
                new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
            }
            """,
            string.Join('\n', codes));
        await Expect(page.Locator(".answer")).ToContainTextAsync(
            "Every sheet of this accession has its number", new() { Timeout = 300_000 });
        return codes;
    }
}
