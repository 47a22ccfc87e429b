using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Accounts;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class NearNamesOnSqlite(ServerOnSqlite server) : NearNamesTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class NearNamesOnPostgreSql(ServerOnPostgreSql server)
    : NearNamesTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A plant name with a slip finds in the one box, and says that it is near; filters of the house narrow it.</summary>
public abstract class NearNamesTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets
        Orla Finch,841,2024-06-14,United States,Oregon,Harney,Dry wash,Eriogonum umbellatum Torr.,1
        Orla Finch,842,2024-06-14,United States,Oregon,Lake,Rim,Artemisia tridentata Nutt.,1
        """;

    [Fact]
    public async Task A_slip_finds_what_is_near_and_is_marked_as_that()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await NumberedAsync(curator, "near");
        var exact = await curator.GetPageAsync("/specimens?q=eriogonum+umbellatum");
        Assert.DoesNotContain("Near", exact.Text, StringComparison.Ordinal);
        foreach (var (typed, number) in new[] { ("Eriogonum+umbelatum", 1), ("Atremisia", 2), ("Artemisia+tridentta", 2), ("umbelat", 1) })
        {
            var found = await curator.GetPageAsync($"/specimens?q={typed}");
            Assert.Contains("Nothing answers to it to the letter", found.Text, StringComparison.Ordinal);
            Assert.Contains(pile.Code(number), found.Text, StringComparison.Ordinal);
            Assert.DoesNotContain(pile.Code(3 - number), found.Text, StringComparison.Ordinal);
        }

        Assert.Contains("Nothing answers to that", (await curator.GetPageAsync("/specimens?q=Quercus")).Text, StringComparison.Ordinal);

        // Somebody who may see Lake County alone does not learn what grows in Harney.
        using var officer = (await Newcomers.LetInAsync(server, "Officer", Role.WeedOfficer, "Lake, Oregon")).Visitor;
        var bounded = await officer.GetPageAsync("/specimens?q=Eriogonum+umbelatum");
        Assert.DoesNotContain("umbellatum", bounded.Text, StringComparison.Ordinal);
        Assert.Contains(pile.Code(2), (await officer.GetPageAsync("/specimens?q=Atremisia")).Text, StringComparison.Ordinal);

        // A program gets what it asks for and nothing near.
        using var program = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.ReadRegister);
        Assert.Empty((await program.GetAsync("/api/v1/specimens?q=Atremisia")).Items);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task The_house_filters_by_step_holder_and_place_with_all_below()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await NumberedAsync(curator, "filters");
        var prefix = pile.Prefix;
        await curator.SubmitAsync(
            await curator.GetPageAsync("/places"), "form[action$='handler=Place']", [("name", $"{prefix} house, room 2"), ("zone", "Quarantine")]);
        var places = await curator.GetPageAsync("/places");
        var place = places.One($"select[name=To] option:contains('{prefix} house')").GetAttribute("value")!;
        Assert.Empty((await curator.SubmitAsync(
            places, "form[action='/places']", [("Codes", pile.Code(1)), ("To", place)])).Refusals);

        var codes = new[] { pile.Code(1), pile.Code(2) };
        await SeesAsync($"place={prefix}+house", codes[..1], codes[1..]);
        await SeesAsync($"place={prefix}+house,+room+2", codes[..1], codes[1..]);
        await SeesAsync($"q={pile.Code(1)[..7]}&place={prefix}+barn", [], codes);
        await SeesAsync($"accession={pile.Accession}&step=waits-treated", codes, []);
        await SeesAsync($"accession={pile.Accession}&step=done-treated", [], codes);
        await SeesAsync($"accession={pile.Accession}&step=done-numbered", codes, []);
        await SeesAsync($"accession={pile.Accession}&step=lacks-mounted", codes, []);
        await SeesAsync($"accession={pile.Accession}&step=lacks-numbered", [], codes);
        await SeesAsync($"accession={pile.Accession}&holder=Herbarium+of+the+Test+Bench", codes, []);
        await SeesAsync($"accession={pile.Accession}&holder=Nobody", [], codes);
        Assert.Contains("/step/treated", (await curator.GetPageAsync($"/specimens?accession={pile.Accession}&step=waits-treated")).Source, StringComparison.Ordinal);
        Assert.Contains("2 sheets", (await curator.GetPageAsync($"/specimens?accession={pile.Accession}&list=true")).Text, StringComparison.Ordinal);

        // Whoever does not work here has no such filter, and asks for nothing by its address.
        using var officer = (await Newcomers.LetInAsync(server, "Officer", Role.WeedOfficer, "Lake, Oregon")).Visitor;
        Assert.Empty((await officer.GetPageAsync("/specimens")).All("#holder, #place, #step"));
        Assert.Contains(codes[1], (await officer.GetPageAsync($"/specimens?accession={pile.Accession}&holder=Nobody")).Text, StringComparison.Ordinal);

        async Task SeesAsync(string query, string[] there, string[] notThere)
        {
            var page = await curator.GetPageAsync($"/specimens?{query}");
            Assert.All(there, code => Assert.Contains(code, page.Text, StringComparison.Ordinal));
            Assert.All(notThere, code => Assert.DoesNotContain(code, page.Text, StringComparison.Ordinal));
        }
    }

    private async Task<Pile> NumberedAsync(Visitor curator, string of)
    {
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"{GetType().Name} {of}"));
        await Bench.RegisterRollAsync(curator, pile.Prefix, 1, 10);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.ScanAsync(pile.Code(1), pile.Gatherings[0]);
        await scanner.ScanAsync(pile.Code(2), pile.Gatherings[1]);
        return pile;
    }
}
