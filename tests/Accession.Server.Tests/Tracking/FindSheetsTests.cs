using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Finding;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class FindSheetsOnSqlite(ServerOnSqlite server) : FindSheetsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class FindSheetsOnPostgreSql(ServerOnPostgreSql server)
    : FindSheetsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>One box finds sheets by whatever somebody remembers of them, and filters leave fewer.</summary>
public abstract class FindSheetsTests(TestServer server)
{
    // Invented people and places; the words of each test's places are its own.
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets
        Ada Quill,31,2024-06-14,United States,Oregon,Harney,@ dry wash,Poa secunda J.Presl,1
        Ada Quill,32,2024-06-15,United States,Oregon,Malheur,@ duné rim,Bromus tectorum L.,1
        Ada Quill,45,2024-07-16,United States,Nevada,Elko,@ playa dunes,Bromus carinatus Hook. & Arn.,1
        """;

    [Theory]
    [InlineData("@ wash", "1")]
    [InlineData("@ bromus", "2 3")]
    [InlineData("@ brom", "2 3")]                     // the last word may be a beginning
    [InlineData("tectorum @", "2")]                   // in any order
    [InlineData("@ DUNE", "2")]                       // without its accent, in capitals; whole, as a sheet bears it
    [InlineData("@ dun", "2 3")]                      // three letters are a beginning, whoever bears them
    [InlineData("@ harney oregon", "1")]
    [InlineData("@ jul", "3")]
    [InlineData("& 31", "1")]                         // & stands for the collector's family name
    [InlineData("& 31-32", "1 2")]                    // a run of numbers
    [InlineData("& 30-50", "1 2 3")]
    [InlineData("Ada &", "1 2 3")]
    [InlineData("@ wash playa", "")]
    [InlineData("@zzz", "")]
    public async Task Finds(string asked, string found)
    {
        var (pile, place, family) = await NumberedAsync("finds");
        using var technician = await server.SignInAsync(Role.Technician);

        Assert.Equal(found, await FoundAsync(technician, pile, "q", asked
            .Replace("@", place, StringComparison.Ordinal).Replace("&", family, StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("taxon=Bromus", "2 3")]
    [InlineData("taxon=Bromus tectorum", "2")]
    [InlineData("county=Harney, OR", "1")]
    [InlineData("county=Elko", "3")]
    [InlineData("taxon=Bromus&county=Malheur, Oregon", "2")]
    [InlineData("taxon=Poa&county=Elko, NV", "")]
    public async Task Filters_leave_fewer(string filters, string found)
    {
        var (pile, _, family) = await NumberedAsync("filters");
        using var technician = await server.SignInAsync(Role.Technician);

        var page = await technician.GetPageAsync($"/specimens?collector={family}&{filters}");

        Assert.Equal(found, Shown(page, pile));
        Assert.Contains(found.Length == 0 ? "0 sheets" : found.Split(' ').Length == 1 ? "1 sheet" : "2 sheets", page.Text,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Years_and_accessions_are_filters_too()
    {
        var (pile, _, _) = await NumberedAsync("years");
        using var technician = await server.SignInAsync(Role.Technician);

        Assert.Equal("1 2 3", Shown(await technician.GetPageAsync($"/specimens?accession={pile.Accession}"), pile));
        Assert.Equal("", Shown(await technician.GetPageAsync($"/specimens?accession={pile.Accession}&from=2025"), pile));
        Assert.Equal(
            "1 2 3", Shown(await technician.GetPageAsync($"/specimens?accession={pile.Accession}&from=1800&to=2024"), pile));
    }

    [Fact]
    public async Task A_new_name_finds_a_sheet_and_the_old_one_still_does()
    {
        var (pile, place, _) = await NumberedAsync("renamed");
        using var curator = await server.SignInAsync(Role.Curator);
        var form = await curator.GetPageAsync($"/specimen/{pile.Code(1)}/name");
        Assert.Empty((await curator.SubmitAsync(
            form, "form.form", [("Name", "Poa bulbosa L."), ("IdentifiedBy", "B. Vetch")])).Refusals);

        Assert.Equal("1", await FoundAsync(curator, pile, "q", $"{place} bulbosa"));
        Assert.Equal("1", await FoundAsync(curator, pile, "q", $"{place} secunda"));
        // The filter is by the name that counts.
        Assert.Equal("1", Shown(await curator.GetPageAsync($"/specimens?taxon=Poa bulbosa&accession={pile.Accession}"), pile));
        Assert.Equal("", Shown(await curator.GetPageAsync($"/specimens?taxon=Poa secunda&accession={pile.Accession}"), pile));
    }

    [Fact]
    public async Task A_protected_place_is_not_found_by_its_words_until_the_protection_is_lifted()
    {
        var (pile, place, _) = await NumberedAsync("protected");
        using var curator = await server.SignInAsync(Role.Curator);
        Assert.Equal("1", await FoundAsync(curator, pile, "q", $"{place} wash"));

        await ProtectAsync(curator, pile.Gatherings[0], "High");

        Assert.Equal("", await FoundAsync(curator, pile, "q", $"{place} wash"));
        Assert.Equal("2 3", await FoundAsync(curator, pile, "q", place));
        Assert.Empty(await Pile.VerifyAsync(server));
        await ProtectAsync(curator, pile.Gatherings[0], "NotSensitive");
        Assert.Equal("1", await FoundAsync(curator, pile, "q", $"{place} wash"));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_weed_officer_finds_by_words_only_in_the_counties_of_the_account()
    {
        var (pile, place, _) = await NumberedAsync("officer finds");
        using var officer = await Newcomers.LetInAsync(server, "Reed Finder", Role.WeedOfficer, "Malheur, Oregon");

        Assert.Equal("2", await FoundAsync(officer.Visitor, pile, "q", place));
        var other = await officer.Visitor.GetPageAsync($"/specimens?q={place} wash");
        Assert.Contains("Nothing answers to that", other.Text, StringComparison.Ordinal);
        Assert.Contains("0 sheets", other.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"")]
    [InlineData("a OR b")]
    [InlineData("*")]
    [InlineData("NEAR(a b)")]
    [InlineData("' & !x | (y")]
    [InlineData("find_text : x")]
    [InlineData("\u0000")]
    [InlineData("1-")]
    [InlineData("Quill 9-1")]
    [InlineData("Quill 1-999999")]
    public async Task Whatever_is_typed_is_answered(string asked)
    {
        using var technician = await server.SignInAsync(Role.Technician);

        var page = await technician.GetPageAsync($"/specimens?q={Uri.EscapeDataString(asked)}");

        Assert.Equal(HttpStatusCode.OK, page.Status);
    }

    [Fact]
    public async Task A_register_from_before_gets_its_words()
    {
        var (pile, place, _) = await NumberedAsync("words from before");
        await server.InRegisterAsync(db => db.Specimens.Where(s => pile.Gatherings.Contains(s.GatheringId))
            .ExecuteUpdateAsync(row => row.SetProperty(s => s.FindText, "")));
        using var technician = await server.SignInAsync(Role.Technician);
        Assert.Equal("", await FoundAsync(technician, pile, "q", place));

        await server.InRegisterAsync(async db =>
        {
            await FindTexts.BringUpAsync(db, CancellationToken.None);
            return true;
        });

        Assert.Equal("1 2 3", await FoundAsync(technician, pile, "q", place));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Pages_are_walked_without_loss_while_sheets_are_numbered()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var place = $"Walkaway{InventedNames.FamilyOf("walked")}";
        var rows = string.Join('\n', Enumerable.Range(1, 60).Select(n =>
            $"Ada Quill,{n},2024-06-{(n % 28) + 1:00},United States,Oregon,Harney,{place} {n},Poa annua L.,1"));
        var pile = await Pile.TakeInAsync(
            server, curator, InventedNames.OfAnother(List.Split('\n')[0] + "\n" + rows, "walked"));
        using var technician = await server.SignInAsync(Role.Technician);
        using var scanner = new Scanner(technician, pile);
        foreach (var gathering in pile.Gatherings.Take(55))
        {
            await scanner.NextAsync(gathering);
        }

        var first = await technician.GetPageAsync($"/specimens?q={place}");
        await scanner.NextAsync(pile.Gatherings[55]);
        var second = await technician.GetPageAsync(
            "/specimens" + new Uri(server.Address, first.One(".pager a").GetAttribute("href")!).Query);

        Assert.Equal(50, first.All("main tbody tr").Count);
        Assert.Equal(
            Enumerable.Range(1, 55).Select(n => pile.Code(n)),
            first.All("main tbody th a").Concat(second.All("main tbody th a")).Select(a => a.TextContent).Order());
        Assert.Empty(second.All(".pager a"));
    }

    private async Task<(Pile Pile, string Place, string Family)> NumberedAsync(string text)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var own = $"{text} {Guid.NewGuid():N}";
        var place = $"Xy{Guid.NewGuid():N}"[..14];
        var pile = await Pile.TakeInAsync(
            server, curator, InventedNames.OfAnother(List, own).Replace("@", place, StringComparison.Ordinal));
        using var technician = await server.SignInAsync(Role.Technician);
        using var scanner = new Scanner(technician, pile);
        foreach (var gathering in pile.Gatherings)
        {
            Assert.Empty((await scanner.NextAsync(gathering)).Refusals);
        }

        return (pile, place, InventedNames.FamilyOf(own));
    }

    private static async Task<string> FoundAsync(Visitor visitor, Pile pile, string key, string asked) =>
        Shown(await visitor.GetPageAsync($"/specimens?{key}={Uri.EscapeDataString(asked)}"), pile);

    // Which of the three sheets stand on the page; whatever else is found there is another test's.
    private static string Shown(Page page, Pile pile)
    {
        Assert.Equal(HttpStatusCode.OK, page.Status);
        var numbers = page.All("main tbody th a").Select(a => a.TextContent).ToHashSet();
        return string.Join(' ', Enumerable.Range(1, 3).Where(n => numbers.Contains(pile.Code(n))));
    }

    private static async Task ProtectAsync(Visitor curator, long gathering, string category)
    {
        var answer = await curator.SubmitAsync(
            await curator.GetPageAsync($"/gathering/{gathering}/protection"), "form.form",
            [("Category", category), ("ReviewOn", category == "NotSensitive" ? "" : "2031-03-09"), ("Reason", "test")]);
        Assert.Empty(answer.Refusals);
    }
}
