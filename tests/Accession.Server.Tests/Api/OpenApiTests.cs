using System.Text.Json;
using Accession.Server.Tests.Ground;
using Accession.Tests;

namespace Accession.Server.Tests.Api;

/// <summary>The description of the JSON doors is made from the code and kept beside the documents.</summary>
[Trait("Store", "sqlite")]
public sealed class OpenApiTests(ServerOnSqlite server) : IClassFixture<ServerOnSqlite>
{
    // Set to 1, it writes the file anew instead of comparing it.
    private const string Rewrite = "ACCESSION_WRITE_OPENAPI";

    private static string File => Path.Combine(ReferenceData.CheckoutRoot(), "docs", "openapi.json");

    [Fact]
    public async Task The_file_is_what_the_program_says_of_itself()
    {
        var said = await DocumentAsync();
        if (Environment.GetEnvironmentVariable(Rewrite) == "1")
        {
            await System.IO.File.WriteAllTextAsync(File, said, TestContext.Current.CancellationToken);
        }

        Assert.True(
            said == await System.IO.File.ReadAllTextAsync(File, TestContext.Current.CancellationToken),
            $"docs/openapi.json is of an earlier program; run this test once with {Rewrite}=1 and look at what changed.");
    }

    [Fact]
    public async Task Every_door_has_a_summary_its_problems_and_what_it_asks_for()
    {
        using var document = JsonDocument.Parse(await DocumentAsync());
        Assert.StartsWith("3.1", document.RootElement.GetProperty("openapi").GetString(), StringComparison.Ordinal);
        var described = document.RootElement.GetProperty("paths").EnumerateObject()
            .SelectMany(path => path.Value.EnumerateObject().Select(door => (Path: path.Name, Method: door.Name, Door: door.Value)))
            .ToList();
        Assert.All(described, door =>
        {
            var name = $"{door.Method} {door.Path}";
            Assert.True(door.Door.TryGetProperty("summary", out var summary) && summary.GetString()!.Length > 0, name);
            Assert.StartsWith("Right: ", door.Door.GetProperty("description").GetString(), StringComparison.Ordinal);
            var answers = door.Door.GetProperty("responses");
            Assert.All(["401", "403", "404", "500"], status => Assert.True(
                answers.GetProperty(status).GetProperty("content").TryGetProperty("application/problem+json", out _), name));
            Assert.Contains(answers.EnumerateObject(), answer => answer.Name[0] == '2');
            var asksKey = door.Door.TryGetProperty("parameters", out var parameters)
                && parameters.EnumerateArray().Any(p => p.GetProperty("name").GetString() == "Idempotency-Key");
            Assert.Equal(door.Method == "post", asksKey);
        });
        var doors = (await Endpoints.OfAsync(server))
            .Where(door => door.Address.StartsWith("/api/v1", StringComparison.Ordinal)).ToList();
        Assert.Equal(doors.Count, described.Count);
    }

    [Fact]
    public async Task The_page_that_shows_it_loads_nothing_from_elsewhere()
    {
        using var stranger = server.Stranger();

        using var answer = await stranger.Http.GetAsync(
            new Uri(server.Address, "/api/"), TestContext.Current.CancellationToken);
        var page = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);

        Assert.True(answer.IsSuccessStatusCode, $"{answer.StatusCode} {answer.Headers.Location}");
        var policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
        Assert.StartsWith("default-src 'self';", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("http", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("src=\"http", page, StringComparison.Ordinal);
        Assert.DoesNotContain("src=\"//", page, StringComparison.Ordinal);
    }

    private async Task<string> DocumentAsync()
    {
        using var stranger = server.Stranger();
        var said = await stranger.Http.GetStringAsync(
            new Uri(server.Address, "/api/openapi.json"), TestContext.Current.CancellationToken);
        return said.ReplaceLineEndings("\n").TrimEnd('\n') + "\n";
    }
}
