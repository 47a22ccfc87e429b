using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class ProtectionPageOnSqlite(ServerOnSqlite server)
    : ProtectionPageTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ProtectionPageOnPostgreSql(ServerOnPostgreSql server)
    : ProtectionPageTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Whoever looks at a decision again sees what was decided, when it is due, and why.</summary>
public abstract class ProtectionPageTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets
        Orla Finch,711,2024-06-14,United States,Oregon,Harney,Dry wash,Poa secunda J.Presl,1
        """;

    [Fact]
    public async Task The_decision_in_force_and_the_earlier_ones_stand_on_the_page()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List);
        var path = $"/gathering/{pile.Gatherings[0]}/protection";
        Assert.Contains("No decision", (await curator.GetPageAsync(path)).One("#in-force").TextContent, StringComparison.Ordinal);

        await DecideAsync(curator, path, "High", "2031-03-09", "collectors dig it up");
        var first = await curator.GetPageAsync(path);
        var inForce = Words(first, "#in-force");
        Assert.Contains("a cell of 0.1 degrees", inForce, StringComparison.Ordinal);
        Assert.Contains("9 Mar 2031", inForce, StringComparison.Ordinal);
        Assert.Contains("collectors dig it up", inForce, StringComparison.Ordinal);
        Assert.Contains("Test Curator", inForce, StringComparison.Ordinal);
        Assert.DoesNotContain("is due", inForce, StringComparison.Ordinal);
        Assert.Empty(first.All("#earlier"));

        // The form begins with what holds, so that only what is to change has to be typed.
        Assert.Equal("2031-03-09", first.One("input[name=ReviewOn]").GetAttribute("value"));
        Assert.Equal("High", first.One("input[name=Category][checked]").GetAttribute("value"));

        // Looked at and kept: the same category until a later day is a decision too, the very same one is not.
        await DecideAsync(curator, path, "High", "2020-02-03", "still dug up");
        var again = await curator.SubmitAsync(await curator.GetPageAsync(path), "form.form", [("Reason", "once more")]);
        Assert.Equal(HttpStatusCode.Conflict, again.Status);
        var second = await curator.GetPageAsync(path);
        inForce = Words(second, "#in-force");
        Assert.Contains("still dug up", inForce, StringComparison.Ordinal);
        Assert.Contains("3 Feb 2020", inForce, StringComparison.Ordinal);
        Assert.Contains("is due", inForce, StringComparison.Ordinal);
        Assert.DoesNotContain("collectors dig it up", inForce, StringComparison.Ordinal);
        var earlier = Assert.Single(second.All("#earlier li")).TextContent;
        Assert.Contains("collectors dig it up", earlier, StringComparison.Ordinal);
        Assert.Contains("9 Mar 2031", earlier, StringComparison.Ordinal);

        await DecideAsync(curator, path, "NotSensitive", "", "gone from there");
        var lifted = await curator.GetPageAsync(path);
        Assert.Contains("everything, as held", Words(lifted, "#in-force"), StringComparison.Ordinal);
        Assert.Contains("gone from there", Words(lifted, "#in-force"), StringComparison.Ordinal);
        Assert.Equal(2, lifted.All("#earlier li").Count);
        Assert.Contains("still dug up", lifted.All("#earlier li")[0].TextContent, StringComparison.Ordinal);
    }

    private static string Words(Page page, string selector) => string.Join(
        ' ', page.One(selector).TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static async Task DecideAsync(Visitor curator, string path, string category, string review, string reason)
    {
        var answer = await curator.SubmitAsync(await curator.GetPageAsync(path), "form.form",
            [("Category", category), ("ReviewOn", review), ("Reason", reason)]);
        Assert.Empty(answer.Refusals);
        Assert.Equal(HttpStatusCode.Found, answer.Status);
    }
}
