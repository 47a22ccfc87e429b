using System.Net;
using System.Net.Sockets;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;

namespace Accession.Server.Tests.Hosting;

[Trait("Store", "sqlite")]
public sealed class DoorOnSqlite(ServerOnSqlite server) : DoorTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class DoorOnPostgreSql(ServerOnPostgreSql server) : DoorTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>What holds for every address alike.</summary>
public abstract class DoorTests(TestServer server)
{
    [Fact]
    public async Task An_unknown_page_says_so()
    {
        using var visitor = await server.SignInAsync(Role.Technician);

        var page = await visitor.GetPageAsync("/there-is-no-such-thing");

        Assert.Equal(HttpStatusCode.NotFound, page.Status);
        Assert.Equal("There is no such page", page.Heading);
    }

    [Theory]
    [InlineData("/batch/1?handler=NoSuchThing")]
    [InlineData("/progress/1")]
    [InlineData("/specimens")]
    public async Task A_post_that_no_page_knows_is_not_found(string address)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var token = (await curator.GetPageAsync("/account")).All("input[name=__RequestVerificationToken]")[0];
        using var form = new FormUrlEncodedContent(
            [new("__RequestVerificationToken", token.GetAttribute("value")!)]);

        using var answer = await curator.Http.PostAsync(
            new Uri(server.Address, address), form, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    public async Task A_stranger_is_led_to_the_sign_in_page()
    {
        using var stranger = server.Stranger();

        var page = await stranger.FollowAsync(await stranger.GetPageAsync("/"));

        Assert.Equal("/sign-in", page.Address.AbsolutePath);
        Assert.Equal("Sign in", page.Heading);
    }

    [Fact]
    public async Task A_form_that_is_not_ours_is_refused_in_plain_words()
    {
        using var visitor = await server.SignInAsync(Role.Administrator);
        using var form = new FormUrlEncodedContent([new("UserName", "intruder")]);

        using var answer = await visitor.Http.PostAsync(new Uri(server.Address, "/accounts"), form);

        var page = await Page.ReadAsync(answer);
        Assert.Equal(HttpStatusCode.BadRequest, page.Status);
        Assert.Equal("The form was too old or incomplete", page.Heading);
    }

    [Fact]
    public async Task The_health_of_the_register_is_told_to_everybody()
    {
        using var stranger = server.Stranger();

        Assert.Equal("Healthy", await stranger.Http.GetStringAsync(new Uri(server.Address, "/health")));
    }

    [Theory]
    [InlineData("/sign-in")]
    [InlineData("/there-is-no-such-thing")]
    [InlineData("/dist/main.css")]
    [InlineData("/health")]
    public async Task Every_answer_tells_the_browser_to_ask_nobody_else(string path)
    {
        using var visitor = await server.SignInAsync(Role.Curator);

        using var answer = await visitor.Http.GetAsync(new Uri(server.Address, path));

        Assert.StartsWith(
            "default-src 'self';", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")),
            StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal("same-origin", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Fact]
    public async Task Two_gigabytes_are_refused_before_a_byte_of_them_is_read()
    {
        using var client = new TcpClient();
        await client.ConnectAsync(server.Address.Host, server.Address.Port);
        await using var stream = client.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(
            $"POST /sign-in HTTP/1.1\r\nHost: {server.Address.Authority}\r\nContent-Length: 2147483648\r\n"
            + "Content-Type: application/x-www-form-urlencoded\r\n\r\n"));
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(10));
        using var reader = new StreamReader(stream);

        var answer = await reader.ReadToEndAsync(patience.Token);

        Assert.StartsWith("HTTP/1.1 413 ", answer, StringComparison.Ordinal);
        Assert.Contains("The file is too large", answer, StringComparison.Ordinal);
        Assert.Contains("Files up to 200 MB are taken", answer, StringComparison.Ordinal);
    }
}
