using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class PersonYearsOnSqlite(ServerOnSqlite server) : PersonYearsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class PersonYearsOnPostgreSql(ServerOnPostgreSql server)
    : PersonYearsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Two people of one spelling are told apart by the years in which they collected.</summary>
public abstract class PersonYearsTests(TestServer server)
{
    // Invented: a grandmother and her grandchild of one name, a sheet between their times and one without a date.
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets
        Ada Quill,11,1931-06-14,United States,Oregon,Harney,Dry wash,Poa secunda J.Presl,1
        Ada Quill,12,1958-06-15,United States,Oregon,Harney,Dune,Poa annua L.,1
        Ada Quill,13,1985-06-16,United States,Oregon,Harney,Playa,Bromus tectorum L.,1
        Ada Quill,14,2011-05-01,United States,Oregon,Harney,Rim,Carex nebrascensis Dewey,1
        Ada Quill,15,2025-05-02,United States,Oregon,Harney,Seep,Juncus balticus Willd.,1
        Ada Quill,16,,United States,Oregon,Harney,Ford,Salix exigua Nutt.,1
        """;

    [Fact]
    public async Task Two_persons_of_one_spelling_each_see_the_sheets_of_their_years()
    {
        var name = await TakenInAsync("two of one spelling", 1);
        using var curator = await server.SignInAsync(Role.Curator);
        var elder = await CollectorsAtHand.OnRecordAsync(curator, $"{name} the elder", name);
        using var old = await CollectorsAtHand.TiedAsync(server, curator, elder, "The elder");
        Assert.Equal(["11", "12", "13", "14", "15", "16"], await CollectorsAtHand.NumbersOfAsync(old));

        Assert.Empty((await CollectorsAtHand.StateYearsAsync(curator, elder, "1925", "1960")).Refusals);
        Assert.Equal(["11", "12", "16"], await CollectorsAtHand.NumbersOfAsync(old));
        var younger = await CollectorsAtHand.OnRecordAsync(curator, $"{name} the younger");
        // Any year is a year of the elder as well, until the younger's are stated.
        var notYet = await curator.GetPageAsync($"{younger}?Family={name.Split(' ')[^1]}");
        Assert.Empty(notYet.All("input[name=spellings]"));
        Assert.Contains("state the years of both", notYet.Text, StringComparison.Ordinal);
        Assert.Empty((await CollectorsAtHand.StateYearsAsync(curator, younger, "2011", "")).Refusals);
        await CollectorsAtHand.KnowAsync(curator, younger, name);
        using var young = await CollectorsAtHand.TiedAsync(server, curator, younger, "The younger");

        Assert.Equal(["11", "12"], await CollectorsAtHand.NumbersOfAsync(old));
        Assert.Equal(["14", "15"], await CollectorsAtHand.NumbersOfAsync(young));
        foreach (var page in new[] { elder, younger })
        {
            Assert.Contains(
                "1 is outside all stated years, and 1 has no year while the spelling is two people's. No account sees",
                (await curator.GetPageAsync(page)).Text, StringComparison.Ordinal);
        }

        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task No_year_is_of_two_persons_of_one_spelling()
    {
        var name = await TakenInAsync("no year of two", 2);
        using var curator = await server.SignInAsync(Role.Curator);
        var elder = await CollectorsAtHand.OnRecordAsync(curator, $"{name} the elder", name);
        Assert.Empty((await CollectorsAtHand.StateYearsAsync(curator, elder, "", "1960")).Refusals);
        var younger = await CollectorsAtHand.OnRecordAsync(curator, $"{name} the younger");
        var opened = await curator.GetPageAsync(younger);
        Assert.Empty((await CollectorsAtHand.StateYearsAsync(curator, younger, "1960", "")).Refusals);

        var refused = await CollectorsAtHand.PostAsync(server, curator, opened, "", ("spellings", name));
        Assert.Equal(HttpStatusCode.Conflict, refused.Status);
        Assert.Contains("the elder too, who collected until 1960", Assert.Single(refused.Refusals), StringComparison.Ordinal);

        Assert.Empty((await CollectorsAtHand.StateYearsAsync(curator, younger, "1961", "")).Refusals);
        await CollectorsAtHand.KnowAsync(curator, younger, name);
        var wider = await CollectorsAtHand.StateYearsAsync(curator, elder, "1920", "1961", "typed and kept");
        Assert.Equal(HttpStatusCode.Conflict, wider.Status);
        Assert.Equal(
            ["1920", "1961", "typed and kept"],
            new[] { "#first", "#last", "#years-how" }.Select(field => wider.One(field).GetAttribute("value")));
    }

    [Fact]
    public async Task Two_curators_who_give_one_spelling_to_two_persons_at_once_give_it_to_one()
    {
        var name = await TakenInAsync("two curators at once", 3);
        using var curator = await server.SignInAsync(Role.Curator);
        var one = await curator.GetPageAsync(await CollectorsAtHand.OnRecordAsync(curator, $"{name} one"));
        var two = await curator.GetPageAsync(await CollectorsAtHand.OnRecordAsync(curator, $"{name} two"));

        var answers = await Task.WhenAll(
            CollectorsAtHand.PostAsync(server, curator, one, "", ("spellings", name)),
            CollectorsAtHand.PostAsync(server, curator, two, "", ("spellings", name)));

        Assert.Single(answers, answer => answer.Location is not null);
        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Conflict);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Years_are_proposed_from_the_holdings_and_never_set_by_themselves()
    {
        var name = await TakenInAsync("proposed years", 4, """
            Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets
            Ada Quill,11,1931-06-14,United States,Oregon,Harney,Dry wash,Poa secunda J.Presl,1
            Ada Quill,12,1958-06-15,United States,Oregon,Harney,Dune,Poa annua L.,1
            Ada Quill,14,2011-05-01,United States,Oregon,Harney,Rim,Carex nebrascensis Dewey,1
            Ada Quill,15,2025-05-02,United States,Oregon,Harney,Seep,Juncus balticus Willd.,1
            """);
        using var curator = await server.SignInAsync(Role.Curator);
        var page = await curator.GetPageAsync(await CollectorsAtHand.OnRecordAsync(curator, name, name));

        Assert.Contains("Not stated", page.One("#years").TextContent, StringComparison.Ordinal);
        Assert.Contains("are of 1931 to 1958 (2) and of 2011 to 20", page.Text, StringComparison.Ordinal);
        Assert.Contains("More than 40 years lie between: perhaps these are two people", page.Text, StringComparison.Ordinal);
        Assert.Equal("", page.One("#first").GetAttribute("value") ?? "");
    }

    [Fact]
    public async Task Years_that_cannot_be_and_years_without_how_they_are_known_are_refused()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var address = await CollectorsAtHand.OnRecordAsync(curator, "Nobody of any year");
        foreach (var (first, last, how) in new[]
        {
            ("1960", "1925", "x"), ("19", "", "x"), ("3000", "", "x"), ("MCM", "", "x"), ("-1", "", "x"), ("1925", "", " "),
        })
        {
            var refused = await CollectorsAtHand.StateYearsAsync(curator, address, first, last, how);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
            Assert.Equal(first, refused.One("#first").GetAttribute("value"));
        }

        // The same years twice are one statement; both sides empty take it back.
        Assert.Empty((await CollectorsAtHand.StateYearsAsync(curator, address, "1925", "1960")).Refusals);
        Assert.NotEmpty((await CollectorsAtHand.StateYearsAsync(curator, address, "1925", "1960")).Refusals);
        Assert.Empty((await CollectorsAtHand.StateYearsAsync(curator, address, "", "", "it was somebody else")).Refusals);
        Assert.Contains("any year", (await curator.GetPageAsync(address)).One("#years").TextContent, StringComparison.Ordinal);
    }

    // A list of one collector whom nobody else knows, in a month of its own; answers the spelling.
    private async Task<string> TakenInAsync(string text, int month, string list = List)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var rows = InventedNames.OfAnother(list, text)
            .Replace("-06-", $"-{month:00}-", StringComparison.Ordinal)
            .Replace("-05-", $"-{month:00}-", StringComparison.Ordinal)
            .Replace("Ford", $"Ford {month} of {InventedNames.FamilyOf(text)}", StringComparison.Ordinal);
        await Pile.TakeInAsync(server, curator, rows);
        return $"Ada {InventedNames.FamilyOf(text)}";
    }
}
