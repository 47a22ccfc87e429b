using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Accession.Browser.Tests;

/// <summary>
/// A day of each of those who come back every day, with keys alone and a scanner, at a desk and on a telephone. What
/// they come upon on the way is looked at by axe. The longest day of a curator is in <see cref="ThreadByKeyboardTests"/>.
/// </summary>
public sealed class DaysByKeyboardTests(BrowserFixture browser) : IClassFixture<BrowserFixture>
{
    // Of the gift in the demo: let in under a house rule, numbered, and not mounted.
    private static string Unmounted(int width, int k) => $"DEMO-H00050{(width < 1280 ? 19 : 17) + k}";

    [Theory]
    [InlineData(1280)]
    [InlineData(360)]
    public async Task A_technician_tags_what_came_freezes_it_and_mounts_what_was_let_in(int width)
    {
        List<string> wrong = [];
        await using var technician = await browser.OpenAsync("Technician", width);
        var page = technician.Page;

        var tag = await TagAsync(page, $"Fern Alder, {width}");
        wrong.AddRange(await technician.LookHereEverywhereAsync("parcel"));
        await page.StrikeAsync("p");
        await Expect(page.Locator("h1")).ToHaveTextAsync($"Receipt of parcel {tag}");
        wrong.AddRange(await technician.LookHereEverywhereAsync("receipt"));

        await ListLoadAsync(page);
        wrong.AddRange(await technician.LookHereEverywhereAsync("load without a line"));
        await page.FocusAsync("#code");
        await page.ScanAsync("Q1999-0001");
        await page.SeeAsync(".problems[role=alert]");
        wrong.AddRange((await technician.LookHereEverywhereAsync("load with a refusal")).Where(IsNoRefusal));
        await page.FocusAsync("#code");
        await page.Keyboard.PressAsync("Control+A");
        await page.ScanAsync(tag);
        await page.SeeAsync($"table a[href='/parcel/{tag}']");
        await page.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "The lid is closed" }), 20);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".said strong").First).ToContainTextAsync("Running");
        wrong.AddRange(await technician.LookHereEverywhereAsync("running load"));
        await TakeOutAsync(page, "The plug was out.");
        wrong.AddRange(await technician.LookHereEverywhereAsync("failed load"));

        await MountAsync(technician, width, wrong);
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Theory]
    [InlineData(1280)]
    [InlineData(360)]
    public async Task A_curator_begins_with_the_work_that_waits_and_decides_on_a_name(int width)
    {
        List<string> wrong = [];
        await using var curator = await browser.OpenAsync("Curator", width);
        var page = curator.Page;

        await page.GotoAsync("/");
        await page.DoAsync(page.GetByRole(AriaRole.Link, new() { Name = "Decide on names" }));
        await page.SeeAsync("h1:text('Names to decide on')");
        wrong.AddRange(await curator.LookHereEverywhereAsync("opinions"));
        var waiting = page.Locator("tbody tr").Filter(
            new() { Has = page.GetByRole(AriaRole.Button, new() { Name = "Let it count" }) }).First;
        var number = await waiting.Locator("th a").InnerTextAsync();
        var name = await waiting.Locator("[data-label=opinion] .plant-name i").First.InnerTextAsync();
        await page.DoAsync(page.GetByRole(AriaRole.Button, new() { Name = "Let it count" }).First);
        await page.HearAsync(number);

        await page.Keyboard.PressAsync("/");
        await page.Keyboard.TypeAsync(number);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("h1")).ToHaveTextAsync(number);
        await Expect(page.Locator(".label .plant-name i").First).ToHaveTextAsync(name);
        wrong.AddRange(await curator.LookHereEverywhereAsync("a sheet that lies under another name"));

        await page.GotoAsync("/refile");
        var row = page.Locator("tbody tr").Filter(new() { HasText = number });
        await Expect(row).ToHaveCountAsync(1);
        await page.TabToAsync(row.GetByRole(AriaRole.Button), 60);
        await page.Keyboard.PressAsync("Enter");
        await page.HearAsync(number);
        await Expect(row).ToHaveCountAsync(0);
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Theory]
    [InlineData(1280)]
    [InlineData(360)]
    public async Task A_collector_sees_where_a_number_is_and_nothing_of_others(int width)
    {
        List<string> wrong = [];
        await using var collector = await browser.OpenAsync("Collector", width);
        var page = collector.Page;

        await page.GotoAsync("/");
        await page.SeeAsync("h1:text('What I collected')");
        wrong.AddRange(await collector.LookHereEverywhereAsync("mine"));
        await page.FocusAsync("#q");
        await page.Keyboard.TypeAsync("SQ 64");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("tbody tr")).ToHaveCountAsync(1);
        await page.TabToAsync(page.Locator("tbody td a.code").First, 20);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".label")).ToContainTextAsync("SQ 64");
        wrong.AddRange(await collector.LookHereEverywhereAsync("a sheet of mine"));

        wrong.AddRange(await AlikeAsync(collector, "/specimen/LRA-0040", "/specimen/LRA-9999"));
        wrong.AddRange(await AlikeAsync(collector, "/specimen/DEMO-H0000001", "/specimen/DEMO-H0999999"));
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Theory]
    [InlineData(1280)]
    [InlineData(360)]
    public async Task A_weed_officer_looks_through_the_county_and_finds_a_weed(int width)
    {
        List<string> wrong = [];
        await using var officer = await browser.OpenAsync("Weed officer", width);
        var page = officer.Page;

        await page.GotoAsync("/");
        await page.SeeAsync("h1:text('Register')");
        wrong.AddRange(await officer.LookHereEverywhereAsync("register of a county"));
        var counties = await page.Locator("tbody tr").EvaluateAllAsync<string[]>(
            "rows => [...new Set(rows.map(row => row.querySelectorAll('td')[3].textContent.trim()))]");
        Assert.Equal(["Harney"], counties);

        await page.Keyboard.PressAsync("/");
        await page.Keyboard.TypeAsync("Artemisia");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("tbody .plant-name i").First).ToContainTextAsync("Artemisia");
        wrong.AddRange(await officer.LookHereEverywhereAsync("what was found"));
        var number = await page.Locator("tbody th a").First.InnerTextAsync();
        await page.TabToAsync(page.Locator("tbody th a").First, 20);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("h1")).ToHaveTextAsync(number);
        wrong.AddRange(await officer.LookHereEverywhereAsync("a sheet of the county"));

        // The first sheet of the survey grew in another county.
        wrong.AddRange(await AlikeAsync(officer, "/specimen/DEMO-H0000001", "/specimen/DEMO-H0999999"));
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    private static async Task<string> TagAsync(IPage page, string from)
    {
        await page.GotoAsync("/parcels");
        await page.DoAsync(page.HeadAct("Tag a parcel"));
        await page.TabToAsync(page.Locator("#FromWhom"));
        await page.Keyboard.TypeAsync(from);
        await page.TabToAsync(page.Locator("#Standing"), 12);
        await page.Keyboard.TypeAsync("Quarantine shelf by the door");
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync("h1:text('Parcel Q')");
        return await page.Locator("h1 .code").InnerTextAsync();
    }

    private static async Task ListLoadAsync(IPage page)
    {
        await page.GotoAsync("/freezer-loads");
        await page.DoAsync(page.HeadAct("Begin a load"));
        await page.TabToAsync(page.Locator("#Freezer"));
        await page.Keyboard.TypeAsync("Upright");   // the chest freezer of the demo is in use
        await page.TabToAsync(page.Locator("input[name=Regime]").First);
        await page.Keyboard.PressAsync("Space");
        await page.Keyboard.PressAsync("Enter");
        await page.SeeAsync("h1:text('Load')");
        await Expect(page.Locator("#code")).ToBeFocusedAsync();
    }

    private static async Task TakeOutAsync(IPage page, string reason)
    {
        await page.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "It is taken out" }), 30);
        await page.Keyboard.PressAsync("Enter");
        await page.TabToAsync(page.Locator("#Reason"), 30);
        await page.Keyboard.TypeAsync(reason);
        await page.TabToAsync(page.GetByRole(AriaRole.Button, new() { Name = "It failed" }));
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".said strong").First).ToContainTextAsync("Failed");
    }

    // One sheet, one that is not ours, the next one, and that one back again.
    private static async Task MountAsync(WatchedPage technician, int width, List<string> wrong)
    {
        var page = technician.Page;
        var verdict = page.Locator(".answer .verdict");
        await page.GotoAsync("/bench/mounted");
        await Expect(page.Locator("#code")).ToBeFocusedAsync();
        wrong.AddRange(await technician.LookHereEverywhereAsync("bench of a step"));
        await page.ScanAsync(Unmounted(width, 0));
        await Expect(verdict).ToContainTextAsync(Unmounted(width, 0));
        await page.ScanAsync("NOT-OURS-1");
        await Expect(verdict).ToContainTextAsync("not done");
        wrong.AddRange((await technician.LookHereEverywhereAsync("bench of a step, refusing")).Where(IsNoRefusal));
        await page.ScanAsync(Unmounted(width, 1));
        await Expect(verdict).ToContainTextAsync(Unmounted(width, 1));
        await page.ScanAsync("undo");
        await Expect(verdict).ToContainTextAsync("taken back");
        await Expect(page.Locator("#code")).ToBeFocusedAsync();
        wrong.AddRange(await technician.LookHereEverywhereAsync("bench of a step, undone"));
    }

    // What is not theirs looks like what is not there, but for the number itself.
    private static async Task<IReadOnlyList<string>> AlikeAsync(WatchedPage watched, string notTheirs, string notThere)
    {
        List<string> seen = [];
        foreach (var address in new[] { notTheirs, notThere })
        {
            var answer = await watched.Page.GotoAsync(address);
            var text = await watched.Page.Locator("main").InnerTextAsync();
            seen.Add($"{answer!.Status} {text.Replace(address.Split('/')[^1], "N", StringComparison.Ordinal)}");
        }

        Assert.StartsWith("404", seen[0], StringComparison.Ordinal);
        return seen[0] == seen[1] ? [] : [$"{notTheirs} says \"{seen[0]}\", {notThere} \"{seen[1]}\""];
    }

    // Chromium writes every answer of 4xx into its console; these were asked for.
    private static bool IsNoRefusal(string complaint) =>
        !complaint.Contains("the server responded with a status of 4", StringComparison.Ordinal);
}
