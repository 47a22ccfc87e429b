using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class SignInOnSqlite(ServerOnSqlite server) : SignInTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class SignInOnPostgreSql(ServerOnPostgreSql server) : SignInTests(server), IClassFixture<ServerOnPostgreSql>;

public abstract class SignInTests(TestServer server)
{
    [Fact]
    public async Task A_link_signs_in_when_its_button_is_pressed()
    {
        using var visitor = server.Stranger();
        var answer = await visitor.ComeInAsync(await server.LinkAsync(Role.Curator));
        Assert.Equal(HttpStatusCode.Found, answer.Status);
        var page = await visitor.FollowAsync(answer);
        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("Test Curator", page.Html.QuerySelector(".who")!.TextContent, StringComparison.Ordinal);
    }
}
