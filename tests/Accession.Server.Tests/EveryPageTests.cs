using System.Text.RegularExpressions;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Tests;

namespace Accession.Server.Tests;

/// <summary>What holds for every page, those included that are still to be written.</summary>
[Trait("Store", "sqlite")]
public sealed partial class EveryPageTests(ServerOnSqlite server) : IClassFixture<ServerOnSqlite>
{
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Species,Sheets
        Ada Quill,3,2024-06-14,Oregon,Harney,Poa secunda J.Presl,1
        """;

    private static readonly string[] Asking = ["src", "href", "action", "formaction", "srcset", "poster", "data"];

    [Theory]
    [InlineData(Role.Technician)]
    [InlineData(Role.Curator)]
    [InlineData(Role.Administrator)]
    [InlineData(Role.Determiner)]
    [InlineData(Role.Collector)]
    [InlineData(Role.WeedOfficer)]
    public async Task No_page_names_another_host(Role role)
    {
        using var visitor = await server.SignInAsync(role);
        foreach (var door in (await Endpoints.OfAsync(server)).Where(door => door.Method == "GET"))
        {
            var page = await visitor.GetPageAsync(door.Example);
            AssertAsksNobodyElse(page);
        }
    }

    [Fact]
    public async Task Every_page_that_is_shown_has_one_heading_a_title_and_a_language()
    {
        using var visitor = await server.SignInAsync(Role.Administrator);
        foreach (var door in (await Endpoints.OfAsync(server)).Where(door => door.Method == "GET"))
        {
            var page = await visitor.GetPageAsync(door.Example);
            if (page.Location is null && page.Html.QuerySelector("main") is not null)
            {
                page.One("h1");
                Assert.NotEmpty(page.One("head > title").TextContent.Trim());
                Assert.Equal("en", page.One("html").GetAttribute("lang"));
            }
        }
    }

    // With nothing in the register these show only that there is nothing.
    [Fact]
    public async Task So_it_is_on_pages_that_are_there_after_something_was_done()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Numbering.Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, nameof(EveryPageTests)));
        using var scanner = new Numbering.Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.NextAsync(pile.Gatherings[0]);
        var made = await curator.SubmitAsync(
            await curator.GetPageAsync($"{pile.BatchPath}/private-link"), "form[action$='handler=Link']");
        var sheet = await curator.FollowAsync(await curator.SubmitAsync(
            await curator.GetPageAsync($"/specimen/{pile.Code(1)}/correct"), "#record",
            [("Habitat", "Gravel"), ("Reason", "label read again")]));
        using var stranger = server.Stranger();
        Page[] pages =
        [
            made, sheet, await curator.GetPageAsync($"/specimen/{pile.Code(1)}/name"),
            await curator.GetPageAsync(sheet.All("a[href^='/correction/']")[0].GetAttribute("href")!),
            await stranger.GetPageAsync(new Uri(made.One("#private-link").TextContent).AbsolutePath),
        ];
        Assert.All(pages, page =>
        {
            Assert.Equal(System.Net.HttpStatusCode.OK, page.Status);
            page.One("h1");
            Assert.NotEmpty(page.One("head > title").TextContent.Trim());
            Assert.Equal("en", page.One("html").GetAttribute("lang"));
            AssertAsksNobodyElse(page);
        });
    }

    [Fact]
    public void Every_page_states_its_address()
    {
        var pages = Directory.EnumerateFiles(
                Path.Combine(ReferenceData.CheckoutRoot(), "src", "Accession.Server"), "*.cshtml",
                SearchOption.AllDirectories)
            .Where(file => !file.Contains("/node_modules/", StringComparison.Ordinal));
        Assert.Equal([], pages.Where(file => StatesNoAddress(File.ReadAllText(file))));
    }

    [Theory]
    [InlineData("@page\n@model X", true)]
    [InlineData("@page \"{id}\"\n", true)]      // relative: it would hang on the name of the file
    [InlineData("@page \"/batch/{id:long}\"\n", false)]
    [InlineData("<p>a part of a page</p>", false)]
    public void A_page_without_its_own_address_is_noticed(string source, bool isNoticed) =>
        Assert.Equal(isNoticed, StatesNoAddress(source));

    private void AssertAsksNobodyElse(Page page)
    {
        var addresses = page.All("*").SelectMany(element => Asking.Select(name => element.GetAttribute(name)))
            .Where(address => address is not null && !address.StartsWith('#'))
            .Select(address => new Uri(page.Address, address))
            .Where(address => address.Scheme is not ("data" or "mailto"));
        Assert.All(addresses, address => Assert.Equal(server.Address.Authority, address.Authority));
    }

    private static bool StatesNoAddress(string source) =>
        Page().IsMatch(source) && !PageWithAddress().IsMatch(source);

    [GeneratedRegex(@"^\uFEFF?@page\b", RegexOptions.Multiline)]
    private static partial Regex Page();

    [GeneratedRegex("^\uFEFF?@page \"/", RegexOptions.Multiline)]
    private static partial Regex PageWithAddress();
}
