using System.Text.RegularExpressions;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests;

[Trait("Store", "sqlite")]
public sealed class SwappedUsersOnSqlite(ServerOnSqlite server) : SwappedUsersTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class SwappedUsersOnPostgreSql(ServerOnPostgreSql server)
    : SwappedUsersTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// Two people of one kind, each at every address of the other's things: what is not theirs answers to the letter as
/// what is not there. A new page is walked without a new line here.
/// </summary>
public abstract partial class SwappedUsersTests(TestServer server)
{
    // Invented people and places in real counties.
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets
        Ada Quill,11,2024-06-14,United States,Oregon,Harney,Dry wash at the weir,Poa secunda J.Presl,1
        Orla Finch,13,2024-06-16,United States,Nevada,Lincoln,Playa by the kiln,Bromus tectorum L.,1
        """;

    [Theory]
    [InlineData(Role.Collector)]
    [InlineData(Role.WeedOfficer)]
    public async Task What_is_not_theirs_looks_like_what_is_not_there(Role role)
    {
        using var others = await TheirsAsync(role, "on pages");
        List<string> wrong = [];
        var theirs = 0;
        foreach (var door in (await Endpoints.OfAsync(server)).Where(IsOfSomething))
        {
            var (at, nowhere) = (others.AddressOf(door.Address), Others.NowhereOf(door.Address));
            if (door.Method == "GET" && (await AskAsync(others.Owner.Visitor, door.Method, at)).StartsWith("200", StringComparison.Ordinal))
            {
                theirs++;
            }

            var (seen, absent) = (
                await AskAsync(others.Stranger.Visitor, door.Method, at),
                await AskAsync(others.Stranger.Visitor, door.Method, nowhere));
            if (others.WithoutValues(seen) != others.WithoutValues(absent))
            {
                wrong.Add($"{door.Method} {door.Address}: \"{seen}\", and of nothing \"{absent}\"");
            }

            wrong.AddRange(Others.Secrets.Where(seen.Contains).Select(word => $"{door.Method} {door.Address} says {word}"));
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        // The owner's sheet by its number and by its place among the sheets of that number, or nothing was asked.
        Assert.True(theirs >= 1, "The owner saw nothing either.");
    }

    [Theory]
    [InlineData(Role.Collector, Right.ReadCollected)]
    [InlineData(Role.WeedOfficer, Right.ReadCounties)]
    public async Task To_their_programs_too_what_is_not_theirs_looks_like_what_is_not_there(Role role, Right right)
    {
        using var others = await TheirsAsync(role, "by program");
        using var owner = await ProgramOfAsync(others.Owner, right);
        using var stranger = await ProgramOfAsync(others.Stranger, right);
        List<string> wrong = [];
        var doors = (await Endpoints.OfAsync(server))
            .Where(door => door.Address.StartsWith("/api/v1/", StringComparison.Ordinal));
        foreach (var door in doors)
        {
            var seen = await AskAsync(stranger, door.Method, others.AddressOf(door.Address, 3));
            var absent = await AskAsync(stranger, door.Method, Others.NowhereOf(door.Address));
            if (others.WithoutValues(seen) != others.WithoutValues(absent))
            {
                wrong.Add($"{door.Method} {door.Address}: \"{seen}\", and of nothing \"{absent}\"");
            }

            wrong.AddRange(Others.Secrets.Where(seen.Contains).Select(word => $"{door.Method} {door.Address} says {word}"));
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        await SeesAsPagesDoAsync(others, owner, stranger);
    }

    // The lists hold what the lists on pages hold, and a question for another's number is answered as for nobody's.
    private static async Task SeesAsPagesDoAsync(Others others, JsonProgram owner, JsonProgram stranger)
    {
        var code = others.Of["specimen"];
        var sheet = await owner.GetAsync($"/api/v1/specimens/{code}");
        Assert.Contains("Playa by the kiln", sheet.Text, StringComparison.Ordinal);
        foreach (var (program, person) in new[] { (owner, others.Owner), (stranger, others.Stranger) })
        {
            var page = (await person.Visitor.GetPageAsync("/specimens")).All("main tbody th a").Select(cell => cell.TextContent.Trim());
            var list = (await program.GetAsync("/api/v1/specimens?limit=50")).Items
                .Select(item => item.GetProperty("catalogNumber").GetString()!);
            Assert.Equal(page, list);
            Assert.Equal(program == owner, list.Contains(code));
        }

        Assert.Equal(
            (await stranger.GetAsync("/api/v1/specimens?q=DEMO-H9999999")).Text,
            (await stranger.GetAsync($"/api/v1/specimens?q={code}")).Text);
    }

    // Made on the page, where nothing else can be chosen.
    private async Task<JsonProgram> ProgramOfAsync(Newcomer person, Right right)
    {
        var page = await person.Visitor.GetPageAsync("/account/tokens");
        Assert.Equal([right.ToString()], page.All("input[name=Chosen]").Select(box => box.GetAttribute("value")!));
        var made = await person.Visitor.SubmitAsync(
            page, "form:has(#Name)", [("Name", "my script"), ("Chosen", right.ToString()), ("Days", "7")]);
        return new(server.Address, made.One("section.said code").TextContent);
    }

    private static async Task<string> AskAsync(JsonProgram program, string method, string address)
    {
        using var content = new StringContent("{}", System.Text.Encoding.UTF8, "application/json");
        var answer = method == "GET"
            ? await program.GetAsync(address)
            : await program.PostAsync(address, content, JsonProgram.Key());
        return $"{(int)answer.Status} {answer.Text}";
    }

    private static bool IsOfSomething(Entrance door) =>
        door.Address.Contains('{', StringComparison.Ordinal)
        && !door.Address.StartsWith("/api/", StringComparison.Ordinal)
        && !door.Address.StartsWith("/sign-in/", StringComparison.Ordinal);

    // Everything of a gathering in one county whose collector and whose weed officer have an account, and their twins.
    private async Task<Others> TheirsAsync(Role role, string by)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (ada, orla) = ($"{role} Ada {by}", $"{role} Orla {by}");
        var pile = await Pile.TakeInAsync(server, curator, InventedNames
            .OfAnother(List.Replace("Finch", "@", StringComparison.Ordinal), ada)
            .Replace("@", InventedNames.FamilyOf(orla), StringComparison.Ordinal));
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        foreach (var gathering in pile.Gatherings)
        {
            Assert.Empty((await scanner.NextAsync(gathering)).Refusals);
        }

        var stranger = await Newcomers.LetInAsync(server, "Reed Here", role, role == Role.WeedOfficer ? "Harney, Oregon" : "");
        var owner = await Newcomers.LetInAsync(server, "Reed There", role, role == Role.WeedOfficer ? "Lincoln, Nevada" : "");
        var person = await OnRecordAsync(curator, $"Orla {InventedNames.FamilyOf(orla)}", owner, role);
        await OnRecordAsync(curator, $"Ada {InventedNames.FamilyOf(ada)}", stranger, role);
        var (code, gatheringId) = (pile.Code(2), pile.Gatherings[1]);
        var part = await server.InRegisterAsync(db => db.Parts.Where(p => p.Code == code).Select(p => p.Id).SingleAsync());
        return new(stranger, owner, new Dictionary<string, string>
        {
            ["specimen"] = code,
            ["gathering"] = $"{gatheringId}",
            ["part"] = $"{part}",
            ["accession"] = pile.Accession,
            ["batche"] = pile.BatchPath.Split('/')[^1],
            ["batch"] = pile.BatchPath.Split('/')[^1],
            ["collector"] = person,
            ["accounts"] = owner.Id,
        });
    }

    private static async Task<string> OnRecordAsync(Visitor curator, string name, Newcomer account, Role role)
    {
        var made = await curator.SubmitAsync(await curator.GetPageAsync("/collectors"), "form.form", [("Name", name)]);
        Assert.Empty(made.Refusals);
        var address = made.Location!;
        if (role == Role.Collector)
        {
            var known = await curator.SubmitAsync(
                await curator.GetPageAsync(address), "form:has(input[name=spellings])", [("spellings", name)]);
            Assert.Empty(known.Refusals);
            var tied = await curator.SubmitAsync(
                await curator.GetPageAsync(address), "form[action$='handler=Tie']",
                [("account", account.Id), ("how", "came with the parcel")]);
            Assert.Empty(tied.Refusals);
        }

        return address.Split('/')[^1];
    }

    // Status, where it leads to, and every word of the page.
    private static async Task<string> AskAsync(Visitor visitor, string method, string address)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), new Uri(visitor.Http.BaseAddress!, address));
        if (method != "GET")
        {
            const string name = "__RequestVerificationToken";
            var token = (await visitor.GetPageAsync("/account")).All($"input[name={name}]")[0].GetAttribute("value")!;
            request.Content = new FormUrlEncodedContent([KeyValuePair.Create(name, token)]);
        }

        using var answer = await visitor.Http.SendAsync(request);
        var page = await Page.ReadAsync(answer);
        var leadsTo = answer.Headers.Location?.ToString()
            .Replace(Uri.EscapeDataString(address), "HERE", StringComparison.Ordinal);
        return $"{(int)answer.StatusCode} {leadsTo} {Reference().Replace(page.Text, "")}";
    }

    // What a person can read out to the administrator; another one each time.
    [GeneratedRegex("Reference: .*")]
    private static partial Regex Reference();

    /// <summary>Somebody's things, and another of the same kind who must not see them.</summary>
    private sealed record Others(Newcomer Stranger, Newcomer Owner, IReadOnlyDictionary<string, string> Of) : IDisposable
    {
        public static readonly string[] Secrets = ["Playa by the kiln", "Bromus tectorum", "Lincoln"];

        private const string None = "999999999";

        /// <param name="route">The address, as its route is written.</param>
        /// <param name="subject">Which of its parts says what it is of.</param>
        public string AddressOf(string route, int subject = 1) =>
            Filled(route, Of.GetValueOrDefault(route.Split('/')[subject].TrimEnd('s'), Of.GetValueOrDefault(route.Split('/')[subject], "1")));

        public static string NowhereOf(string route) => Filled(route, None);

        public string WithoutValues(string answer) => Of.Values.Where(value => value.Length > 3).Append(None)
            .Aggregate(answer, (text, value) => text.Replace(value, "N", StringComparison.Ordinal));

        public void Dispose()
        {
            Stranger.Dispose();
            Owner.Dispose();
        }

        // The first parameter says which; those behind it, which of them.
        private static string Filled(string route, string value)
        {
            var filled = value;
            return string.Join('/', route.Split('/').Select(part =>
            {
                if (!part.StartsWith('{'))
                {
                    return part;
                }

                var here = filled + part[(part.IndexOf('}') + 1)..];
                filled = "1";
                return here;
            }));
        }
    }
}
