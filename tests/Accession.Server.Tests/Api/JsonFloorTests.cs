using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Server.Tests.Treating;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class JsonFloorOnSqlite(ServerOnSqlite server) : JsonFloorTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class JsonFloorOnPostgreSql(ServerOnPostgreSql server)
    : JsonFloorTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Parcels, freezer loads, places, the bench and names by hand, for programs with narrow rights.</summary>
public abstract class JsonFloorTests(TestServer server)
{
    [Fact]
    public async Task A_parcel_goes_through_a_load_and_moves_only_as_it_was_seen()
    {
        using var room = await ColdRoom.OpenAsync(server);
        using var program = await JsonProgram.DeviceAsync(server, "Door station", [Right.HandleParcels]);
        var key = JsonProgram.Key();
        var coming = new { fromWhom = $"Sender {room.Name}", cameOn = "2026-03-04", bundles = 2, standing = "shelf Q3" };
        var tagged = await program.PostAsync("/api/v1/parcels", coming, key);
        Assert.Equal(HttpStatusCode.OK, tagged.Status);
        var tag = tagged.Body.GetProperty("tag").GetString();
        Assert.Equal(tag, (await program.PostAsync("/api/v1/parcels", coming, key)).Body.GetProperty("tag").GetString());
        var seen = await program.GetAsync($"/api/v1/parcels/{tag}");
        Assert.Contains((await program.GetAsync("/api/v1/parcels?limit=5")).Items, one => one.GetProperty("tag").GetString() == tag);

        var (freezer, regime) = await server.InRegisterAsync(async db => (
            await db.Freezers.Where(f => f.Name == $"Freezer {room.Name}").Select(f => f.Id).SingleAsync(),
            await db.Regimes.Where(r => r.Name == $"Cold {room.Name}").Select(r => r.Id).SingleAsync()));
        var load = (await program.PostAsync("/api/v1/loads", new { freezerId = freezer, regimeId = regime })).Body.GetProperty("number").GetInt32();
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"/api/v1/loads/{load}/items", new { code = tag })).Status);
        var place = await PlaceAsync(room, "Shelf");
        Assert.Equal(428, (int)(await program.PostAsync($"/api/v1/parcels/{tag}/places", new { placeId = place })).Status);
        Assert.Equal(
            HttpStatusCode.PreconditionFailed,
            (await program.PostAsync($"/api/v1/parcels/{tag}/places", new { placeId = place }, ifMatch: seen.Tag)).Status);
        var item = (await program.GetAsync($"/api/v1/loads/{load}")).Body.GetProperty("items")[0].GetProperty("id").GetInt64();
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"/api/v1/loads/{load}/items/{item}/withdrawals", new { })).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await program.PostAsync($"/api/v1/loads/{load}/items/{item}/withdrawals", new { })).Status);
        seen = await program.GetAsync($"/api/v1/parcels/{tag}");
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"/api/v1/parcels/{tag}/places", new { placeId = place }, ifMatch: seen.Tag)).Status);

        await program.PostAsync($"/api/v1/loads/{load}/items", new { code = tag });
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"/api/v1/loads/{load}/closings", new { }, ifMatch: await TagOfAsync(program, load))).Status);
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"/api/v1/loads/{load}/removals", new { }, ifMatch: await TagOfAsync(program, load))).Status);
        // A waiver is a curator's: the token acts as a technician, whoever made it.
        var waived = await program.PostAsync(
            $"/api/v1/loads/{load}/settlements", new { @as = "waived", reason = "Paper." }, ifMatch: await TagOfAsync(program, load));
        Assert.Equal(HttpStatusCode.Forbidden, waived.Status);
        var failed = await program.PostAsync(
            $"/api/v1/loads/{load}/settlements", new { @as = "failed", reason = "Power." }, ifMatch: await TagOfAsync(program, load));
        Assert.Equal("failed", failed.Body.GetProperty("standing").GetString());
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_scanner_station_works_in_its_own_name_or_in_that_of_a_badge()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var pile = await room.PileAsync();
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.NextAsync(pile.Gatherings[0]);
        await scanner.NextAsync(pile.Gatherings[0]);
        using var holder = await Newcomers.LetInAsync(server, $"Station {room.Name}", Role.Technician);
        var made = await holder.Visitor.SubmitAsync(await holder.Visitor.GetPageAsync("/account/badge"), "main form");
        var badge = Symbols.Read(made.One(".badge-card .bar-symbol"));
        using var program = await JsonProgram.DeviceAsync(server, $"Bench {room.Name}", [Right.WorkAtBench]);

        var done = await program.PostAsync("/api/v1/bench-scans", new { code = pile.Code(1), doing = "mounted" });
        Assert.Equal(HttpStatusCode.OK, done.Status);
        var key = JsonProgram.Key();
        var body = new { code = pile.Code(2), doing = "mounted", badge };
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync("/api/v1/bench-scans", body, key)).Status);
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync("/api/v1/bench-scans", body, key)).Status);
        var unknown = await program.PostAsync(
            "/api/v1/bench-scans", new { code = pile.Code(1), doing = "labelled", badge = Badge.NewCode() });
        Assert.Equal(HttpStatusCode.NotFound, unknown.Status);
        Assert.Equal(
            HttpStatusCode.UnprocessableEntity,
            (await program.PostAsync("/api/v1/bench-scans", new { code = pile.Code(1), doing = "eaten" })).Status);
        var into = await program.PostAsync(
            "/api/v1/bench-scans", new { code = pile.Code(1), doing = $"place Room {room.Name}" });
        Assert.Equal(HttpStatusCode.Forbidden, into.Status);
        var moved = await program.PostAsync(
            "/api/v1/moves", new { codes = new[] { pile.Code(1) }, placeId = await PlaceAsync(room, "Shelf") });
        Assert.Equal(1, moved.Body.GetProperty("parts").GetInt32());

        Assert.Equal(
            [$"Bench {room.Name}", $"Station {room.Name}"],
            await server.InRegisterAsync(db => db.Parts.Where(p => p.Code == pile.Code(1) || p.Code == pile.Code(2))
                .SelectMany(p => p.Steps).Where(s => s.Step == Core.Specimens.Step.Mounted).OrderBy(s => s.Id)
                .Select(s => s.Act.ActorName).ToListAsync()));
    }

    [Fact]
    public async Task An_opinion_is_recorded_of_what_was_seen_and_waits()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var pile = await room.PileAsync();
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.NextAsync(pile.Gatherings[0]);
        using var program = await JsonProgram.DeviceAsync(server, "Naming", [Right.NameSheets]);
        var address = $"/api/v1/specimens/{pile.Code(1)}/determinations";
        var seen = await program.GetAsync(address);
        var slip = new { name = "Poa cusickii Vasey", identifiedBy = "Ivo Larch", date = "Mar 2026" };

        Assert.Equal(428, (int)(await program.PostAsync(address, slip)).Status);
        var recorded = await program.PostAsync(address, slip, ifMatch: seen.Tag);
        Assert.True(recorded.Body.GetProperty("waits").GetBoolean(), recorded.Text);
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await program.PostAsync(address, slip, ifMatch: seen.Tag)).Status);
        var after = await program.GetAsync(address);
        Assert.Equal([true, false], after.Body.GetProperty("items").EnumerateArray().Select(one => one.GetProperty("isCurrent").GetBoolean()));

        using var bench = await JsonProgram.DeviceAsync(server, "Filing", [Right.WorkAtBench]);
        var filed = await bench.PostAsync(
            $"/api/v1/specimens/{pile.Code(1)}/filings", new { name = "Poa secunda J.Presl" }, ifMatch: after.Tag);
        Assert.Equal("Poa secunda J.Presl", filed.Body.GetProperty("name").GetString());
        Assert.Equal(HttpStatusCode.NotFound, (await program.GetAsync("/api/v1/specimens/NO-SUCH/determinations")).Status);
    }

    private static async Task<string> TagOfAsync(JsonProgram program, int load) =>
        (await program.GetAsync($"/api/v1/loads/{load}")).Tag!;

    private Task<long> PlaceAsync(ColdRoom room, string place) => server.InRegisterAsync(db => db.Places
        .Where(p => p.Name == $"{place} {room.Name}").Select(p => p.Id).SingleAsync());
}
