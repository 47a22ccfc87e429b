using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Administering;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;
using Accession.Tests;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests;

[Trait("Store", "sqlite")]
public sealed class ApiMatrixOnSqlite(ServerOnSqlite server) : ApiMatrixTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ApiMatrixOnPostgreSql(ServerOnPostgreSql server)
    : ApiMatrixTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// Which right opens which JSON door stands in api-matrix.csv, written by hand. A new door means a new line there: yes
/// (let in), no (403), token (401).
/// </summary>
public abstract class ApiMatrixTests(TestServer server)
{
    private static readonly string[] Columns =
    [
        "method", "address", "none", "withdrawn", "expired", "ReadRegister", "SendLists", "Settle", "NumberSheets",
        "KeepNumbers", "Publish", "Administer", "HandleParcels", "WorkAtBench", "NameSheets",
        "KeepAccounts", "ReadCounties", "ReadCollected", "KeyLabels",
    ];

    private static readonly IReadOnlyList<string[]> Matrix = Read();

    [Fact]
    public async Task Every_json_door_stands_in_the_matrix_and_every_line_is_a_door()
    {
        var doors = (await DoorsAsync()).Select(door => $"{door.Method},{door.Address}").Order().ToList();
        var lines = Matrix.Select(line => $"{line[0]},{line[1]}").Order().ToList();

        Assert.Equal(doors, lines);
        Assert.Equal(Columns[5..], Rights.All.Select(right => right.ToString()));
    }

    [Theory]
    [InlineData("none")]
    [InlineData("withdrawn")]
    [InlineData("expired")]
    [InlineData("ReadRegister")]
    [InlineData("SendLists")]
    [InlineData("Settle")]
    [InlineData("NumberSheets")]
    [InlineData("KeepNumbers")]
    [InlineData("Publish")]
    [InlineData("Administer")]
    [InlineData("HandleParcels")]
    [InlineData("WorkAtBench")]
    [InlineData("NameSheets")]
    [InlineData("KeepAccounts")]
    [InlineData("ReadCounties")]
    [InlineData("ReadCollected")]
    [InlineData("KeyLabels")]
    public async Task Every_token_opens_what_the_matrix_says(string column)
    {
        using var program = await BearerAsync(column);
        List<string> wrong = [];
        foreach (var door in await DoorsAsync())
        {
            var says = Matrix.Single(line => line[0] == door.Method && line[1] == door.Address)[Array.IndexOf(Columns, column)];
            var isFile = door.Address is "/api/v1/batches/" || door.Address.EndsWith("/lists", StringComparison.Ordinal)
                || door.Address.EndsWith("/papers", StringComparison.Ordinal);
            using var content = new StringContent("{}", Encoding.UTF8, isFile ? "application/octet-stream" : "application/json");
            var answer = door.Method == "GET"
                ? await program.GetAsync(door.Example)
                : await program.PostAsync(door.Example, content, JsonProgram.Key());
            var verdict = answer.Status switch
            {
                HttpStatusCode.Unauthorized => "token",
                // Where very many came that open nothing, it is said so instead.
                HttpStatusCode.TooManyRequests => "token",
                HttpStatusCode.Forbidden => "no",
                HttpStatusCode.InternalServerError => "failed",
                _ => "yes",
            };
            if (verdict != says)
            {
                wrong.Add($"{door.Method} {door.Address}: {says} in the matrix, {verdict} ({(int)answer.Status}) in truth");
            }
        }

        Assert.True(wrong.Count == 0, $"With {column}:\n{string.Join('\n', wrong)}");
    }

    private async Task<JsonProgram> BearerAsync(string column)
    {
        if (column == "none")
        {
            return new(server.Address, null);
        }

        if (Enum.TryParse<Right>(column, out var right))
        {
            return right.IsForDevices()
                ? await JsonProgram.DeviceAsync(server, $"Only {right}", [right])
                : await JsonProgram.OfPersonAsync(server, PersonOf(right), right);
        }

        var program = await JsonProgram.DeviceAsync(server, column, Rights.OfDevices);
        var hash = SignInLink.Hash(program.Token!);
        if (column == "expired")
        {
            await server.InRegisterAsync(db => db.ApiTokens.Where(t => t.TokenHash == hash).ExecuteUpdateAsync(
                row => row.SetProperty(t => t.ExpiresAt, new DateTime(2020, 1, 1, 0, 0, 0, DateTimeKind.Utc))));
            return program;
        }

        var id = await server.InRegisterAsync(db => db.ApiTokens.Where(t => t.TokenHash == hash).Select(t => t.Id).SingleAsync());
        await server.RunAsync<WithdrawToken, Outcome<string>>(
            withdraw => withdraw.RunAsync(new(id), Door.System, CancellationToken.None));
        return program;
    }

    private static Role PersonOf(Right right) =>
        Enum.GetValues<Role>().First(role => right.IsFor(new HashSet<Role> { role }));

    private async Task<IReadOnlyList<Entrance>> DoorsAsync() => [.. (await Endpoints.OfAsync(server))
        .Where(door => door.Address.StartsWith("/api/v1/", StringComparison.Ordinal))];

    private static List<string[]> Read()
    {
        var file = Path.Combine(ReferenceData.CheckoutRoot(), "tests", "Accession.Server.Tests", "api-matrix.csv");
        var lines = File.ReadAllLines(file).Select(line => line.Split(',')).ToList();
        Assert.Equal(Columns, lines[0]);
        return lines[1..];
    }
}
