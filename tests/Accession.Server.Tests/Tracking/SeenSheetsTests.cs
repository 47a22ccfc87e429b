using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Localities;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class SeenSheetsOnSqlite(ServerOnSqlite server) : SeenSheetsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class SeenSheetsOnPostgreSql(ServerOnPostgreSql server)
    : SeenSheetsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// A weed officer sees the sheets of the counties of the account, a collector those of the person whom a curator said it
/// is; what is not theirs looks like what is not there.
/// </summary>
public abstract class SeenSheetsTests(TestServer server)
{
    // Invented people and places in real counties; two counties of one name in two states.
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets
        Ada Quill,11,2024-06-14,United States,Oregon,Harney,Dry wash,Poa secunda J.Presl,1
        Ada Quill,12,2024-06-15,United States,OR,Lincoln County,Dune,Poa annua L.,1
        Orla Finch,13,2024-06-16,United States,Nevada,Lincoln,Playa,Bromus tectorum L.,1
        """;

    [Fact]
    public async Task A_weed_officer_sees_the_counties_of_the_account_and_no_others()
    {
        var (pile, _) = await NumberedAsync("officer");
        using var harney = await Newcomers.LetInAsync(server, "Reed Harney", Role.WeedOfficer, "Harney County, OR");
        using var lincoln = await Newcomers.LetInAsync(
            server, "Reed Lincoln", Role.WeedOfficer, "Lincoln, Nevada\nHarney, Nevada");

        Assert.Equal([0], await SeenAsync(harney.Visitor, pile));
        Assert.Equal([2], await SeenAsync(lincoln.Visitor, pile));
        Assert.Contains("Harney County, OR", (await harney.Visitor.GetPageAsync("/specimens")).Text, StringComparison.Ordinal);
        Assert.Equal("/specimens", (await harney.Visitor.GetPageAsync("/")).Location);
    }

    [Fact]
    public async Task Counties_that_are_taken_from_an_account_are_seen_no_longer()
    {
        var (pile, _) = await NumberedAsync("former officer");
        using var officer = await Newcomers.LetInAsync(server, "Reed Former", Role.WeedOfficer, "Harney, Oregon");
        Assert.Equal([0], await SeenAsync(officer.Visitor, pile));
        using var administrator = await server.SignInAsync(Role.Administrator);

        Assert.Empty((await administrator.SubmitAsync(
            await administrator.GetPageAsync($"/accounts/{officer.Id}"), "form[action$='handler=Work']",
            [("Roles", "WeedOfficer"), ("Counties", "Lincoln, OR")])).Refusals);

        Assert.Equal([1], await SeenAsync(officer.Visitor, pile));
    }

    [Fact]
    public async Task What_is_not_theirs_looks_like_what_is_not_there()
    {
        var (pile, _) = await NumberedAsync("swapped");
        using var officer = await Newcomers.LetInAsync(server, "Reed Swapped", Role.WeedOfficer, "Lincoln, Nevada");
        var (others, nobodys) = (pile.Code(1), pile.Code(99));

        foreach (var address in new[] { "/specimen/{0}", "/specimen/{0}/sheet/1", "/specimens?q={0}" })
        {
            var other = await officer.Visitor.GetPageAsync(string.Format(null, address, others));
            var none = await officer.Visitor.GetPageAsync(string.Format(null, address, nobodys));
            Assert.Equal(none.Status, other.Status);
            Assert.Equal(none.Location, other.Location);
            Assert.Equal(none.Text.Replace(nobodys, others, StringComparison.Ordinal), other.Text);
        }
    }

    [Fact]
    public async Task A_collector_sees_nothing_until_a_curator_says_who_it_is()
    {
        var (pile, families) = await NumberedAsync("collector");
        using var ada = await Newcomers.LetInAsync(server, "Ada as collector", Role.Collector);
        using var orla = await Newcomers.LetInAsync(server, "Orla as collector", Role.Collector);
        Assert.Empty(await SeenAsync(ada.Visitor, pile));
        Assert.Contains(
            "has not said yet which collector you are", (await ada.Visitor.GetPageAsync("/mine")).Text,
            StringComparison.Ordinal);

        var adaAddress = await TieAsync(ada, $"Ada {families[0]}");
        await TieAsync(orla, $"Orla {families[1]}");

        Assert.Equal([0, 1], await SeenAsync(ada.Visitor, pile));
        Assert.Equal([2], await SeenAsync(orla.Visitor, pile));
        var mine = await ada.Visitor.GetPageAsync("/mine");
        Assert.Equal(["12", "11"], mine.All("main tbody th").Select(cell => cell.TextContent));
        Assert.Contains(pile.Code(1), mine.Text, StringComparison.Ordinal);
        Assert.Contains("Poa secunda", mine.Text, StringComparison.Ordinal);
        Assert.Equal(["11"], (await ada.Visitor.GetPageAsync("/mine?q=11")).All("main tbody th").Select(c => c.TextContent));
        Assert.Empty((await ada.Visitor.GetPageAsync("/mine?q=13")).All("main tbody th"));

        // Taken away again: what was seen is seen no longer, from the next page on.
        using var curator = await server.SignInAsync(Role.Curator);
        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync(adaAddress), "form[action$='handler=Untie']", [("why", "somebody else")])).Refusals);
        Assert.Empty(await SeenAsync(ada.Visitor, pile));
    }

    [Fact]
    public async Task Sheets_that_wait_for_a_number_or_do_not_stay_stand_among_the_collectors_own()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var list = InventedNames.OfAnother(List, "waiting");
        var family = InventedNames.FamilyOf("waiting");
        await Pile.TakeInAsync(server, curator, list);
        using var ada = await Newcomers.LetInAsync(server, "Ada who waits", Role.Collector);

        await TieAsync(ada, $"Ada {family}");

        var mine = await ada.Visitor.GetPageAsync("/mine");
        Assert.Equal(2, mine.All("main tbody tr").Count);
        Assert.Contains("1 sheet here, not numbered yet", mine.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_spelling_is_one_persons_and_an_account_too()
    {
        var (_, families) = await NumberedAsync("taken");
        using var ada = await Newcomers.LetInAsync(server, "Ada once", Role.Collector);
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await TieAsync(ada, $"Ada {families[0]}");
        var second = await OnRecordAsync(curator, $"Ada {families[0]} the younger");
        var page = await curator.GetPageAsync(second);
        // The spelling is not offered again, and is refused when it is sent all the same.
        Assert.Empty(page.All("input[name=spellings]"));

        var token = page.All("input[name=__RequestVerificationToken]")[0].GetAttribute("value")!;
        using var form = new FormUrlEncodedContent(
            [new("spellings", $"Ada {families[0]}"), new("__RequestVerificationToken", token)]);
        using var answer = await curator.Http.PostAsync(new Uri(server.Address, second), form);
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        using var tie = new FormUrlEncodedContent(
            [new("account", ada.Id), new("how", "seen"), new("__RequestVerificationToken", token)]);
        using var tied = await curator.Http.PostAsync(new Uri(server.Address, $"{second}?handler=Tie"), tie);
        Assert.Equal(HttpStatusCode.Conflict, tied.StatusCode);
        Assert.Contains("Ada once", (await curator.GetPageAsync(first)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_account_is_not_tied_without_how_it_is_known_nor_one_that_is_no_collectors()
    {
        var (_, families) = await NumberedAsync("unsure");
        using var technician = await Newcomers.LetInAsync(server, "Not a collector", Role.Technician);
        using var curator = await server.SignInAsync(Role.Curator);
        var address = await OnRecordAsync(curator, $"Ada {families[0]}");
        var page = await curator.GetPageAsync(address);
        var token = page.All("input[name=__RequestVerificationToken]")[0].GetAttribute("value")!;

        foreach (var (account, how) in new[] { (technician.Id, "met"), ("nobody", "met"), ("", "") })
        {
            using var form = new FormUrlEncodedContent(
                [new("account", account), new("how", how), new("__RequestVerificationToken", token)]);
            using var answer = await curator.Http.PostAsync(new Uri(server.Address, $"{address}?handler=Tie"), form);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        }
    }

    [Fact]
    public async Task A_determiner_reads_the_whole_register_as_everyone_may_know_it()
    {
        var (pile, _) = await NumberedAsync("determiner");
        using var determiner = await server.SignInAsync(Role.Determiner);

        Assert.Equal([0, 1, 2], await SeenAsync(determiner, pile));
        var sheet = await determiner.GetPageAsync($"/specimen/{pile.Code(1)}");
        Assert.Empty(sheet.All($"a[href='/accession/{pile.Accession}']"));
        Assert.Empty(sheet.All("a[href*='/protection']"));
    }

    [Fact]
    public async Task A_register_from_before_is_brought_up()
    {
        var (pile, _) = await NumberedAsync("from before");
        await server.InRegisterAsync(db => db.Gatherings.Where(g => pile.Gatherings.Contains(g.Id))
            .ExecuteUpdateAsync(row => row.SetProperty(g => g.CountyKey, (string?)null)));
        using var officer = await Newcomers.LetInAsync(server, "Reed Before", Role.WeedOfficer, "Harney, Oregon");
        Assert.Empty(await SeenAsync(officer.Visitor, pile));

        await server.InRegisterAsync(async db =>
        {
            await CountiesBroughtUp.RunAsync(db, CancellationToken.None);
            return true;
        });

        Assert.Equal([0], await SeenAsync(officer.Visitor, pile));
    }

    // A list of two collectors, every sheet numbered.
    private async Task<(Pile Pile, string[] Families)> NumberedAsync(string text)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (ada, orla) = ($"{text} Ada", $"{text} Orla");
        var list = InventedNames.OfAnother(List.Replace("Finch", "@", StringComparison.Ordinal), ada)
            .Replace("@", InventedNames.FamilyOf(orla), StringComparison.Ordinal);
        var pile = await Pile.TakeInAsync(server, curator, list);
        using var technician = await server.SignInAsync(Role.Technician);
        using var scanner = new Scanner(technician, pile);
        foreach (var gathering in pile.Gatherings)
        {
            Assert.Empty((await scanner.NextAsync(gathering)).Refusals);
        }

        return (pile, [InventedNames.FamilyOf(ada), InventedNames.FamilyOf(orla)]);
    }

    /// <summary>Which of the three sheets somebody sees: by their pages, and the same ones in the list and by finding.</summary>
    private static async Task<List<int>> SeenAsync(Visitor visitor, Pile pile)
    {
        List<int> seen = [];
        var all = (await visitor.GetPageAsync("/specimens")).All("main tbody th a").Select(a => a.TextContent).ToList();
        for (var i = 0; i < 3; i++)
        {
            var code = pile.Code(i + 1);
            var page = await visitor.GetPageAsync($"/specimen/{code}");
            Assert.Contains(page.Status, new[] { HttpStatusCode.OK, HttpStatusCode.NotFound });
            var isSeen = page.Status == HttpStatusCode.OK;
            Assert.Equal(isSeen, all.Contains(code));
            Assert.Equal(isSeen, (await visitor.GetPageAsync($"/specimens?q={code}")).Location is not null);
            if (isSeen)
            {
                seen.Add(i);
            }
        }

        return seen;
    }

    // As a curator does: put on record, say which spelling it is, tie the account.
    private async Task<string> TieAsync(Newcomer somebody, string name)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var address = await OnRecordAsync(curator, name);
        var page = await curator.GetPageAsync(address);
        var spelling = page.All("input[name=spellings]").Select(box => box.GetAttribute("value")!).Single(name.Equals);
        var known = await curator.SubmitAsync(page, "form:has(input[name=spellings])", [("spellings", spelling)]);
        Assert.Empty(known.Refusals);
        var tied = await curator.SubmitAsync(
            await curator.GetPageAsync(address), "form[action$='handler=Tie']",
            [("account", somebody.Id), ("how", "handed the batch over in person")]);
        Assert.Empty(tied.Refusals);
        return address;
    }

    private static async Task<string> OnRecordAsync(Visitor curator, string name)
    {
        var answer = await curator.SubmitAsync(
            await curator.GetPageAsync("/collectors"), "form.form", [("Name", name)]);
        Assert.Empty(answer.Refusals);
        return answer.Location!;
    }
}
