using System.Net;
using System.Text.Json;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class KeyingJsonOnSqlite(ServerOnSqlite server) : KeyingJsonTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class KeyingJsonOnPostgreSql(ServerOnPostgreSql server)
    : KeyingJsonTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A pile keyed by a program, as on the page. People and places are invented.</summary>
public abstract class KeyingJsonTests(TestServer server)
{
    private const string Piles = "/api/v1/keyed-piles";

    [Fact]
    public async Task A_pile_is_begun_keyed_corrected_taken_in_and_closed()
    {
        var name = InventedNames.FamilyOf("keying by program");
        using var station = await JsonProgram.DeviceAsync(server, "Keying station", [Right.KeyLabels]);
        using var signedIn = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(signedIn, "KJ");
        var begun = await station.PostAsync(Piles, new { source = $"Pile {name}" });
        Assert.True(begun.Status == HttpStatusCode.OK, begun.Text);
        var batch = begun.Body.GetProperty("batchId").GetInt64();
        var labels = $"{Piles}/{batch}/labels";
        Assert.Contains(
            (await station.GetAsync(Piles)).Items, pile => pile.GetProperty("batchId").GetInt64() == batch);

        // What cannot be read is said at once, and corrected.
        var wrong = await KeyAsync(station, labels, Label(name, "1", "31.02.2024"));
        var problem = Assert.Single(wrong.GetProperty("label").GetProperty("problems").EnumerateArray());
        Assert.Equal("Date", problem.GetProperty("column").GetString());
        var right = await KeyAsync(
            station, labels, Label(name, "1", "2024-02-28"), wrong.GetProperty("rowId").GetInt64());
        Assert.Equal(1, right.GetProperty("line").GetInt32());
        Assert.Empty(right.GetProperty("label").GetProperty("problems").EnumerateArray());

        // The same label once more is found to be a repetition, and taken out again.
        var twice = await KeyAsync(station, labels, Label(name, "1", "2024-02-28"));
        await server.WaitForWorkAsync();
        var last = (await station.GetAsync(labels)).Items;
        Assert.Equal([2, 1], last.Select(label => label.GetProperty("line").GetInt32()));
        Assert.Equal("repeat", last[0].GetProperty("finding").GetString());
        var out1 = await station.PostAsync($"{labels}/{twice.GetProperty("rowId").GetInt64()}/withdrawals", null);
        Assert.True(out1.Status == HttpStatusCode.OK, out1.Text);
        Assert.Equal(JsonValueKind.Null, out1.Body.GetProperty("label").ValueKind);
        await server.WaitForWorkAsync();

        // It is a batch like any other.
        using var curator = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.SendLists, Right.Settle);
        var address = $"/api/v1/batches/{batch}";
        var taken = await curator.PostAsync(
            $"{address}/accessions", new { terms = "gift", sheetsInPile = 1 }, ifMatch: (await curator.GetAsync(address)).Tag);
        Assert.True(taken.Status == HttpStatusCode.Accepted, taken.Text);
        await server.WaitForWorkAsync();
        Assert.True(Assert.Single((await station.GetAsync(labels)).Items).GetProperty("isInRegister").GetBoolean());
        var closed = await curator.PostAsync(
            $"{address}/closings", new { note = "one sheet waits for its number" }, ifMatch: (await curator.GetAsync(address)).Tag);
        Assert.True(closed.Status is HttpStatusCode.OK or HttpStatusCode.Conflict, closed.Text);
    }

    [Fact]
    public async Task A_label_sent_twice_is_one_row_and_what_is_misspelt_is_refused()
    {
        using var station = await JsonProgram.DeviceAsync(server, "Keying station", [Right.KeyLabels]);
        var batch = (await station.PostAsync(Piles, new { source = $"Twice {Guid.NewGuid():N}" }))
            .Body.GetProperty("batchId").GetInt64();
        var labels = $"{Piles}/{batch}/labels";
        var (key, body) = (JsonProgram.Key(), new { typed = Label("Finch", "9", "2024-05-01") });
        var first = await station.PostAsync(labels, body, key);
        var again = await station.PostAsync(labels, body, key);
        Assert.Equal(first.Body.GetProperty("rowId").GetInt64(), again.Body.GetProperty("rowId").GetInt64());
        Assert.Single((await station.GetAsync(labels)).Items);

        var misspelt = await station.PostAsync(labels, new
        {
            typed = new Dictionary<string, string> { ["Colector"] = "O. Finch" },
        });
        Assert.Equal(HttpStatusCode.UnprocessableEntity, misspelt.Status);
        Assert.Contains("Colector", misspelt.Detail, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await station.PostAsync(labels, new { })).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await station.GetAsync($"{Piles}/999999/labels")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await station.PostAsync($"{Piles}/999999/labels", body)).Status);
        // Which parcel it came in is for curators to say.
        Assert.Equal(
            HttpStatusCode.Forbidden,
            (await station.PostAsync(Piles, new { source = "Orla Finch", parcelTag = "Q2026-0001" })).Status);
    }

    [Fact]
    public async Task Rows_of_lists_that_came_are_not_seen_by_who_keys()
    {
        using var station = await JsonProgram.DeviceAsync(server, "Keying station", [Right.KeyLabels]);
        using var curator = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.SendLists);
        var received = await curator.SendListAsync(
            $"Came {Guid.NewGuid():N}", "Collector,Number,Species\nOrla Finch,1,Poa secunda J.Presl\n");
        await server.WaitForWorkAsync();
        var batch = received.Body.GetProperty("batchId").GetInt64();

        Assert.Equal(HttpStatusCode.NotFound, (await station.GetAsync($"{Piles}/{batch}/labels")).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await station.GetAsync($"/api/v1/batches/{batch}/rows")).Status);
    }

    private static Dictionary<string, string> Label(string collector, string number, string date) => new()
    {
        ["Collector"] = $"O. {collector}",
        ["Number"] = number,
        ["Date"] = date,
        ["Name"] = "Poa secunda J.Presl",
        ["State"] = "Oregon",
        ["County"] = "Harney",
        ["Place"] = "\"Mill\" lane",
    };

    private static async Task<JsonElement> KeyAsync(
        JsonProgram station, string labels, Dictionary<string, string> typed, long? corrects = null)
    {
        var kept = await station.PostAsync(labels, new { typed, corrects });
        Assert.True(kept.Status == HttpStatusCode.OK, kept.Text);
        return kept.Body;
    }
}
