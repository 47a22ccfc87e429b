using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using AngleSharp.Dom;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Determining;

[Trait("Store", "sqlite")]
public sealed class NamingOnSqlite(ServerOnSqlite server) : NamingTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class NamingOnPostgreSql(ServerOnPostgreSql server)
    : NamingTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// A sheet has a history of names. That all are kept and a curator says which counts is common practice; TDWG's guide to
/// Darwin Core for herbaria asks to keep them all and publish the current one (from memory).
/// </summary>
public abstract class NamingTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Det.,Det. date,Sheets
        Ada Quill,21,2024-06-14,United States,Oregon,Harney,Dry wash,Centaurea stoebe L.,A. Quill,2024,3
        """;

    [Fact]
    public async Task Names_are_added_and_the_one_a_curator_chose_counts()
    {
        var (address, number) = await NumberedAsync("added");
        using var curator = await server.SignInAsync(Role.Curator);

        await RecordAsync(curator, address, [("Name", "Centaurea diffusa Lam."), ("IdentifiedBy", "B. Vetch"), ("Date", "2025")]);
        await RecordAsync(curator, address,
            [("Name", "Centaurea diffusa Lam."), ("IdentifiedBy", "C. Rush"), ("Date", "Mar 2025"), ("Kind", "Confirmation")]);

        var page = await curator.GetPageAsync(address);
        Assert.Equal(3, page.All("ol.names li").Count);
        Assert.Contains("Centaurea stoebe", page.Text, StringComparison.Ordinal);       // the label's name stays
        Assert.Contains("conf. C. Rush, Mar 2025", page.Text, StringComparison.Ordinal);
        Assert.Equal("C. Rush", page.One("ol.names li:has(.current) p:nth-child(2)").TextContent.Split(',')[0]["conf. ".Length..]);
        Assert.Contains("Named Centaurea diffusa Lam. by B. Vetch", page.Text, StringComparison.Ordinal);
        Assert.Contains("Centaurea diffusa Lam. became the current name", page.Text, StringComparison.Ordinal);
        Assert.Equal("Centaurea diffusa Lam.", await CurrentAsync(number));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task An_old_slip_goes_into_the_history_and_changes_nothing()
    {
        var (address, number) = await NumberedAsync("old slip");
        using var curator = await server.SignInAsync(Role.Curator);

        await RecordAsync(curator, address,
            [("Name", "Centaurea maculosa Lam."), ("IdentifiedBy", "D. Elder"), ("Date", "1998"), ("Counts", "false")]);

        Assert.Equal("Centaurea stoebe L.", await CurrentAsync(number));
        var page = await curator.GetPageAsync(address);
        Assert.Contains("det. D. Elder, 1998", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Waits for a curator", page.Text, StringComparison.Ordinal);

        // A curator may let the older one count after all, and then the first one again.
        await ChooseAsync(curator, address, "Centaurea maculosa Lam.");
        Assert.Equal("Centaurea maculosa Lam.", await CurrentAsync(number));
        await ChooseAsync(curator, address, "Centaurea stoebe L.");
        Assert.Equal("Centaurea stoebe L.", await CurrentAsync(number));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task What_a_determiner_says_waits_for_a_curator()
    {
        var (address, number) = await NumberedAsync("determiner");
        using var determiner = await server.SignInAsync(Role.Determiner);
        var form = await determiner.GetPageAsync($"{address}/name");
        Assert.Equal("Test Determiner", form.One("#IdentifiedBy").GetAttribute("value"));
        Assert.Empty(form.All("input[name=Counts]"));

        await RecordAsync(determiner, address, [("Name", "Centaurea virgata Lam."), ("Reason", "pappus absent")]);

        Assert.Equal("Centaurea stoebe L.", await CurrentAsync(number));
        using var curator = await server.SignInAsync(Role.Curator);
        Assert.Contains("Decide on names", (await curator.GetPageAsync("/")).Text, StringComparison.Ordinal);
        var waiting = await curator.GetPageAsync("/opinions");
        var row = waiting.All("main tbody tr").Single(r => r.TextContent.Contains(number, StringComparison.Ordinal));
        Assert.Contains("pappus absent", row.TextContent, StringComparison.Ordinal);
        var id = row.QuerySelector("input[name=determination]")!.GetAttribute("value");
        var answer = await curator.SubmitAsync(
            waiting, $"form:has(input[value='{id}'][name=determination])", press: $"form:has(input[value='{id}'][name=determination]) button[value=true]");
        Assert.Empty(answer.Refusals);

        Assert.Equal("Centaurea virgata Lam.", await CurrentAsync(number));
        Assert.DoesNotContain((await curator.GetPageAsync("/opinions")).All("main tbody tr"), Names(number));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_determiner_does_not_say_which_name_counts()
    {
        var (address, number) = await NumberedAsync("overreach");
        using var determiner = await server.SignInAsync(Role.Determiner);
        await RecordAsync(determiner, address, [("Name", "Centaurea virgata Lam.")]);
        var page = await determiner.GetPageAsync($"{address}/name");
        var token = page.All("input[name=__RequestVerificationToken]")[0].GetAttribute("value")!;
        var opinion = await server.InRegisterAsync(db => db.Determinations
            .Where(d => d.Waits && db.Specimens.Any(s => s.Id == d.SpecimenId && s.CatalogNumber == number))
            .Select(d => d.Id).SingleAsync());

        using var form = new FormUrlEncodedContent(
            [new("determination", $"{opinion}"), new("counts", "true"), new("__RequestVerificationToken", token)]);
        using var answer = await determiner.Http.PostAsync(new Uri(server.Address, $"{address}/name?handler=Choose"), form);
        // Counts sent with the slip itself is not listened to either.
        using var slip = new FormUrlEncodedContent(
            [
                new("Name", "Centaurea jacea L."), new("IdentifiedBy", "Test Determiner"), new("Kind", "NewName"),
                new("SeenOn", "Sheet"), new("Counts", "true"), new("__RequestVerificationToken", token),
            ]);
        using var recorded = await determiner.Http.PostAsync(new Uri(server.Address, $"{address}/name"), slip);

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Equal(HttpStatusCode.Found, recorded.StatusCode);
        Assert.Equal("Centaurea stoebe L.", await CurrentAsync(number));
    }

    [Fact]
    public async Task The_same_slip_is_recorded_once()
    {
        var (address, _) = await NumberedAsync("twice");
        using var curator = await server.SignInAsync(Role.Curator);
        (string, string)[] slip = [("Name", "Centaurea diffusa Lam."), ("IdentifiedBy", "B. Vetch"), ("Date", "2025")];
        await RecordAsync(curator, address, slip);

        var again = await curator.SubmitAsync(await curator.GetPageAsync($"{address}/name"), "form.form", slip);

        Assert.Equal(HttpStatusCode.Conflict, again.Status);
        Assert.Equal("Centaurea diffusa Lam.", again.One("#Name").GetAttribute("value"));
    }

    [Fact]
    public async Task Two_curators_who_name_one_sheet_at_once_do_not_both_save_over_each_other()
    {
        var (address, number) = await NumberedAsync("at once");
        using var one = await server.SignInAsync(Role.Curator);
        using var other = await server.SignInAsync(Role.Curator);
        var (first, second) = (await one.GetPageAsync($"{address}/name"), await other.GetPageAsync($"{address}/name"));

        var answers = await Task.WhenAll(
            one.SubmitAsync(first, "form.form", [("Name", "Centaurea diffusa Lam."), ("IdentifiedBy", "A")]),
            other.SubmitAsync(second, "form.form", [("Name", "Centaurea virgata Lam."), ("IdentifiedBy", "B")]));

        // One after the other is fine too; whoever is told "somebody else" has saved nothing.
        var saved = answers.Count(answer => answer.Status == HttpStatusCode.Found);
        Assert.InRange(saved, 1, 2);
        Assert.Equal(1 + saved, await server.InRegisterAsync(db => db.Determinations.CountAsync(
            d => db.Specimens.Any(s => s.Id == d.SpecimenId && s.CatalogNumber == number))));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Another_sheet_of_the_gathering_is_proposed_and_never_renamed_by_itself()
    {
        var (address, number) = await NumberedAsync("duplicates", sheets: 2);
        var other = number[..^1] + "2";
        using var curator = await server.SignInAsync(Role.Curator);

        await RecordAsync(curator, address, [("Name", "Centaurea diffusa Lam."), ("IdentifiedBy", "B. Vetch")]);

        Assert.Equal("Centaurea stoebe L.", await CurrentAsync(other));
        var proposed = (await curator.GetPageAsync($"{address}/name")).One($"a[href*='{other}']").GetAttribute("href")!;
        var form = await curator.GetPageAsync(proposed);
        Assert.Equal("Centaurea diffusa Lam.", form.One("#Name").GetAttribute("value"));
        Assert.NotNull(form.One("input[name=SeenOn][value=Duplicate]").GetAttribute("checked"));
    }

    [Fact]
    public async Task A_sheet_lies_under_the_old_name_until_somebody_refiles_it()
    {
        var (address, number) = await NumberedAsync("refile");
        using var technician = await server.SignInAsync(Role.Technician);
        using var curator = await server.SignInAsync(Role.Curator);
        Assert.Empty((await technician.SubmitAsync(
            await technician.GetPageAsync(address), "form[action='/refile']")).Refusals);
        Assert.Contains("Filed as Centaurea stoebe", (await technician.GetPageAsync(address)).Text, StringComparison.Ordinal);

        await RecordAsync(curator, address, [("Name", "Centaurea diffusa Lam."), ("IdentifiedBy", "B. Vetch")]);

        Assert.Contains("To refile", (await technician.GetPageAsync(address)).Text, StringComparison.Ordinal);
        Assert.Contains("Refile", (await technician.GetPageAsync("/")).Text, StringComparison.Ordinal);
        var list = await technician.GetPageAsync("/refile");
        var id = list.All("main tbody tr").Single(r => r.TextContent.Contains(number, StringComparison.Ordinal))
            .QuerySelector("input[name=specimen]")!.GetAttribute("value");
        Assert.Empty((await technician.SubmitAsync(list, $"form:has(input[value='{id}'])")).Refusals);
        Assert.DoesNotContain((await technician.GetPageAsync("/refile")).All("main tbody tr"), Names(number));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    // The page says what was done to the sheet, above the list it has left.
    private static Predicate<IElement> Names(string number) =>
        row => row.TextContent.Contains(number, StringComparison.Ordinal);

    // "not X" is an opinion of its own kind in herbaria (haud, non); that it names nothing is the word's meaning, that it
    // stays off an archive because Darwin Core's Identification is a taxonomic determination (its definition, from memory).
    [Fact]
    public async Task That_it_is_not_what_it_was_named_is_on_record_and_names_nothing()
    {
        var (address, number) = await NumberedAsync("rejected");
        using var determiner = await server.SignInAsync(Role.Determiner);
        using var curator = await server.SignInAsync(Role.Curator);
        (string, string)[] slip =
        [
            ("Kind", "Rejection"), ("Name", "Centaurea solstitialis L."), ("IdentifiedBy", "B. Vetch"), ("Date", "2025"),
        ];
        var doubted = await curator.SubmitAsync(
            await curator.GetPageAsync($"{address}/name"), "form.form", [.. slip, ("Qualifier", "cf.")]);
        Assert.Contains("denied or doubted, not both", Assert.Single(doubted.Refusals), StringComparison.Ordinal);

        // A curator who leaves the tick where it stands renames nothing.
        var said = await curator.FollowAsync(await curator.SubmitAsync(
            await curator.GetPageAsync($"{address}/name"), "form.form", [.. slip, ("Counts", "true")]));
        await RecordAsync(determiner, address, [("Kind", "Rejection"), ("Name", "Centaurea stoebe L."), ("Reason", "bracts spiny")]);

        Assert.Contains("That it is not Centaurea solstitialis L. is on record. The current name is still Centaurea stoebe L.,", said.Source, StringComparison.Ordinal);
        Assert.Equal("Centaurea stoebe L.", await CurrentAsync(number));
        var page = await curator.GetPageAsync(address);
        Assert.Contains("not Centaurea solstitialis L. name denied by B. Vetch, 2025", page.Text, StringComparison.Ordinal);
        Assert.Contains("Said not to be Centaurea solstitialis L. by B. Vetch", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(number, (await curator.GetPageAsync("/specimens?q=solstitialis")).Text, StringComparison.Ordinal);

        var names = await curator.GetPageAsync($"{address}/name");
        Assert.Single(names.All("ol.names form"));      // what the determiner said waits, to be noted and no more
        Assert.Empty(names.All("ol.names button[value=true]"));
        var waiting = await curator.GetPageAsync("/opinions");
        var row = waiting.All("main tbody tr").Single(r => r.TextContent.Contains(number, StringComparison.Ordinal));
        Assert.Contains("not Centaurea stoebe", row.TextContent, StringComparison.Ordinal);
        Assert.Null(row.QuerySelector("button[value=true]"));
        var id = row.QuerySelector("input[name=determination]")!.GetAttribute("value")!;
        var token = names.All("input[name=__RequestVerificationToken]")[0].GetAttribute("value")!;
        using var forced = await curator.Http.PostAsync(
            new Uri(server.Address, $"{address}/name?handler=Choose"), new FormUrlEncodedContent(
                [new("determination", id), new("counts", "true"), new("__RequestVerificationToken", token)]));
        Assert.Equal(HttpStatusCode.Conflict, forced.StatusCode);
        Assert.Empty((await curator.SubmitAsync(waiting, $"form:has(input[value='{id}'][name=determination])")).Refusals);
        Assert.DoesNotContain((await curator.GetPageAsync("/opinions")).All("main tbody tr"), Names(number));
        Assert.Equal("Centaurea stoebe L.", await CurrentAsync(number));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private async Task<(string Address, string Number)> NumberedAsync(string text, int sheets = 1)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"naming {text}"));
        using var technician = await server.SignInAsync(Role.Technician);
        using var scanner = new Scanner(technician, pile);
        for (var sheet = 0; sheet < sheets; sheet++)
        {
            Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);
        }

        return ($"/specimen/{pile.Code(1)}", pile.Code(1));
    }

    private static async Task RecordAsync(Visitor visitor, string address, (string, string)[] fields)
    {
        var answer = await visitor.SubmitAsync(await visitor.GetPageAsync($"{address}/name"), "form.form", fields);
        Assert.Empty(answer.Refusals);
        Assert.Equal(HttpStatusCode.Found, answer.Status);
    }

    private static async Task ChooseAsync(Visitor curator, string address, string name)
    {
        var page = await curator.GetPageAsync($"{address}/name");
        var id = page.All("ol.names li").First(li => li.TextContent.Contains(name, StringComparison.Ordinal))
            .QuerySelector("input[name=determination]")!.GetAttribute("value");
        var form = $"form:has(input[value='{id}'])";
        Assert.Empty((await curator.SubmitAsync(page, form, press: $"{form} button[value=true]")).Refusals);
    }

    private Task<string> CurrentAsync(string number) => server.InRegisterAsync(db =>
        db.Specimens.Where(s => s.CatalogNumber == number).Select(s => s.CurrentName).SingleAsync());
}
