using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Tests.Stores;

namespace Accession.Server.Tests.Hosting;

/// <summary>What the proxy says of a visitor is believed where a setting names the proxy, and nowhere else.</summary>
public static class TrustedProxyTests
{
    private const int TriesPerMinute = 60;

    [Trait("Store", "sqlite")]
    public sealed class Behind(ServerBehindProxy server) : IClassFixture<ServerBehindProxy>
    {
        [Fact]
        public async Task Links_begin_with_https() => Assert.Equal("https", (await LinkAsync(server)).Scheme);

        [Fact]
        public async Task Visitors_are_counted_one_by_one()
        {
            for (var i = 0; i < (2 * TriesPerMinute) + 1; i++)
            {
                using var visitor = server.Stranger();
                visitor.Http.DefaultRequestHeaders.Add("X-Forwarded-For", $"192.0.2.{i}");   // RFC 5737: for documents
                Assert.Equal(HttpStatusCode.OK, (await visitor.GetPageAsync("/sign-in")).Status);
            }
        }
    }

    [Trait("Store", "sqlite")]
    public sealed class Alone(ServerOnSqlite server) : IClassFixture<ServerOnSqlite>
    {
        [Fact]
        public async Task Nobody_is_believed() => Assert.Equal("http", (await LinkAsync(server)).Scheme);
    }

    // The form is fetched in plain HTTP: over HTTPS its cookie would be kept to HTTPS, which the test does not speak.
    private static async Task<Uri> LinkAsync(TestServer server)
    {
        using var administrator = await server.SignInAsync(Role.Administrator);
        var form = await administrator.GetPageAsync("/accounts");
        administrator.Http.DefaultRequestHeaders.Add("X-Forwarded-Proto", "https");
        var made = await administrator.SubmitAsync(
            form, "form.form",
            [("DisplayName", "Fern Alder"), ("UserName", $"{Guid.NewGuid():N}@example.org"), ("Roles", nameof(Role.Technician))]);
        Assert.Empty(made.Refusals);
        return new Uri(made.One(".said code").TextContent);
    }

    /// <summary>The program behind a proxy on this machine.</summary>
    public sealed class ServerBehindProxy() : TestServer(new SqliteTestStore())
    {
        protected override IReadOnlyList<string> Set => ["Server:Proxy=127.0.0.1"];

        protected override int TriesPerMinute => TrustedProxyTests.TriesPerMinute;
    }
}
