using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>
/// The main job with keys alone: a list comes in, its open question is answered, its rows are taken in, its sheets get
/// their numbers, one of them is found again. Every state on the way is looked at by axe.
/// </summary>
public sealed class ThreadByKeyboardTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    // Invented people and places; the county and the plants are real. 12/05/24 can be read two ways, 25/05/24 cannot.
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Locality,Species,Sheets
        Marta Quill,{0}1,12/05/24,Oregon,Harney,"Alder Creek, above the ford",Artemisia tridentata Nutt.,2
        Marta Quill,{0}2,25/05/24,Oregon,Harney,Juniper Flat,Poa secunda J.Presl,1
        Marta Quill,{0}3,31 Feb 2024,Oregon,Harney,Juniper Flat,Bromus tectorum L.,1
        """;

    [Theory]
    [InlineData(1280)]
    [InlineData(360)]
    public async Task From_the_list_to_the_numbered_sheet(int width)
    {
        List<string> wrong = [];
        await using var curator = await browser.OpenAsync("Curator", width);
        var page = curator.Page;
        await page.BeginSeriesAsync();
        wrong.AddRange(await curator.LookHereEverywhereAsync("series"));
        await page.ReceiveAsync($"Marta Quill, {width}", List.Replace("{0}", $"{width}", StringComparison.Ordinal));
        wrong.AddRange(await curator.LookHereEverywhereAsync("batch with an open question"));
        await AnswerTheQuestionAsync(page);
        wrong.AddRange(await curator.LookHereEverywhereAsync("batch with settled rows"));
        var batch = page.Url;
        wrong.AddRange(await curator.LookAtAsync($"{batch}/columns"));
        wrong.AddRange(await curator.LookAtAsync($"{batch}/rows?show=open"));
        wrong.AddRange(await curator.LookAtAsync($"{batch}/take-in"));
        await page.GotoAsync(batch);
        await page.TakeInAsync(3);
        await page.DoAsync(page.HeadAct("Number 3 sheets"));
        await page.SeeAsync(".scan-input");

        await using var technician = await browser.OpenAsync("Technician", width);
        var number = await NumberTheSheetsAsync(technician, new Uri(page.Url).PathAndQuery, wrong);

        await page.GotoAsync("/specimens");
        wrong.AddRange(await curator.LookHereEverywhereAsync("register"));
        await page.Keyboard.PressAsync("/");
        await page.Keyboard.TypeAsync(number);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("h1")).ToHaveTextAsync(number);
        await Expect(page.Locator(".label .plant-name i").First).ToHaveTextAsync("Artemisia tridentata");
        wrong.AddRange(await curator.LookHereEverywhereAsync("specimen"));
        // Not what the page is mostly opened for: it stands behind printing, correcting and naming.
        await page.DoAsync(page.GetByRole(AriaRole.Link, new() { Name = "Protect the place" }), 20);
        await page.SeeAsync("#Reason");
        wrong.AddRange(await curator.LookHereEverywhereAsync("protection"));

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    private static async Task AnswerTheQuestionAsync(IPage page)
    {
        // The list proves day first, so that is chosen already: the question is answered with one act.
        await page.DoAsync(page.HeadAct("Settle day and month"));
        await page.TabToAsync(page.Locator("input[value=DayFirst]"));
        await page.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "Settle for the whole list" }));
        await page.Keyboard.PressAsync("Enter");
        await Hands.SeeAsync(page.HeadAct("Take 2 rows"));
    }

    // The first sheet by the series and scanned back, the others the same way; what is scanned wrong changes nothing.
    private static async Task<string> NumberTheSheetsAsync(WatchedPage technician, string bench, List<string> wrong)
    {
        var page = technician.Page;
        var verdict = page.Locator(".answer .verdict");
        await page.GotoAsync(bench);
        await Expect(page.Locator("#code")).ToBeFocusedAsync();
        wrong.AddRange(await technician.LookHereEverywhereAsync("bench"));
        List<string> numbers = [];
        for (var sheet = 0; sheet < 3; sheet++)
        {
            var label = await page.Locator(".in-hand .label-foot").InnerTextAsync();
            await page.ScanAsync("next");
            await Expect(verdict).ToContainTextAsync("put it on the sheet");
            // The label on the screen is still that of the sheet in the hand.
            await Expect(page.Locator(".in-hand .label-foot")).ToHaveTextAsync(label, new() { UseInnerText = true });
            var number = await page.Locator(".scan .code").First.InnerTextAsync();
            if (sheet == 0)
            {
                wrong.AddRange(await technician.LookHereEverywhereAsync("bench with a number to scan back"));
                await page.ScanAsync("NOT-OURS-1");
                await Expect(verdict).ToContainTextAsync("not done");
                var refusal = await technician.LookHereEverywhereAsync("bench with a refusal");
                wrong.AddRange(refusal.Where(complaint => !IsTheRefusal(complaint)));
            }

            await page.ScanAsync(number);
            await Expect(verdict).ToContainTextAsync("was read from the sheet");
            await Expect(page.Locator("#code")).ToBeFocusedAsync();
            numbers.Add(number);
        }

        Assert.Equal(3, numbers.Distinct().Count());
        await page.SeeAsync("text=Every sheet of this accession has its number");
        wrong.AddRange(await technician.LookHereEverywhereAsync("bench with nothing left"));
        return numbers[0];
    }

    // Chromium writes every answer of 4xx into its console; this one was asked for.
    private static bool IsTheRefusal(string complaint) =>
        complaint.Contains("the server responded with a status of 4", StringComparison.Ordinal);
}
