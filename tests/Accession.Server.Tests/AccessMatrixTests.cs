using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Tests;

namespace Accession.Server.Tests;

[Trait("Store", "sqlite")]
public sealed class AccessMatrixOnSqlite(ServerOnSqlite server)
    : AccessMatrixTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class AccessMatrixOnPostgreSql(ServerOnPostgreSql server)
    : AccessMatrixTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// Who may do what stands in access-matrix.csv, written by hand. A new page means a new line there: yes (let in), no
/// (not yours), sign-in (led to the sign-in page).
/// </summary>
public abstract class AccessMatrixTests(TestServer server)
{
    private static readonly IReadOnlyList<Line> Matrix = Read();

    [Fact]
    public async Task Every_door_of_the_program_stands_in_the_matrix_and_every_line_is_a_door()
    {
        var doors = (await DoorsAsync()).Select(door => $"{door.Method},{door.Address}").ToList();
        var lines = Matrix.Select(line => $"{line.Method},{line.Address}").ToList();

        Assert.Equal(lines.Distinct(), lines);
        Assert.True(
            doors.Order().SequenceEqual(lines.Order()),
            $"Not in access-matrix.csv: {Listed(doors.Except(lines))}\nNo such door: {Listed(lines.Except(doors))}");
    }

    [Theory]
    [InlineData(null)]
    [InlineData(Role.Technician)]
    [InlineData(Role.Curator)]
    [InlineData(Role.Administrator)]
    [InlineData(Role.Determiner)]
    [InlineData(Role.Collector)]
    [InlineData(Role.WeedOfficer)]
    public async Task Everybody_gets_what_the_matrix_says(Role? role)
    {
        List<string> wrong = [];
        foreach (var door in await DoorsAsync())
        {
            var line = Matrix.SingleOrDefault(line => line.Method == door.Method && line.Address == door.Address);
            using var visitor = role is null ? server.Stranger() : await server.SignInAsync(role.Value);
            var (verdict, status) = await AskAsync(visitor, door, []);
            if (line?.For(role) == "no" && status == "400")
            {
                // A page may say no only to what is sent from its form, so what must be refused is sent with its token.
                (verdict, status) = await AskAsync(visitor, door, [await TokenAsync(visitor)]);
            }

            if (line is not null && verdict != line.For(role))
            {
                wrong.Add($"{door.Method} {door.Address}: {line.For(role)} in the matrix, {verdict} ({status}) in truth");
            }
        }

        Assert.True(wrong.Count == 0, $"As {role?.ToString() ?? "a stranger"}:\n{string.Join('\n', wrong)}");
    }

    // The JSON doors ask for rights and have a matrix of their own, api-matrix.csv.
    private async Task<IEnumerable<Entrance>> DoorsAsync() => (await Endpoints.OfAsync(server))
        .Where(door => !door.Address.StartsWith("/api/v1/", StringComparison.Ordinal));

    private static async Task<KeyValuePair<string, string>> TokenAsync(Visitor visitor)
    {
        const string name = "__RequestVerificationToken";
        var page = await visitor.GetPageAsync("/account");
        return new(name, page.All($"input[name={name}]")[0].GetAttribute("value")!);
    }

    private static async Task<(string Verdict, string Status)> AskAsync(
        Visitor visitor, Entrance door, IReadOnlyList<KeyValuePair<string, string>> form)
    {
        using var request = new HttpRequestMessage(
            new HttpMethod(door.Method), new Uri(visitor.Http.BaseAddress!, door.Example));
        if (door.Method != "GET")
        {
            request.Content = new FormUrlEncodedContent(form);
        }

        using var answer = await visitor.Http.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
        var status = $"{(int)answer.StatusCode} {answer.Headers.Location}".TrimEnd();
        var leads = answer.Headers.Location?.IsAbsoluteUri == true
            ? answer.Headers.Location.AbsolutePath
            : answer.Headers.Location?.OriginalString.Split('?')[0];
        var verdict = (answer.StatusCode, leads) switch
        {
            (HttpStatusCode.Unauthorized, _) or (HttpStatusCode.Found, "/sign-in") => "sign-in",
            (HttpStatusCode.Forbidden, _) or (HttpStatusCode.Found, "/not-yours") => "no",
            (HttpStatusCode.InternalServerError, _) => "failed",
            (HttpStatusCode.BadRequest, _) => "yes",
            _ when door.Method != "GET" && door.NeedsToken => "yes, even without the form's token",
            _ => "yes",
        };
        return (verdict, status);
    }

    private static List<Line> Read()
    {
        var file = Path.Combine(
            ReferenceData.CheckoutRoot(), "tests", "Accession.Server.Tests", "access-matrix.csv");
        var lines = File.ReadAllLines(file).Select(line => line.Split(',')).ToList();
        Assert.Equal(
            [
                "method", "address", "anonymous", "technician", "curator", "administrator",
                "determiner", "collector", "weed officer",
            ],
            lines[0]);
        return [.. lines.Skip(1).Select(cells => new Line(cells[0], cells[1], cells[2..]))];
    }

    private static string Listed(IEnumerable<string> doors) =>
        string.Join("; ", doors) is { Length: > 0 } listed ? listed : "nothing";

    private sealed record Line(string Method, string Address, string[] Cells)
    {
        public string For(Role? role) => Cells[role switch
        {
            null => 0,
            Role.Technician => 1,
            Role.Curator => 2,
            Role.Administrator => 3,
            Role.Determiner => 4,
            Role.Collector => 5,
            Role.WeedOfficer => 6,
            _ => throw new ArgumentOutOfRangeException(nameof(role)),
        }];
    }
}
