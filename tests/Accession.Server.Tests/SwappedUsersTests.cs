using System.Text.RegularExpressions;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
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
        using var others = await TheirsAsync(role);
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

    private static bool IsOfSomething(Entrance door) =>
        door.Address.Contains('{', StringComparison.Ordinal)
        && !door.Address.StartsWith("/api/", StringComparison.Ordinal)
        && !door.Address.StartsWith("/sign-in/", StringComparison.Ordinal);

    // Everything of a gathering in one county whose collector and whose weed officer have an account, and their twins.
    private async Task<Others> TheirsAsync(Role role)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (ada, orla) = ($"{role} Ada", $"{role} Orla");
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

        public string AddressOf(string route) => Filled(route, Of.GetValueOrDefault(route.Split('/')[1], "1"));

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
