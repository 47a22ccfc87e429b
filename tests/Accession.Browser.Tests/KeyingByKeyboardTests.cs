using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>
/// A block is pasted and a pile is keyed, and hands never leave the keys. People and places are invented.
/// </summary>
public sealed class KeyingByKeyboardTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    [Fact]
    public async Task A_pile_is_keyed_with_the_same_as_last_by_one_key()
    {
        await using var watched = await browser.OpenAsync("Technician", 1280);
        var page = watched.Page;
        await page.GotoAsync("/batches/key");
        await page.FocusAsync("#SourceName");
        await page.Keyboard.TypeAsync("Found in the cabinet of the annex");
        await page.Keyboard.PressAsync("Enter");
        await page.HearAsync("is begun");
        List<string> wrong = [.. await watched.LookHereEverywhereAsync("keying, empty")];

        await TypeAsync(page, "Quirin Halloway", "17", "1931-05-03", "Poa secunda J.Presl");
        await page.Keyboard.PressAsync("Enter");
        await page.HearAsync("Line 1 is kept: Quirin Halloway 17");

        // A mark alone in a field, and then all that is empty.
        await TypeAsync(page, "\"", "18");
        await Expect(page.Locator("#t0")).ToHaveValueAsync("Quirin Halloway");
        await page.Keyboard.PressAsync("F4");
        await Expect(page.Locator("#t1")).ToHaveValueAsync("18");
        await Expect(page.Locator("#t3")).ToHaveValueAsync("Poa secunda J.Presl");
        await page.Keyboard.PressAsync("Enter");
        await page.HearAsync("Line 2 is kept: Quirin Halloway 18");
        wrong.AddRange(await watched.LookHereEverywhereAsync("keying"));

        // Left half typed, it is offered again.
        await TypeAsync(page, "Quirin Halloway", "19");
        await page.Keyboard.PressAsync("Tab");
        var keying = page.Url;
        await page.GotoAsync("/batches/key");
        await page.GotoAsync(keying);
        await page.SeeAsync(".kept");
        await page.Locator(".kept button").First.PressAsync("Enter");
        await Expect(page.Locator("#t1")).ToHaveValueAsync("19");

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task A_block_of_a_spreadsheet_is_pasted_looked_at_and_received()
    {
        await using var watched = await browser.OpenAsync("Curator", 1280);
        var page = watched.Page;
        await page.GotoAsync("/batches/paste");
        await page.FocusAsync("#SourceName");
        await page.Keyboard.TypeAsync("Transects of the annex");
        await page.TabToAsync(page.Locator("#Text"));
        var block = "Collector\tNo.\tDate\tState\tCounty\tPlace\tHabitat\tLat\tLong\tElev (m)\tSpecies\tDet.\n"
            + string.Concat(Enumerable.Range(1, 200).Select(i => $"Imke Vandersloot\t{i}\t1958-06-{(i % 28) + 1:00}\t"
                + $"Oregon\tLake\tDry wash {i}\tsilt\t42.5\t-120.{i}\t1300\tBromus tectorum L.\tI. Vandersloot\n"));
        await page.Keyboard.InsertTextAsync(block);
        await page.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Look at them" }));
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync("#seen");
        await Expect(page.Locator("#seen h2")).ToContainTextAsync("200 rows of 12 columns");
        var wrong = await watched.LookHereEverywhereAsync("pasted");

        // Past the meanings of the columns to the act.
        var receive = page.GetByRole(AriaRole.Button, new() { Name = "Receive these rows" });
        await page.FocusAsync("#c11");
        await page.TabToAsync(receive);
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync(".tasks a[href$='/columns']");
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.Empty(watched.Complaints);
    }

    /// <summary>Types into one field after the other, from the one that has the focus.</summary>
    private static async Task TypeAsync(IPage page, params string[] fields)
    {
        await Expect(page.Locator("#t0")).ToBeFocusedAsync();
        foreach (var (i, text) in fields.Index())
        {
            if (i > 0)
            {
                await page.Keyboard.PressAsync("Tab");
            }

            await page.Keyboard.TypeAsync(text);
        }
    }
}
