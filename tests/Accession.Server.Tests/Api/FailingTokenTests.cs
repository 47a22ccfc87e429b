using System.Net;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class FailingTokenOnSqlite(ServerOnSqlite server)
    : FailingTokenTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class FailingTokenOnPostgreSql(ServerOnPostgreSql server)
    : FailingTokenTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Whoever guesses at tokens is slowed down; on a server of its own, since it slows all down who fail there.</summary>
public abstract class FailingTokenTests(TestServer server)
{
    // As many as one address may try in a minute; a window may end between two of them.
    private const int FailingTokensAMinute = 30;
    private const string Specimens = "/api/v1/specimens";

    [Fact]
    public async Task Tokens_that_open_nothing_are_slowed_down_and_those_that_open_are_not()
    {
        using var wrong = new JsonProgram(server.Address, new string('0', 64));
        using var right = await JsonProgram.DeviceAsync(server, "Right", [Right.ReadRegister]);
        List<JsonAnswer> answers = [];
        for (var i = 0; i <= FailingTokensAMinute * 2; i++)
        {
            answers.Add(await wrong.GetAsync(Specimens));
        }

        Assert.Equal(HttpStatusCode.Unauthorized, answers[0].Status);
        var slowed = answers.First(answer => answer.Status == HttpStatusCode.TooManyRequests);
        Assert.Equal("application/problem+json", slowed.MediaType);
        Assert.Equal(TimeSpan.FromSeconds(60), slowed.Headers.RetryAfter!.Delta);
        Assert.Equal(HttpStatusCode.OK, (await right.GetAsync(Specimens)).Status);
    }
}
