using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class ThreadOnSqlite(ServerOnSqlite server) : ThreadTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ThreadOnPostgreSql(ServerOnPostgreSql server) : ThreadTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>The main job, through the doors: a list comes in, its rows are taken in, its sheets get numbers.</summary>
public abstract class ThreadTests(TestServer server)
{
    // Invented people and places; the counties are real ones of Oregon.
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Locality,Lat,Long,Elev (ft),Species,Sheets
        "Orla Finch & T. Brandt",101,2024-06-14,Oregon,Harney,"Sage flat, 3 km N of Cold Ford",43.58642,-119.05417,"4,120",Artemisia tridentata Nutt.,2
        Orla Finch,102,12 Jul 2024,Oregon,Harney,Cold Ford,43°35'11.1"N,119°03'15.1"W,4100,Poa secunda J.Presl,
        Orla Finch,103,31.02.2024,Oregon,Lake,Dry wash,,,,Bromus tectorum L.,1
        """;

    [Fact]
    public async Task A_list_becomes_an_accession_and_numbered_sheets()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var prefix = $"T{Guid.NewGuid():N}"[..6].ToUpperInvariant().Replace('0', 'X');
        await Bench.BeginSeriesAsync(curator, prefix);

        // In.
        var batch = await Bench.ReceiveAsync(server, curator, $"Finch {prefix}", "list.csv", Encoding.UTF8.GetBytes(List));
        Assert.Contains("2 rows", batch.One(".page-head a.act:not(.second)").TextContent, StringComparison.Ordinal);
        var open = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/rows?show=open");
        Assert.Contains("31.02.2024", open.Text, StringComparison.Ordinal);
        Assert.Contains("February", open.Text, StringComparison.Ordinal);

        // Accepted: the count of the pile is explained when it differs.
        var takeIn = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-in");
        var refused = await curator.SubmitAsync(takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", "4")]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("promises 3 sheets", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        var accepted = await curator.SubmitAsync(takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", "3")]);
        Assert.Empty(accepted.Refusals);
        var taken = await curator.FollowAsync(accepted);
        await server.WaitForWorkAsync();
        taken = await curator.GetPageAsync(taken.Address.AbsolutePath);
        var accession = taken.One("dd a.code").TextContent;
        Assert.Matches("^[0-9]{4}\\.[0-9]{4}$", accession);

        // Numbered: one from the series, scanned back; the twin from a roll.
        await Bench.RegisterRollAsync(curator, prefix, 1001, 1010);
        using var technician = await server.SignInAsync(Role.Technician);
        var bench = await technician.GetPageAsync($"/accession/{accession}/numbering");
        Assert.Contains("Sage flat", bench.Text, StringComparison.Ordinal);
        var issued = await technician.SubmitAsync(bench, $"form[action$='handler=Next']:has(input[value='{Bench.SeriesId(bench, prefix)}'])");
        Assert.Contains($"{prefix}0000001", issued.One(".verdict").TextContent, StringComparison.Ordinal);
        var proven = await technician.SubmitAsync(issued, ".scan-line", [("code", $"{prefix}0000001")]);
        Assert.Equal("Proven", proven.One(".scan:first-child .state").TextContent);
        var rolled = await technician.SubmitAsync(proven, ".scan-line", [("code", $"{prefix.ToLowerInvariant()}0001001")]);
        Assert.Equal("Numbered", rolled.One(".scan:first-child .state").TextContent);
        var outside = await technician.SubmitAsync(rolled, ".scan-line", [("code", $"{prefix}0009999")]);
        Assert.Equal(HttpStatusCode.NotFound, outside.Status);
        Assert.Contains("stands on no roll", outside.Text, StringComparison.Ordinal);
        var twice = await technician.SubmitAsync(outside, ".scan-line", [("code", $"{prefix}0001001")]);
        Assert.Equal(HttpStatusCode.Conflict, twice.Status);
        Assert.Contains("Finch", twice.One(".scan:first-child").TextContent, StringComparison.Ordinal);
        var joined = await technician.SubmitAsync(twice, ".scan-line", [("code", $"{prefix}0001002{prefix}0001003")]);
        Assert.Contains("ran together", joined.Text, StringComparison.Ordinal);

        // The specimen, drawn like its label; any spelling of its number leads to it.
        var specimen = await technician.FollowAsync(await technician.GetPageAsync($"/specimen/{prefix.ToLowerInvariant()}-1"));
        Assert.Equal($"/specimen/{prefix}0000001", specimen.Address.AbsolutePath);
        var label = specimen.One("article.label").TextContent;
        Assert.Contains("Artemisia tridentata", label, StringComparison.Ordinal);
        Assert.Contains("14 Jun 2024", label, StringComparison.Ordinal);
        Assert.Contains("1,255.8 m", label, StringComparison.Ordinal);   // 4,120 ft x 0.3048
        Assert.Contains("Test Technician", specimen.One("ol.trail").TextContent, StringComparison.Ordinal);
    }
}
