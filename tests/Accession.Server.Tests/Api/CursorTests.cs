using System.Globalization;
using System.Net;
using System.Text;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class CursorOnSqlite(ServerOnSqlite server) : CursorTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class CursorOnPostgreSql(ServerOnPostgreSql server) : CursorTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A list is walked page by page, and nothing that comes in meanwhile is lost or seen twice.</summary>
public abstract class CursorTests(TestServer server)
{
    [Fact]
    public async Task A_hundred_and_twenty_rows_are_each_seen_once()
    {
        using var program = await JsonProgram.DeviceAsync(server, "Walker", [Right.SendLists, Right.Settle]);
        var list = new StringBuilder("Collector,Number,Species\n");
        for (var i = 1; i <= 120; i++)
        {
            list.AppendLine(CultureInfo.InvariantCulture, $"A. Quill,{i},Poa secunda J.Presl");
        }

        var received = await program.SendListAsync($"Walked {Guid.NewGuid():N}", list.ToString());
        var path = received.Headers.Location!.OriginalString;
        await server.WaitForWorkAsync();

        var seen = await WalkAsync(program, $"{path}/rows?limit=50&show=all", async () =>
        {
            // Meanwhile the list comes again with more rows, behind those that are there.
            list.AppendLine("A. Quill,121,Poa secunda J.Presl");
            using var content = new StringContent(list.ToString(), Encoding.UTF8, "text/csv");
            var again = await program.PostAsync($"{path}/lists?fileName=again.csv", content, JsonProgram.Key());
            Assert.Equal(HttpStatusCode.Accepted, again.Status);
            await server.WaitForWorkAsync();
        });

        Assert.Equal(seen.Distinct().Count(), seen.Count);
        Assert.Equal(121, seen.Count);
    }

    [Fact]
    public async Task Batches_that_come_in_while_somebody_walks_move_nothing()
    {
        using var program = await JsonProgram.DeviceAsync(server, "Walker", [Right.SendLists]);
        var before = new List<long>();
        for (var i = 0; i < 7; i++)
        {
            before.Add((await ReceiveAsync(program)));
        }

        var seen = await WalkAsync(program, "/api/v1/batches?limit=3", () => ReceiveAsync(program));

        Assert.Equal(seen.Distinct().Count(), seen.Count);
        Assert.Empty(before.Except(seen));
        Assert.Equal(seen.OrderDescending(), seen);
    }

    [Fact]
    public async Task A_cursor_that_is_damaged_or_of_another_list_is_refused()
    {
        using var program = await JsonProgram.DeviceAsync(server, "Walker", [Right.SendLists, Right.ReadRegister]);
        for (var i = 0; i < 2; i++)
        {
            await ReceiveAsync(program);
        }

        var next = (await program.GetAsync("/api/v1/batches?limit=1")).Next!;
        var cursor = next.Split("cursor=")[1];
        Assert.Equal(HttpStatusCode.OK, (await program.GetAsync(next)).Status);

        var damaged = await program.GetAsync($"/api/v1/batches?cursor={cursor[..^4]}AAAA");
        var elsewhere = await program.GetAsync($"/api/v1/specimens?cursor={cursor}");
        Assert.All([damaged, elsewhere], answer =>
        {
            Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
            Assert.Contains("cursor", answer.Detail, StringComparison.Ordinal);
        });
    }

    private static async Task<long> ReceiveAsync(JsonProgram program)
    {
        var received = await program.SendListAsync(
            $"Walk {Guid.NewGuid():N}", $"Collector,Number,Species\nA. Quill,{Guid.NewGuid():N},Poa secunda J.Presl\n");
        return received.Body.GetProperty("batchId").GetInt64();
    }

    private static async Task<List<long>> WalkAsync(JsonProgram program, string? path, Func<Task> between)
    {
        List<long> seen = [];
        for (var pages = 0; path is not null; pages++)
        {
            Assert.True(pages < 200, "The walk leads round in a circle.");
            var page = await program.GetAsync(path);
            Assert.True(page.Status == HttpStatusCode.OK, page.Text);
            seen.AddRange(page.Items.Select(item => item.GetProperty("id").GetInt64()));
            if (pages == 0)
            {
                await between();
            }

            path = page.Next;
        }

        return seen;
    }
}
