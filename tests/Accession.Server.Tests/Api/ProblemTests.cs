using System.Net;
using System.Net.Sockets;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class ProblemOnSqlite(ServerOnSqlite server) : ProblemTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ProblemOnPostgreSql(ServerOnPostgreSql server)
    : ProblemTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Whatever goes wrong at a JSON door is told in one form.</summary>
public abstract class ProblemTests(TestServer server)
{
    private static readonly Right[] All = [.. Rights.OfDevices];

    [Fact]
    public async Task Without_a_token_a_program_is_told_how_to_come_in_and_led_nowhere()
    {
        using var stranger = new JsonProgram(server.Address, null);

        foreach (var path in new[] { "/api/v1/specimens", "/api/v1/no-such-thing" })
        {
            var answer = await stranger.GetAsync(path);
            AssertProblem(answer, 401);
            Assert.StartsWith("Bearer", answer.Headers.WwwAuthenticate.ToString(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_cookie_opens_no_json_door_and_a_token_no_page()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var byCookie = await curator.Http.GetAsync(new Uri(server.Address, "/api/v1/specimens"));
        Assert.Equal(HttpStatusCode.Unauthorized, byCookie.StatusCode);

        using var program = await JsonProgram.DeviceAsync(server, "All", All);
        var page = await program.GetAsync("/batches");
        Assert.Equal(HttpStatusCode.Found, page.Status);
        Assert.Contains("/sign-in", page.Headers.Location!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Each_error_of_the_framework_is_a_problem()
    {
        using var program = await JsonProgram.DeviceAsync(server, "All", All);
        using var reader = await JsonProgram.DeviceAsync(server, "Reader", [Right.ReadRegister]);

        AssertProblem(await reader.GetAsync("/api/v1/batches"), 403);
        AssertProblem(await program.GetAsync("/api/v1/no-such-thing"), 404);
        AssertProblem(await program.GetAsync("/api/v1/specimens/NONE0000001"), 404);
        AssertProblem(await program.GetAsync("/api/v1/scans"), 405);
        AssertProblem(
            await program.PostAsync(
                "/api/v1/scans", new StringContent("<x/>", Encoding.UTF8, "text/xml"), JsonProgram.Key()), 415);
        AssertProblem(await program.PostAsync("/api/v1/scans", new string('x', 2_000_000)), 413);
        AssertProblem(await program.GetAsync("/api/v1/specimens?limit=many"), 400);
        AssertProblem(await program.GetAsync("/api/v1/specimens?limit=501"), 400);
        AssertProblem(await program.GetAsync("/api/v1/specimens?cursor=abc"), 400);
    }

    [Theory]
    [InlineData("{\"code\": ", "/code")]
    [InlineData("{\"code\": 3}", "/code")]
    [InlineData("{\"cod\": \"X\"}", "/cod")]
    public async Task Json_that_cannot_be_read_says_where(string json, string? field)
    {
        using var program = await JsonProgram.DeviceAsync(server, "All", All);

        var answer = await program.PostAsync(
            "/api/v1/scans", new StringContent(json, Encoding.UTF8, "application/json"), JsonProgram.Key());

        AssertProblem(answer, 400);
        Assert.Contains("line 1", answer.Detail, StringComparison.Ordinal);
        var error = Assert.Single(answer.Body.GetProperty("errors").EnumerateArray());
        Assert.Equal(field, error.TryGetProperty("pointer", out var said) ? said.GetString() : null);
    }

    [Fact]
    public async Task What_a_rule_says_stands_there_in_its_own_words()
    {
        using var program = await JsonProgram.DeviceAsync(server, "All", All);

        var answer = await program.PostAsync("/api/v1/series", new { name = "", use = "specimens", pattern = "X000" });
        AssertProblem(answer, 422);
        Assert.Contains("Write what people call the series", answer.Detail, StringComparison.Ordinal);

        var list = await program.SendListAsync("", "Collector\nA. Quill\n");
        AssertProblem(list, 422);
        Assert.Equal("/source", list.Body.GetProperty("errors")[0].GetProperty("pointer").GetString());

        AssertProblem(await program.PostAsync("/api/v1/works/999999999/stops", null), 404);
    }

    [Fact]
    public async Task Two_gigabytes_are_refused_in_the_same_form()
    {
        using var client = new TcpClient();
        await client.ConnectAsync(server.Address.Host, server.Address.Port, TestContext.Current.CancellationToken);
        await using var stream = client.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(
            $"POST /api/v1/batches HTTP/1.1\r\nHost: {server.Address.Authority}\r\nContent-Length: 2147483648\r\n"
            + "Content-Type: text/csv\r\n\r\n"), TestContext.Current.CancellationToken);
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        using var reader = new StreamReader(stream);

        var answer = await reader.ReadToEndAsync(patience.Token);

        Assert.StartsWith("HTTP/1.1 413 ", answer, StringComparison.Ordinal);
        Assert.Contains("application/problem+json", answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_version_that_is_no_longer_so_changes_nothing()
    {
        using var program = await JsonProgram.DeviceAsync(server, "All", All);
        var received = await program.SendListAsync(
            $"Versions {Guid.NewGuid():N}", "Collector,Number,Date,Species\nA. Quill,1,03/04/2024,Poa secunda J.Presl\n");
        var path = received.Headers.Location!.OriginalString;
        await server.WaitForWorkAsync();
        var seen = await program.GetAsync(path);
        var (dayFirst, monthFirst) = (new { order = "dayFirst" }, new { order = "monthFirst" });

        AssertProblem(await program.PostAsync($"{path}/day-month-orders", dayFirst), 428);
        var key = JsonProgram.Key();
        var settled = await program.PostAsync($"{path}/day-month-orders", dayFirst, key, seen.Tag);
        Assert.Equal(HttpStatusCode.Accepted, settled.Status);
        await server.WaitForWorkAsync();
        AssertProblem(await program.PostAsync($"{path}/day-month-orders", monthFirst, ifMatch: seen.Tag), 412);
        AssertProblem(await program.PostAsync($"{path}/day-month-orders", monthFirst, ifMatch: "\"x\""), 412);

        // Sent again, the first is answered as before, though its version is no longer so.
        var again = await program.PostAsync($"{path}/day-month-orders", dayFirst, key, seen.Tag);
        Assert.Equal(settled.Status, again.Status);
        var now = await program.GetAsync(path, seen.Tag);
        Assert.Equal(HttpStatusCode.OK, now.Status);
        Assert.Equal("dayFirst", now.Body.GetProperty("dayMonthOrder").GetString());
    }

    private static void AssertProblem(JsonAnswer answer, int status)
    {
        Assert.True((int)answer.Status == status, $"{status} was expected: {(int)answer.Status} {answer.Text}");
        Assert.Equal("application/problem+json", answer.MediaType);
        Assert.Equal(status, answer.Body.GetProperty("status").GetInt32());
        Assert.Equal("about:blank", answer.Body.GetProperty("type").GetString());
        Assert.NotEmpty(answer.Body.GetProperty("title").GetString()!);
        Assert.EndsWith(".", answer.Detail, StringComparison.Ordinal);
    }
}
