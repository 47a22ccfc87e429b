using System.Globalization;
using System.Text;
using System.Text.Json;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Tests;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class WeighCommandOnSqlite(ServerOnSqlite server) : WeighCommandTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class WeighCommandOnPostgreSql(ServerOnPostgreSql server)
    : WeighCommandTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// The command beside a running server: what curators decided is counted, and nothing is changed by it. People and
/// places are invented; what the counts weigh is checked in Core.
/// </summary>
public abstract class WeighCommandTests(TestServer server)
{
    private const int Pairs = 12;
    private const string Heading = "Collector,Number,Date,State,County,Locality,Species\n";

    [Fact]
    public async Task What_curators_kept_as_duplicates_is_weighed_against_gatherings_that_meet_in_a_key()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var before = await WeighAsync("--json");
        Assert.Equal(0, before.GetProperty("same").GetInt32());
        Assert.Equal(0, before.GetProperty("changes").GetArrayLength());

        // Many numbers of one day: they meet in a key and are no duplicates.
        var name = InventedNames.FamilyOf("weighed");
        await Pile.TakeInAsync(server, curator, Heading + Rows(name, "J. R. ", "2024-06-14"));
        var batch = await Bench.ReceiveAsync(
            server, curator, $"Exchange {name}", "dupl.csv",
            Encoding.UTF8.GetBytes(Heading + Rows(name, "", "VI.2024")
                + $"\nJ. R. {name},1200,2024-06-14,Oregon,Harney,Sage flat,Poa"));
        var path = batch.Address.AbsolutePath;
        for (var k = 0; k < Pairs; k++)
        {
            Assert.Empty((await curator.SubmitAsync(
                await curator.GetPageAsync($"{path}/findings"), "main form.form", press: "button[value=Keep]")).Refusals);
        }

        // What looks like one gathering, and a curator said is none, counts among the others.
        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync($"{path}/findings"), "main form.form",
            [("reason", "Two plants under one number")], press: "button[value=Different]")).Refusals);
        var picture = await RegisterPicture.TakeAsync(server.Store);
        Assert.Equal(0, (await WeighAsync("--json")).GetProperty("same").GetInt32());   // decided, not taken in yet
        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync($"{path}/take-in"), "main form",
            [("Terms", "Exchange"), ("SheetsInPile", $"{Pairs + 1}")])).Refusals);
        await server.WaitForWorkAsync();

        Assert.NotEqual(picture, picture = await RegisterPicture.TakeAsync(server.Store));
        var weighed = await WeighAsync("--json");
        Assert.Equal(picture, await RegisterPicture.TakeAsync(server.Store));
        Assert.Equal(Pairs, weighed.GetProperty("same").GetInt32());
        Assert.True(weighed.GetProperty("others").GetInt32() > Pairs, weighed.ToString());
        var number = Level(weighed, "number", "same", "none");
        Assert.Equal(Pairs, number.GetProperty("same").GetInt32());
        Assert.InRange(number.GetProperty("others").GetInt32(), 1, 2);   // it was found with a sheet and its duplicate
        Assert.Equal(35, number.GetProperty("present").GetInt32());
        Assert.True(number.GetProperty("estimated").GetInt32() > 0);
        var other = Level(weighed, "number", "contradicts", "otherNumber");
        Assert.Equal(0, other.GetProperty("same").GetInt32());
        Assert.True(other.GetProperty("estimated").GetInt32() < 0);

        var (exit, told, remarks) = await RunAsync();
        Assert.True(exit == 0, remarks);
        Assert.StartsWith("12 pairs kept as duplicates, ", told[0], StringComparison.Ordinal);
        Assert.Contains(told, line => line.StartsWith("number     same ", StringComparison.Ordinal));

        Assert.Equal("Nothing was changed.", told[^1]);
    }

    private static readonly string[] Genera =
    [
        "Poa", "Carex", "Juncus", "Phlox", "Salix", "Stipa", "Draba", "Lupinus", "Erigeron", "Penstemon", "Rosa", "Ribes",
    ];

    private static readonly string[] Places =
    [
        "Sage flat", "Dry wash", "Alkali playa", "Lava edge", "Juniper slope", "Old quarry", "Wet ditch", "Mill lane",
        "North gate", "Sandy beach", "Spruce ridge", "Gravel bar",
    ];

    private static string Rows(string name, string given, string date) => string.Join('\n', Enumerable.Range(0, Pairs)
        .Select(k => string.Create(CultureInfo.InvariantCulture,
            $"{(given.Length > 0 ? given + name : $"\"{name}, Jane R.\"")},{1200 + (k * 137)},{date},Oregon,Harney,{Places[k]},{Genera[k]}")));

    private static JsonElement Level(JsonElement weighed, string field, string agreement, string slip) =>
        weighed.GetProperty("levels").EnumerateArray().Single(line => line.GetProperty("field").GetString() == field
            && line.GetProperty("agreement").GetString() == agreement && line.GetProperty("slip").GetString() == slip);

    private async Task<JsonElement> WeighAsync(string how)
    {
        var (exit, told, remarks) = await RunAsync(how);
        Assert.True(exit == 0, remarks);
        return JsonDocument.Parse(Assert.Single(told)).RootElement;
    }

    private async Task<(int Exit, IReadOnlyList<string> Told, string Remarks)> RunAsync(params string[] more)
    {
        server.Store.Require();
        var (exit, told, remarks) = await ServerProcess.RunApartAsync(
        [
            "weigh", "--data", server.Store.Folder,
            .. server.Store.Settings.SelectMany(setting => new[] { "--set", setting }), .. more,
        ]);
        return (exit, told, remarks);
    }
}
