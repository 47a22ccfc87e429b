using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class ProtectedPlaceOnSqlite(TalkativeOnSqlite server)
    : ProtectedPlaceTests(server), IClassFixture<TalkativeOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ProtectedPlaceOnPostgreSql(TalkativeOnPostgreSql server)
    : ProtectedPlaceTests(server), IClassFixture<TalkativeOnPostgreSql>;

/// <summary>Walks every page that a role can reach and looks for an unmistakable place.</summary>
public abstract class ProtectedPlaceTests(TalkativeServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Municipality,Locality,Habitat,Remarks,Lat,Long,Elev (ft),Species,Sheets
        Orla Finch,701,2024-06-14,United States,Oregon,Harney,Quillborough,Zephyrine Gulch,Xanthic talus,Umbrine scent,43.58642,-119.05417,4123,Artemisia tridentata Nutt.,3
        Orla Finch,702,2024-06-14,United States,Oregon,Harney,,Open plain,,,,,,Poa secunda J.Presl,1
        """;

    private static readonly string[] Secrets =
        ["Quillborough", "Zephyrine", "Xanthic", "Umbrine", "58642", "05417", "4123", "4,123", "1256", "1,256"];

    [Fact]
    public async Task A_protected_place_leaves_the_server_only_by_the_look_of_a_curator()
    {
        using var said = new Listener();
        server.App.Services.GetRequiredService<ILoggerFactory>().AddProvider(said);
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 11, 20);
        using var technician = await server.SignInAsync(Role.Technician);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.ScanAsync(pile.Code(11), pile.Gatherings[0]);
        var open = await technician.GetPageAsync($"/specimen/{pile.Code(11)}");
        Assert.All(["Zephyrine", "Xanthic", "58642"], word => Assert.Contains(word, open.Source, StringComparison.Ordinal));

        var protection = $"/gathering/{pile.Gatherings[0]}/protection";
        await DecideAsync(curator, protection, "High");

        // Nobody's pages have it; a curator's rows as received do, and only those.
        var seen = await WalkAsync(technician);
        Assert.Contains($"/specimen/{pile.Code(11)}", seen);
        await WalkAsync(await server.SignInAsync(Role.Administrator));
        await WalkAsync(curator, except: "/batch");
        Silent(await scanner.ScanAsync("701", pile.Gatherings[1]));
        Silent(await scanner.NextAsync(pile.Gatherings[0]));
        Silent(await scanner.ScanAsync(pile.Code(12), pile.Gatherings[0]));
        Silent(await technician.GetPageAsync("/specimens?q=Finch+701"));
        Silent(await technician.GetPageAsync($"/accession/{pile.Accession}/numbering?gathering={pile.Gatherings[0]}"));
        foreach (var door in new[] { "", "/rows", "/rows?show=all", "/problems.csv", "/columns", "/take-in" })
        {
            var answer = await technician.GetPageAsync(pile.BatchPath + door);
            Assert.True(answer.Status is HttpStatusCode.Found or HttpStatusCode.Forbidden, $"{door}: {answer.Status}");
            Silent(answer);
        }

        Assert.Contains("Zephyrine", (await curator.GetPageAsync($"{pile.BatchPath}/rows?show=all")).Source
            + (await curator.GetPageAsync($"{pile.BatchPath}/rows")).Source, StringComparison.Ordinal);

        // The look: a curator's, and an act on record without what was seen.
        foreach (var handler in new[] { "?handler=Look", "" })
        {
            using var fields = new FormUrlEncodedContent([new("Category", "NotSensitive"), new("Reason", "curious")]);
            using var refused = await technician.Http.PostAsync(
                new Uri(server.Address, protection + handler), fields, TestContext.Current.CancellationToken);
            Assert.True(refused.StatusCode is HttpStatusCode.Found or HttpStatusCode.Forbidden or HttpStatusCode.BadRequest);
            Assert.DoesNotContain("Zephyrine", await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        }

        Assert.Equal(0, await LooksAsync(pile));
        var look = await curator.SubmitAsync(await curator.GetPageAsync(protection), "form[action$='handler=Look']");
        Assert.All(
            ["Quillborough", "Zephyrine", "Xanthic", "Umbrine", "58642", "4123"],
            word => Assert.Contains(word, look.Source, StringComparison.Ordinal));
        Assert.Equal(1, await LooksAsync(pile));
        var acts = await server.InRegisterAsync(db => db.Acts.Select(act => act.What + act.Reason + act.Answer).ToListAsync());
        Assert.All(Secrets, secret => Assert.DoesNotContain(acts, act => act.Contains(secret, StringComparison.Ordinal)));
        Assert.Empty(await Pile.VerifyAsync(server));

        // Protection that is lifted gives back what was there.
        await DecideAsync(curator, protection, "Medium");
        await DecideAsync(curator, protection, "NotSensitive");
        var lifted = await technician.GetPageAsync($"/specimen/{pile.Code(11)}");
        Assert.Equal(open.One("article.label").TextContent, lifted.One("article.label").TextContent);
        Assert.Empty(await Pile.VerifyAsync(server));

        // Everything was logged, statements too, and nothing of the place.
        Assert.Contains(said.Lines, line => line.Contains("INSERT INTO", StringComparison.Ordinal));
        Assert.All(
            Secrets[..6], secret => Assert.DoesNotContain(said.Lines, line => line.Contains(secret, StringComparison.Ordinal)));
    }

    private Task<int> LooksAsync(Pile pile) => server.InRegisterAsync(db => db.Acts.CountAsync(
        act => act.What == "look at an exact place" && act.Reason == $"gathering {pile.Gatherings[0]}"
            && act.ActorName == TestServer.DisplayName(Role.Curator)));

    private static async Task DecideAsync(Visitor curator, string protection, string category)
    {
        var answer = await curator.SubmitAsync(await curator.GetPageAsync(protection), "form.form",
            [("Category", category), ("ReviewOn", "2030-01-01"), ("Reason", "collectors dig it up")]);
        Assert.Empty(answer.Refusals);
        Assert.Equal(HttpStatusCode.Found, answer.Status);
    }

    private static async Task<HashSet<string>> WalkAsync(Visitor visitor, string except = "/no such page")
    {
        var seen = new HashSet<string> { "/" };
        var waiting = new Queue<string>(seen);
        while (waiting.TryDequeue(out var path))
        {
            var page = await visitor.GetPageAsync(path);
            Silent(page);
            foreach (var link in page.All("a[href^='/']").Select(a => a.GetAttribute("href")!)
                .Append(page.Location is { } location && location.StartsWith('/') ? location : "/"))
            {
                if (!link.StartsWith(except, StringComparison.Ordinal) && seen.Count < 500 && seen.Add(link))
                {
                    waiting.Enqueue(link);
                }
            }
        }

        return seen;
    }

    // Random keys and tokens may hold any digits, so what a person does not read is left out for numbers.
    private static void Silent(Page page)
    {
        var readable = page.Html.Body is null ? page.Source : page.Html.Body.TextContent;
        Assert.All(Secrets, secret => Assert.DoesNotContain(
            secret, char.IsDigit(secret[0]) ? readable : page.Source, StringComparison.Ordinal));
    }
}
