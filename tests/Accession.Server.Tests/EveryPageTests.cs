using System.Text.RegularExpressions;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Tests;

namespace Accession.Server.Tests;

/// <summary>What holds for every page, those included that are still to be written.</summary>
[Trait("Store", "sqlite")]
public sealed partial class EveryPageTests(ServerOnSqlite server) : IClassFixture<ServerOnSqlite>
{
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
            var addresses = page.All("*").SelectMany(element => Asking.Select(name => element.GetAttribute(name)))
                .Where(address => address is not null && !address.StartsWith('#'))
                .Select(address => new Uri(page.Address, address))
                .Where(address => address.Scheme != "data");
            Assert.All(addresses, address => Assert.Equal(server.Address.Authority, address.Authority));
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

    private static bool StatesNoAddress(string source) =>
        Page().IsMatch(source) && !PageWithAddress().IsMatch(source);

    [GeneratedRegex(@"^\uFEFF?@page\b", RegexOptions.Multiline)]
    private static partial Regex Page();

    [GeneratedRegex("^\uFEFF?@page \"/", RegexOptions.Multiline)]
    private static partial Regex PageWithAddress();
}
