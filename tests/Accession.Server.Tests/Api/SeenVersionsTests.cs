using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class SeenVersionsOnSqlite(ServerOnSqlite server) : SeenVersionsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class SeenVersionsOnPostgreSql(ServerOnPostgreSql server)
    : SeenVersionsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// Series, papers and permits are changed only as they were seen: 428 without a tag, 412 when it is no longer so.
/// </summary>
public abstract class SeenVersionsTests(TestServer server)
{
    [Fact]
    public async Task A_series_is_closed_and_opened_as_it_was_seen()
    {
        using var program = await JsonProgram.DeviceAsync(server, "series", [Right.KeepNumbers, Right.Administer]);
        var name = $"Seen {Guid.NewGuid():N}"[..20];
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync(
            "/api/v1/series", new { name, use = "specimens", pattern = $"{Letters()}0000000" })).Status);
        var id = (await program.GetAsync("/api/v1/series?limit=500")).Items
            .Single(one => one.GetProperty("name").GetString() == name).GetProperty("id").GetInt64();
        var address = $"/api/v1/series/{id}";

        var open = await AsSeenAsync(program, address, $"{address}/closings", new { why = "the printer is away" });
        Assert.Equal(
            412, (int)(await program.PostAsync($"{address}/openings", new { paperHighest = "none" }, ifMatch: open)).Status);
        await AsSeenAsync(program, address, $"{address}/openings", new { paperHighest = "none" });
        await NowhereAsync(program, "/api/v1/series/999999/closings", new { why = "nothing there" });
    }

    [Fact]
    public async Task A_paper_and_a_permit_are_set_aside_as_they_were_seen()
    {
        using var program = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.SendLists, Right.Settle);
        var received = await program.SendListAsync(
            $"Seen {Guid.NewGuid():N}", "Collector,Number,Species\nOrla Finch,1,Poa secunda J.Presl\n");
        var batch = received.Headers.Location!.OriginalString;
        await server.WaitForWorkAsync();
        using var file = new StringContent("Deed of gift, invented.", Encoding.UTF8, "text/plain");
        var kept = await program.PostAsync($"{batch}/papers?kind=deedOfGift&fileName=deed.txt", file, JsonProgram.Key());
        Assert.True(kept.Status == HttpStatusCode.OK, kept.Text);
        var paper = (await program.GetAsync($"{batch}/papers")).Items.Single().GetProperty("id").GetInt64();
        await AsSeenAsync(
            program, $"{batch}/papers/{paper}/description", $"{batch}/papers/{paper}/withdrawals", new { reason = "of another batch" });

        // A new permit needs no tag; its correction does, and so does setting it aside.
        var terms = new { kind = "collecting", number = "26-17", stateProvince = "Oregon" };
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"{batch}/permits", terms)).Status);
        var first = (await program.GetAsync($"{batch}/permits")).Items.Single().GetProperty("id").GetInt64();
        var seen = await AsSeenAsync(program, $"{batch}/permits/{first}", $"{batch}/permits", new
        {
            terms.kind,
            number = "26-18",
            terms.stateProvince,
            correctsId = first,
            reason = "misread",
        });
        Assert.Equal(412, (int)(await program.PostAsync(
            $"{batch}/permits/{first}/withdrawals", new { reason = "late" }, ifMatch: seen)).Status);
        var second = (await program.GetAsync($"{batch}/permits")).Items[0].GetProperty("id").GetInt64();
        Assert.NotEqual(first, second);
        await AsSeenAsync(
            program, $"{batch}/permits/{second}", $"{batch}/permits/{second}/withdrawals", new { reason = "another's" });
        await NowhereAsync(program, $"{batch}/permits/999999/withdrawals", new { reason = "nothing there" });
        await NowhereAsync(program, $"{batch}/papers/999999/withdrawals", new { reason = "nothing there" });
    }

    [Fact]
    public async Task What_one_request_saw_is_asked_of_no_other_request()
    {
        using var program = await JsonProgram.DeviceAsync(server, "one after another", [Right.KeepNumbers, Right.Administer]);
        var name = Letters();
        await program.PostAsync("/api/v1/series", new { name, use = "specimens", pattern = $"{name}0000000" });
        var id = (await program.GetAsync("/api/v1/series?limit=500")).Items
            .Single(one => one.GetProperty("name").GetString() == name).GetProperty("id").GetInt64();
        for (var i = 0; i < 5; i++)
        {
            Assert.Equal(412, (int)(await program.PostAsync(
                $"/api/v1/series/{id}/closings", new { why = "seen long ago" }, ifMatch: "\"0123456789abcdef\"")).Status);
            var other = Letters();
            var begun = await program.PostAsync(
                "/api/v1/series", new { name = other, use = "specimens", pattern = $"{other}0000000" });
            Assert.True(begun.Status == HttpStatusCode.OK, begun.Text);
        }
    }

    [Fact]
    public async Task Voids_are_walked_page_by_page_by_a_sealed_cursor()
    {
        using var program = await JsonProgram.DeviceAsync(server, "voids", [Right.KeepNumbers]);
        var letters = Letters();
        await program.PostAsync("/api/v1/series", new { name = letters, use = "specimens", pattern = $"{letters}0000000" });
        var roll = await program.PostAsync(
            "/api/v1/rolls", new { name = letters, first = $"{letters}0000001", last = $"{letters}0000200" });
        Assert.True(roll.Status == HttpStatusCode.OK, roll.Text);
        // More than the page of numbers shows.
        for (var i = 1; i <= 53; i++)
        {
            var made = await program.PostAsync("/api/v1/voids", new { first = $"{letters}{i:0000000}", reason = "torn" });
            Assert.True(made.Status == HttpStatusCode.OK, made.Text);
        }

        List<string> seen = [];
        var pages = 0;
        for (var path = "/api/v1/voids?limit=20"; path is not null; pages++)
        {
            var page = await program.GetAsync(path);
            Assert.True(page.Status == HttpStatusCode.OK, page.Text);
            seen.AddRange(page.Items.Select(entry => entry.GetProperty("first").GetString()!));
            path = page.Next;
        }

        var own = seen.Where(first => first.StartsWith(letters, StringComparison.Ordinal)).ToList();
        Assert.Equal(Enumerable.Range(1, 53).Reverse().Select(i => $"{letters}{i:0000000}"), own);
        Assert.Equal(400, (int)(await program.GetAsync("/api/v1/voids?cursor=made-up")).Status);
    }

    // Without a tag, with another's, and with the one that was seen; says which it was.
    private static async Task<string> AsSeenAsync(JsonProgram program, string thing, string door, object body)
    {
        var seen = await program.GetAsync(thing);
        Assert.True(seen.Status == HttpStatusCode.OK, seen.Text);
        var without = await program.PostAsync(door, body);
        Assert.Equal(428, (int)without.Status);
        Assert.Contains("If-Match", without.Detail, StringComparison.Ordinal);
        var another = await program.PostAsync(door, body, ifMatch: "\"0123456789abcdef\"");
        Assert.Equal(412, (int)another.Status);
        Assert.Contains("changed since", another.Detail, StringComparison.Ordinal);
        Assert.Equal(seen.Tag, (await program.GetAsync(thing)).Tag);
        var key = JsonProgram.Key();
        var done = await program.PostAsync(door, body, key, seen.Tag);
        Assert.True(done.Status == HttpStatusCode.OK, done.Text);
        // Sent again it is answered, and not refused as out of date.
        Assert.Equal(done.Text, (await program.PostAsync(door, body, key, seen.Tag)).Text);
        return seen.Tag!;
    }

    private static async Task NowhereAsync(JsonProgram program, string door, object body) =>
        Assert.Equal(HttpStatusCode.NotFound, (await program.PostAsync(door, body, ifMatch: "*")).Status);

    // A series of its own each time.
    private static string Letters() => string.Concat(Guid.NewGuid().ToString("N")[..6].Select(
        c => (char)('A' + Convert.ToInt32(c.ToString(), 16))));
}
