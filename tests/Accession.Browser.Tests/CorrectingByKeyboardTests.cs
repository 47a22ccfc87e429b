using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>A curator corrects one record and then many, and takes it back, with keys alone, at desk and phone width.</summary>
public sealed class CorrectingByKeyboardTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    private const int AllFields = 25;

    [Theory]
    [InlineData(1280)]
    [InlineData(360)]
    public async Task One_record_and_many(int width)
    {
        List<string> wrong = [];
        await using var curator = await browser.OpenAsync("Curator", width);
        var page = curator.Page;
        await page.GotoAsync("/");
        await page.Keyboard.PressAsync("?");
        await page.Locator("[data-single-keys]").CheckAsync();
        await page.Keyboard.PressAsync("Escape");

        var sheet = $"/specimen/DEMO-H00050{(width == 360 ? "01" : "19")}";
        await page.GotoAsync(sheet);
        await page.StrikeAsync("c");
        await page.SeeAsync("#County");
        wrong.AddRange(await curator.LookHereEverywhereAsync("correct a record"));
        await page.Locator("#main").FocusAsync();
        await page.TabToAsync(page.Locator("#Elevation"), AllFields);
        await page.Keyboard.PressAsync("ControlOrMeta+A");
        await page.Keyboard.TypeAsync("4130");
        await page.TabToAsync(page.Locator("#Reason"));
        await page.Keyboard.TypeAsync("label read again");
        await page.Keyboard.PressAsync("Enter");

        // What is wrong is said above and at its field; Enter on the sentence leads there.
        await page.SeeAsync("#Elevation-problem");
        wrong.AddRange((await curator.LookHereEverywhereAsync("a field that is wrong"))
            .Where(what => !what.Contains("status of 422", StringComparison.Ordinal)));
        await page.TabToAsync(page.Locator(".problems a").First);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#Elevation")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("ControlOrMeta+A");
        await page.Keyboard.TypeAsync("4,130 ft");
        await page.TabToAsync(page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "See what will stand" }), AllFields);
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync("#will-stand");
        wrong.AddRange(await curator.LookHereEverywhereAsync("what will stand"));
        await page.Locator("#main").FocusAsync();
        await page.TabToAsync(page.Locator("#Reason"), AllFields);
        await page.Keyboard.PressAsync("Enter");
        await page.HearAsync("corrected");
        await Expect(page.Locator(".trail")).ToContainTextAsync("“1258.8 m”: label read again");

        await page.GotoAsync("/specimens?q=sylvester");
        await page.DoAsync(page.GetByText("Correct these"), AllFields * 4);
        await page.SeeAsync("#Field");
        await page.Locator("#main").FocusAsync();
        await page.TabToAsync(page.Locator("#Field"));
        await page.Keyboard.TypeAsync("State");
        await page.TabToAsync(page.Locator("#Find"));
        await page.Keyboard.TypeAsync("Oregon");
        await page.TabToAsync(page.Locator("#With"));
        await page.Keyboard.TypeAsync("OR");
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync("#preview table");
        wrong.AddRange(await curator.LookHereEverywhereAsync("a preview of many"));
        await page.Locator("#preview").FocusAsync();
        await page.TabToAsync(page.Locator("#Reason"), 250);
        await page.Keyboard.TypeAsync("as on the maps");
        await page.TabToAsync(page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "Correct the ticked records" }));
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync("h1:has-text('Correction')");
        wrong.AddRange(await curator.LookHereEverywhereAsync("a correction"));
        await page.Locator("#main").FocusAsync();
        await page.TabToAsync(page.Locator("#Reason"), 250);
        await page.Keyboard.TypeAsync("not our way");
        await page.Keyboard.PressAsync("Enter");
        await page.HearAsync("stands again");
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }
}
