using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class PrivateLinkOnSqlite(ServerOnSqlite server) : PrivateLinkTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class PrivateLinkOnPostgreSql(ServerOnPostgreSql server)
    : PrivateLinkTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Whoever has the link of a receipt sees where each number is, and nothing else; without it there is nothing.</summary>
public abstract class PrivateLinkTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Habitat,Lat,Long,Species,Sheets
        Orla Finch,861,2024-06-14,United States,Oregon,Harney,Zephyrine Gulch,Xanthic talus,43.58642,-119.05417,Poa secunda J.Presl,2
        Orla Finch,862,2024-06-14,United States,Oregon,Harney,Quillwater rim,Talus,43.6,-119.1,Bromus tectorum L.,1
        """;

    [Fact]
    public async Task A_batch_is_followed_without_an_account_and_without_a_place()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"{GetType().Name} batch"));
        var other = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"{GetType().Name} other"));
        await Bench.RegisterRollAsync(curator, pile.Prefix, 1, 10);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.ScanAsync(pile.Code(1), pile.Gatherings[0]);

        var making = await curator.GetPageAsync($"{pile.BatchPath}/private-link");
        var made = await curator.SubmitAsync(making, "form[action$='handler=Link']");
        var link = new Uri(made.One("#private-link").TextContent).AbsolutePath;
        Assert.Matches("^/to/[0-9a-f]{64}$", link);
        // It is told once: neither the page nor the register has it.
        Assert.DoesNotContain(link, (await curator.GetPageAsync($"{pile.BatchPath}/private-link")).Source, StringComparison.Ordinal);
        Assert.False(await server.InRegisterAsync(db => db.PrivateLinks.AnyAsync(l => l.TokenHash == link.Substring(4))));
        Assert.False(await server.InRegisterAsync(db => db.Acts.AnyAsync(a => a.Answer != null && a.Answer.Contains(link.Substring(4)))));

        using var stranger = server.Stranger();
        var page = await stranger.GetPageAsync(link);
        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains(pile.Code(1), page.Text, StringComparison.Ordinal);
        Assert.Contains("1 sheet here, not numbered yet", page.Text, StringComparison.Ordinal);
        Assert.Contains("to be treated", page.Text, StringComparison.Ordinal);
        Assert.Contains("861", page.Text, StringComparison.Ordinal);
        Assert.Contains("862", page.Text, StringComparison.Ordinal);
        Assert.All(
            ["Zephyrine", "Xanthic", "Quillwater", "Harney", "58642", "Oregon"],
            word => Assert.DoesNotContain(word, page.Source, StringComparison.Ordinal));
        Assert.Equal("no-referrer", page.Headers.GetValues("Referrer-Policy").Single());
        Assert.Contains("noindex", page.Headers.GetValues("X-Robots-Tag").Single(), StringComparison.Ordinal);
        Assert.Empty(page.All("a[href^='/specimen'], a[href^='/accession']"));
        Assert.NotEmpty(other.Gatherings);

        // Withdrawn, wrong and another's are one answer.
        await curator.SubmitAsync(await curator.GetPageAsync($"{pile.BatchPath}/private-link"), "form[action$='handler=Withdraw']");
        var withdrawn = await stranger.GetPageAsync(link);
        var wrong = await stranger.GetPageAsync($"/to/{new string('0', 64)}");
        Assert.Equal((HttpStatusCode.NotFound, HttpStatusCode.NotFound), (withdrawn.Status, wrong.Status));
        Assert.Equal(wrong.Text, withdrawn.Text);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_link_is_withdrawn_only_where_it_belongs()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"{GetType().Name} mine"));
        var other = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"{GetType().Name} yours"));
        await curator.SubmitAsync(await curator.GetPageAsync($"{pile.BatchPath}/private-link"), "form[action$='handler=Link']");
        await curator.SubmitAsync(await curator.GetPageAsync($"{other.BatchPath}/private-link"), "form[action$='handler=Link']");
        var mine = (await curator.GetPageAsync($"{pile.BatchPath}/private-link")).One("input[name=link]").GetAttribute("value")!;
        var refused = await curator.SubmitAsync(
            await curator.GetPageAsync($"{other.BatchPath}/private-link"), "form[action$='handler=Withdraw']", [("link", mine)]);
        Assert.Equal(HttpStatusCode.NotFound, refused.Status);
        Assert.Single((await curator.GetPageAsync($"{pile.BatchPath}/private-link")).All("input[name=link]"));
    }
}
