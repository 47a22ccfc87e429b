using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Accounts;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class ProtectedJsonOnSqlite(ServerOnSqlite server)
    : ProtectedJsonTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ProtectedJsonOnPostgreSql(ServerOnPostgreSql server)
    : ProtectedJsonTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A protected place leaves by no JSON door, whoever asks. The plant and its place are invented.</summary>
public abstract class ProtectedJsonTests(TestServer server)
{
    private const string Place = "Hidden seep below the third rim";
    private const string Latitude = "43.58642";

    [Fact]
    public async Task Once_protected_no_door_of_the_register_says_where_it_grew()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("protected-json");
        var pile = await Pile.TakeInAsync(server, curator, $"""
            Collector,Number,Date,State,County,Locality,Lat,Long,Species,Sheets
            J. R. {name},1,2024-06-14,Oregon,Harney,{Place},{Latitude},-119.05417,Poa secunda J.Presl,1
            """);
        var id = pile.Gatherings[0];
        using var program = await JsonProgram.OfPersonAsync(
            server, Role.Curator, Right.ReadRegister, Right.Settle, Right.NumberSheets);
        var issued = await program.PostAsync($"/api/v1/gatherings/{id}/numbers", new { seriesId = pile.SeriesId });
        Assert.True(issued.Status == HttpStatusCode.OK, issued.Text);
        var sheet = issued.Body.GetProperty("catalogNumber").GetString();
        var before = await program.GetAsync($"/api/v1/gatherings/{id}");
        Assert.Contains(Place, before.Text, StringComparison.Ordinal);
        Assert.Contains(Latitude, before.Text, StringComparison.Ordinal);

        var protect = new { category = "extreme", reviewOn = "2036-01-01", reason = "a rare plant" };
        Assert.Equal(
            (HttpStatusCode)428, (await program.PostAsync($"/api/v1/gatherings/{id}/protections", protect)).Status);
        var done = await program.PostAsync($"/api/v1/gatherings/{id}/protections", protect, ifMatch: before.Tag);
        Assert.True(done.Status == HttpStatusCode.OK, done.Text);

        foreach (var address in new[]
        {
            $"/api/v1/gatherings/{id}", $"/api/v1/specimens/{sheet}", $"/api/v1/specimens?q={name}", "/api/v1/specimens",
            "/api/v1/accessions",
        })
        {
            var answer = await program.GetAsync(address);
            Assert.Equal(HttpStatusCode.OK, answer.Status);
            Assert.DoesNotContain(Place, answer.Text, StringComparison.Ordinal);
            Assert.DoesNotContain(Latitude, answer.Text, StringComparison.Ordinal);
        }

        Assert.True((await program.GetAsync($"/api/v1/specimens/{sheet}")).Body.GetProperty("isProtected").GetBoolean());
    }
}
