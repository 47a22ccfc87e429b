using System.IO.Compression;
using System.Net;
using System.Text.Json;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Accounts;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class JsonThreadOnSqlite(ServerOnSqlite server) : JsonThreadTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class JsonThreadOnPostgreSql(ServerOnPostgreSql server)
    : JsonThreadTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>From the list to the archive by programs alone. People and places are invented.</summary>
public abstract class JsonThreadTests(TestServer server)
{
    private const string Heading = "Collector,Number,Date,State,County,Locality,Lat,Long,Species,Sheets\n";

    [Fact]
    public async Task A_list_becomes_numbered_sheets_and_an_archive()
    {
        using var curator = await JsonProgram.OfPersonAsync(
            server, Role.Curator, Right.SendLists, Right.Settle, Right.KeepNumbers, Right.ReadRegister, Right.Publish);
        using var bench = await JsonProgram.DeviceAsync(server, "Bench 2", [Right.NumberSheets]);
        await BeginAsync(curator);
        var name = InventedNames.FamilyOf("json-thread");

        var received = await curator.SendListAsync($"Exchange {name}", Heading + $"""
            J. R. {name},12,2024-06-14,Oregon,Harney,Sage flat north of the ford,43.58642,-119.05417,Poa secunda J.Presl,1
            J. R. {name},12,14.VI.2024,Oregon,Harney,"Sage flat, N of the ford",43.5865,-119.0541,Poa secunda J.Presl,1
            J. R. {name},13,31.02.2024,Oregon,Lake,Dry wash,42.9,-120.1,Bromus tectorum L.,1
            """);
        Assert.Equal(HttpStatusCode.Accepted, received.Status);
        var path = received.Headers.Location!.OriginalString;
        await server.WaitForWorkAsync();

        // Followed, its rows and problems seen.
        var read = await curator.GetAsync(path);
        Assert.Equal(JsonValueKind.Null, read.Body.GetProperty("work").ValueKind);
        Assert.Equal(1, read.Body.GetProperty("figures").GetProperty("open").GetInt32());
        var rows = (await curator.GetAsync($"{path}/rows")).Items;
        Assert.Equal(3, rows.Length);
        Assert.Equal("14.VI.2024", rows[1].GetProperty("written").GetProperty("Date").GetString());
        Assert.Equal("2024-06-14", rows[1].GetProperty("read").GetProperty("eventDate").GetString());
        var problem = Assert.Single((await curator.GetAsync($"{path}/problems")).Items);
        Assert.Equal((4, "Date"), (problem.GetProperty("line").GetInt32(), problem.GetProperty("column").GetString()));
        var written = await curator.PostAsync(
            $"{path}/rows-as-written", new { rowIds = new[] { problem.GetProperty("rowId").GetInt64() }, reason = "no such day" });
        Assert.Equal(HttpStatusCode.OK, written.Status);

        // A finding settled, reopened, settled again.
        var found = Assert.Single((await curator.GetAsync($"{path}/findings")).Items);
        Assert.Equal("sameGathering", found.GetProperty("finding").GetString());
        Assert.NotEmpty(found.GetProperty("with")[0].GetProperty("reasons").EnumerateArray());
        var rowId = found.GetProperty("rowId").GetInt64();
        var keep = new { rowId, decision = "keep", seen = found.GetProperty("seen").GetInt64() };
        Assert.Equal(HttpStatusCode.OK, (await curator.PostAsync($"{path}/decisions", keep)).Status);
        Assert.Single((await curator.GetAsync($"{path}/findings?show=settled")).Items);
        Assert.Equal(
            HttpStatusCode.OK, (await curator.PostAsync($"{path}/findings/{rowId}/reopenings", null)).Status);
        found = Assert.Single((await curator.GetAsync($"{path}/findings")).Items);
        keep = keep with { seen = found.GetProperty("seen").GetInt64() };
        Assert.Equal(HttpStatusCode.OK, (await curator.PostAsync($"{path}/decisions", keep)).Status);

        // Taken in, numbered by scans.
        var settled = await curator.GetAsync(path);
        var taken = await curator.PostAsync(
            $"{path}/accessions", new { terms = "gift", sheetsInPile = 3, rowsShown = 3 }, ifMatch: settled.Tag);
        Assert.True(taken.Status == HttpStatusCode.Accepted, taken.Text);
        await server.WaitForWorkAsync();
        var number = taken.Body.GetProperty("accessionNumber").GetString()!;
        Assert.Contains(
            (await bench.GetAsync("/api/v1/piles?limit=500")).Items,
            pile => pile.GetProperty("number").GetString() == number);
        await ScanAsync(bench, number);

        // Read, and published.
        var specimen = await curator.GetAsync("/api/v1/specimens/JSN0000001");
        Assert.Equal(number, specimen.Body.GetProperty("accessionNumber").GetString());
        Assert.Equal("Poa secunda J.Presl", specimen.Body.GetProperty("currentName").GetString());
        Assert.True(specimen.Body.GetProperty("parts")[0].GetProperty("isNumbered").GetBoolean());
        Assert.Equal(HttpStatusCode.NotModified, (await curator.GetAsync("/api/v1/specimens/JSN0000001", specimen.Tag)).Status);
        Assert.Equal(2, (await curator.GetAsync($"/api/v1/specimens?q={name}%2012")).Items.Length);
        Assert.Equal(3, (await curator.GetAsync($"/api/v1/accessions/{number}")).Body.GetProperty("sheetsNumbered").GetInt32());
        await ArchiveAsync(curator);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    // The trail names the device, and its acts bear its number.
    private async Task ScanAsync(JsonProgram bench, string accession)
    {
        var gatherings = (await bench.GetAsync($"/api/v1/piles/{accession}/gatherings")).Items;
        Assert.Equal(3, gatherings.Length);
        for (var i = 0; i < 3; i++)
        {
            var scanned = await bench.PostAsync(
                "/api/v1/scans",
                new { code = $"JSN{i + 1:0000000}", gatheringId = gatherings[i].GetProperty("id").GetInt64() });
            Assert.True(scanned.Status == HttpStatusCode.OK, scanned.Text);
            Assert.Equal("numbered", scanned.Body.GetProperty("result").GetString());
        }

        var acts = await server.InRegisterAsync(async db =>
        {
            await Task.CompletedTask;
            return db.Acts.Where(act => act.ActorName == "Bench 2" && act.What == "number a sheet")
                .Select(act => act.ActorId).Distinct().ToList();
        });
        Assert.StartsWith("device:", Assert.Single(acts), StringComparison.Ordinal);
    }

    private async Task ArchiveAsync(JsonProgram curator)
    {
        var wanted = await curator.PostAsync("/api/v1/archives", null);
        Assert.True(wanted.Status == HttpStatusCode.Accepted, wanted.Text);
        await server.WaitForWorkAsync();
        var work = await curator.GetAsync(wanted.Headers.Location!.OriginalString);
        Assert.True(work.Body.GetProperty("isFinished").GetBoolean());
        var archive = (await curator.GetAsync("/api/v1/archives")).Items[0];
        Assert.Equal(work.Body.GetProperty("id").GetInt64(), archive.GetProperty("id").GetInt64());
        await using var bytes = await curator.Http.GetStreamAsync(
            $"/api/v1/archives/{archive.GetProperty("file").GetString()}");
        using var zip = new ZipArchive(bytes);
        Assert.NotNull(zip.GetEntry("meta.xml"));
    }

    private static async Task BeginAsync(JsonProgram curator)
    {
        await curator.PostAsync("/api/v1/series", new { name = "Sheets JSN", use = "specimens", pattern = "JSN0000000" });
        await curator.PostAsync("/api/v1/series", new { name = "Accessions", use = "accessions", pattern = "YYYY.0000" });
        var roll = await curator.PostAsync(
            "/api/v1/rolls", new { name = "Roll JSN", first = "JSN0000001", last = "JSN0000100" });
        Assert.True(roll.Status == HttpStatusCode.OK, roll.Text);
        var made = await curator.PostAsync("/api/v1/voids", new { first = "JSN0000099", reason = "torn" });
        Assert.True(made.Status == HttpStatusCode.OK, made.Text);
        var entry = (await curator.GetAsync("/api/v1/voids")).Items[0].GetProperty("id").GetInt64();
        Assert.Equal(
            HttpStatusCode.OK,
            (await curator.PostAsync($"/api/v1/voids/{entry}/withdrawals", new { reason = "found whole" })).Status);
    }
}
