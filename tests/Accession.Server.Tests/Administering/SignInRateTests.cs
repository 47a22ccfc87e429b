using System.Net;
using Accession.Server.Hosting;
using Accession.Server.Tests.Ground;
using Accession.Tests.Stores;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class SignInRateTests(PatientServer server) : IClassFixture<PatientServer>
{
    [Fact]
    public async Task Too_many_tries_are_told_to_wait()
    {
        using var visitor = server.Stranger();
        Page answer;
        var tries = 0;
        do
        {
            answer = await visitor.GetPageAsync("/sign-in");
            tries++;
        }
        while (answer.Status == HttpStatusCode.OK && tries < 200);

        Assert.Equal(HttpStatusCode.TooManyRequests, answer.Status);
        Assert.Equal(TimeSpan.FromSeconds(60), answer.Headers.RetryAfter?.Delta);
        Assert.Equal("Too many tries", answer.Heading);
        Assert.InRange(tries, 61, 121);   // 60 in a minute; the minute may turn while we try
    }
}

/// <summary>The program with as many tries as it permits without a setting.</summary>
public sealed class PatientServer() : TestServer(new SqliteTestStore())
{
    protected override int TriesPerMinute => new SignInOptions().TriesPerMinute;
}
