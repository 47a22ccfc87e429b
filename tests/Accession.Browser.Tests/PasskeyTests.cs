using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>
/// A passkey is made and signs in again, with the authenticator that Chromium imagines (Web Authentication, level 2).
/// </summary>
public sealed class PasskeyTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    [Fact]
    public async Task A_passkey_that_was_added_signs_in_until_it_is_removed()
    {
        await using var watched = await browser.OpenAsync("Technician");
        var page = watched.Page;
        await ImagineAuthenticatorAsync(page);
        // A passkey is bound to a name, not to an address of numbers.
        var home = new UriBuilder(browser.Address) { Host = "localhost" }.Uri;
        var cookies = await page.Context.CookiesAsync();
        await page.Context.AddCookiesAsync(cookies.Select(cookie => new Cookie
        {
            Name = cookie.Name,
            Value = cookie.Value,
            Domain = "localhost",
            Path = "/",
        }));
        await page.GotoAsync(new Uri(home, "/account/ways-in").ToString());
        await page.FocusAsync("#name");
        await page.Keyboard.TypeAsync("Bench computer");
        await page.Keyboard.PressAsync("Enter");
        await page.HearAsync("\"Bench computer\" signs you in from now on.");

        await page.Context.ClearCookiesAsync();
        await page.GotoAsync(new Uri(home, "/sign-in").ToString());
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in with a passkey" }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".who")).ToContainTextAsync("Tobias Fennel");

        await page.GotoAsync(new Uri(home, "/account/ways-in").ToString());
        await page.GetByRole(AriaRole.Button, new() { Name = "Remove Bench computer" }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await page.HearAsync("no longer signs you in");
        await page.Context.ClearCookiesAsync();
        await page.GotoAsync(new Uri(home, "/sign-in").ToString());
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in with a passkey" }).ClickAsync();
        await Expect(page.Locator(".problems[role=alert]").First).ToBeVisibleAsync();
        await Expect(page.Locator(".who")).ToHaveCountAsync(0);
    }

    private static async Task ImagineAuthenticatorAsync(IPage page)
    {
        var devtools = await page.Context.NewCDPSessionAsync(page);
        await devtools.SendAsync("WebAuthn.enable");
        await devtools.SendAsync("WebAuthn.addVirtualAuthenticator", new()
        {
            ["options"] = new Dictionary<string, object>
            {
                ["protocol"] = "ctap2",
                ["transport"] = "internal",
                ["hasResidentKey"] = true,
                ["hasUserVerification"] = true,
                ["isUserVerified"] = true,
                ["automaticPresenceSimulation"] = true,
            },
        });
    }
}
