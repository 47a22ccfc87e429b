using System.Diagnostics;
using Accession.Tests;
using Microsoft.Playwright;
using ZXing;
using ZXing.Common;
using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>A badge, the card of commands and labels, by keys and scanner alone; and what a printer is given.</summary>
public sealed class BenchByKeyboardTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    [Fact]
    public async Task Hands_and_doing_change_by_scans_also_while_the_network_is_gone()
    {
        await using var curator = await browser.OpenAsync("Curator");
        await using var technician = await browser.OpenAsync("Technician");
        var page = technician.Page;
        var badge = await BadgeAsync(curator.Page);
        await page.GotoAsync("/step/mounted");
        var codes = await page.Locator("th.code a").AllInnerTextsAsync();
        Assert.True(codes.Count >= 2, "The demo has too few sheets to mount.");
        await page.GotoAsync("/bench/labelled");
        var signedIn = await page.Locator(".at-bench strong").InnerTextAsync();

        await page.Context.SetOfflineAsync(true);
        await page.ScanAsync("mounted");
        await page.ScanAsync(codes[0]);
        await page.ScanAsync(badge);
        await page.ScanAsync(codes[1]);
        // The code of a badge is shown to nobody, not even while it waits.
        await Expect(page.Locator(".scans .code").Nth(1)).ToHaveTextAsync("Badge");
        await page.Context.SetOfflineAsync(false);

        await Expect(page.Locator("[data-scan-queue]")).ToBeEmptyAsync(new() { Timeout = 90_000 });
        await Expect(page.Locator(".at-bench strong")).Not.ToHaveTextAsync(signedIn);
        await Expect(page.Locator("h1")).ToHaveTextAsync("Mount sheets");
        // The newest first; below them may stand what somebody did here before.
        Assert.Equal([codes[1], "Badge", codes[0], "mounted"], (await page.Locator(".scans .code").AllInnerTextsAsync()).Take(4));
        await Expect(page.Locator(".scans .scan.done:nth-child(-n+4)")).ToHaveCountAsync(4, new() { Timeout = 30_000 });
        await Expect(page.Locator("#code")).ToBeFocusedAsync();

        // Who is at the bench is still there after the page was loaded again, and takes back only what is theirs.
        // Loaded again, the page does what its address says, not what was scanned last.
        await page.GotoAsync("/bench/mounted");
        await page.ScanAsync("undo");
        await Expect(page.Locator(".scans .scan.waiting .code").First)
            .ToHaveTextAsync(codes[1], new() { Timeout = 30_000 });
        await page.ScanAsync("hand back");
        await Expect(page.Locator(".at-bench strong")).ToHaveTextAsync(signedIn);
        await page.ScanAsync("undo");
        await Expect(page.Locator(".scans .scan.waiting .code").First)
            .ToHaveTextAsync(codes[0], new() { Timeout = 30_000 });
    }

    [Fact]
    public async Task Scans_after_signing_out_are_kept_and_sent_once_when_their_maker_is_back()
    {
        await using var technician = await browser.OpenAsync("Technician");
        var page = technician.Page;
        await page.GotoAsync("/step/mounted");
        var codes = (await page.Locator("th.code a").AllInnerTextsAsync()).TakeLast(2).ToArray();
        await page.GotoAsync("/bench/mounted");
        await Expect(page.Locator("#code")).ToBeFocusedAsync();
        // What signing out in another window leaves of a session.
        var session = (await page.Context.CookiesAsync()).Single(cookie => cookie.Name == "accession");
        await page.Context.ClearCookiesAsync(new() { Name = session.Name });

        await page.ScanAsync(codes[0]);
        await page.ScanAsync(codes[1]);

        await Expect(page.Locator("[data-scan-queue]")).ToContainTextAsync(
            "You are signed out. 2 scans are kept on this computer", new() { Timeout = 30_000 });
        await page.Locator("[data-scan-queue] a").ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Sign in", new() { Timeout = 30_000 });
        await page.Context.AddCookiesAsync(
        [
            new() { Name = session.Name, Value = session.Value, Domain = session.Domain, Path = session.Path, HttpOnly = true },
        ]);
        await page.GotoAsync("/bench/mounted");

        await Expect(page.Locator("[data-scan-queue]")).ToBeEmptyAsync(new() { Timeout = 60_000 });
        await Expect(page.Locator(".scans .scan.sent")).ToHaveCountAsync(0, new() { Timeout = 60_000 });
        Assert.Equal([codes[1], codes[0]], (await page.Locator(".scans .scan.done .code").AllInnerTextsAsync()).Take(2));
        foreach (var code in codes.Reverse())
        {
            await page.ScanAsync("undo");
            await Expect(page.Locator(".scans .scan.waiting .code").First).ToHaveTextAsync(code, new() { Timeout = 30_000 });
            // The same code again within two seconds would count once, as from a scanner that reads a card twice.
            await page.WaitForTimeoutAsync(2_100);
        }
    }

    [Fact]
    public async Task A_printer_gets_whole_labels_whose_text_and_barcodes_can_be_read()
    {
        await using var curator = await browser.OpenAsync("Curator");
        var page = curator.Page;
        await page.GotoAsync("/specimen/DEMO-H0005001");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Enter");
        await page.TabToAsync(page.Locator("a.act").Filter(new() { HasText = "Print its label" }));
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync("text=1 label on 1 page of A4");
        await page.DoAsync(page.Locator("button.act").Filter(new() { HasText = "Show 1 label" }));
        await page.SeeAsync(".print-label");
        var name = await page.Locator(".print-label .label-name").InnerTextAsync();
        var pdf = Path.Combine(Path.GetTempPath(), $"accession-{Guid.NewGuid():N}.pdf");
        await page.PdfAsync(new() { Path = pdf, PreferCSSPageSize = true });
        try
        {
            var text = await RunAsync("pdftotext", ["-layout", pdf, "-"]);
            Assert.Contains("DEMO-H0005001", text, StringComparison.Ordinal);
            Assert.Contains(name.Split(' ')[0], text, StringComparison.Ordinal);
            Assert.DoesNotContain("Sign out", text, StringComparison.Ordinal);
            Assert.DoesNotContain("Print", text, StringComparison.Ordinal);
            Assert.Contains("Pages:           1", await RunAsync("pdfinfo", [pdf]), StringComparison.Ordinal);
            Assert.Equal("DEMO-H0005001", await ScannedAsync(pdf));
        }
        finally
        {
            File.Delete(pdf);
        }
    }

    // The card is read off the screen as a scanner would: from what is drawn.
    private static async Task<string> BadgeAsync(IPage page)
    {
        await page.GotoAsync("/account/badge");
        await page.DoAsync(page.Locator("main button.act").First);
        await page.SeeAsync(".badge-card");
        var pdf = Path.Combine(Path.GetTempPath(), $"accession-{Guid.NewGuid():N}.pdf");
        await page.PdfAsync(new() { Path = pdf, PreferCSSPageSize = true });
        try
        {
            return await ScannedAsync(pdf);
        }
        finally
        {
            File.Delete(pdf);
        }
    }

    // At 300 dots an inch, as a common printer prints it.
    private static async Task<string> ScannedAsync(string pdf)
    {
        var root = Path.ChangeExtension(pdf, null);
        await RunAsync("pdftoppm", ["-gray", "-r", "300", "-f", "1", "-l", "1", "-singlefile", pdf, root]);
        try
        {
            var image = await File.ReadAllBytesAsync(root + ".pgm");
            var (width, height, from) = HeaderOf(image);
            var reader = new BarcodeReaderGeneric
            {
                Options = new DecodingOptions { PossibleFormats = [BarcodeFormat.CODE_128], TryHarder = true },
            };
            var found = reader.Decode(new RGBLuminanceSource(
                image[from..], width, height, RGBLuminanceSource.BitmapFormat.Gray8));
            Assert.True(found is not null, "No barcode can be read from what was printed.");
            return found.Text;
        }
        finally
        {
            File.Delete(root + ".pgm");
        }
    }

    // Netpbm's graymap: "P5", width, height, 255, each behind white space, then the bytes.
    private static (int Width, int Height, int From) HeaderOf(byte[] image)
    {
        List<int> numbers = [];
        var at = 2;
        while (numbers.Count < 3)
        {
            while (!char.IsAsciiDigit((char)image[at]))
            {
                at++;
            }

            var number = 0;
            while (char.IsAsciiDigit((char)image[at]))
            {
                number = (number * 10) + (image[at++] - '0');
            }

            numbers.Add(number);
        }

        return (numbers[0], numbers[1], at + 1);
    }

    private static async Task<string> RunAsync(string program, IReadOnlyList<string> arguments)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardOutput = true };
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        Process? process = null;
        try
        {
            process = Process.Start(start);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.False(Environment.GetEnvironmentVariable("CI") == "true", $"{program} is not on this machine.");
            Assert.Skip($"Needs {program} (poppler-utils) to read what was printed.");
        }

        using (process)
        {
            var said = await process!.StandardOutput.ReadToEndAsync();
            await process.WaitForExitAsync();
            Assert.Equal(0, process.ExitCode);
            return said;
        }
    }
}
