using System.Globalization;
using System.Text;
using System.Text.Json;
using Accession.Core.Matching;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Tests;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class CheckCommandOnSqlite(ServerOnSqlite server) : CheckCommandTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class CheckCommandOnPostgreSql(ServerOnPostgreSql server)
    : CheckCommandTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>The command beside a running server: it says what receiving would bring, and stores nothing.</summary>
public abstract class CheckCommandTests(TestServer server)
{
    private const string Header = "Collector,Number,Date,Species,County,Locality\n";

    // Invented people and places.
    private const string Held = Header
        + "Ada Quill,101,2024-05-01,Poa annua L.,Harney,Mill lane\n"
        + "Ada Quill,102,2024-05-02,Carex hirta L.,Harney,Wet ditch\n"
        + "Orla Finch,7,2023-06-11,Bromus tectorum L.,Lake,Old quarry\n";

    // A duplicate of what is held, the same number on another day and place, twins within the list, a date that is none.
    private const string Incoming = Header
        + "A. Quill,101,1 May 2024,Poa annua,Harney,Mill lane\n"
        + "Orla Finch,7,1999-08-30,Poa annua L.,Curry,Sandy beach\n"
        + "Tobias Fennel,55,2022-07-01,Stipa comata Trin. & Rupr.,Lake,North gate\n"
        + "Tobias Fennel,55,2022-07-01,Stipa comata Trin. & Rupr.,Lake,North gate\n"
        + "Tobias Fennel,56,31.02.2022,Stipa comata Trin. & Rupr.,Lake,North gate\n";

    /// <summary>A row that is not new: what it is, with what, and why.</summary>
    private sealed record Found(int Line, string Kind, string With);

    private sealed record Problem(int Line, string Column, string Written, string Reason, bool HoldsUp);

    [Fact]
    public async Task It_finds_what_receiving_finds_and_stores_nothing()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await HoldAsync(curator);
        var before = await RegisterPicture.TakeAsync(server.Store);
        var (exit, problems, found, summary) = await CheckAsync("found.csv", Incoming, "--source", "Incoming");
        Assert.Equal(before, await RegisterPicture.TakeAsync(server.Store));

        Assert.Equal(3, exit);
        Assert.True(summary.GetProperty("comparedWithHoldings").GetBoolean());
        Assert.Equal(5, summary.GetProperty("rows").GetInt32());
        Assert.Equal((6, "Date", "31.02.2022", true), problems.Select(p => (p.Line, p.Column, p.Written, p.HoldsUp)).Single());
        Assert.Equal(["sameGathering", "numberClash", "repeat"], found.GroupBy(f => f.Line).Select(of => of.First().Kind));
        await AsReceivedAsync(curator, "Incoming", "found.csv", Encoding.UTF8.GetBytes(Incoming), problems, found);
    }

    [Fact]
    public async Task A_list_of_a_source_that_comes_corrected_is_compared_with_the_earlier_one()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await Bench.ReceiveAsync(server, curator, "Corrected", "first.csv", Encoding.UTF8.GetBytes(Incoming));
        var corrected = Incoming.Replace("31.02.2022", "28.02.2022", StringComparison.Ordinal);
        var before = await RegisterPicture.TakeAsync(server.Store);
        var (exit, problems, found, summary) = await CheckAsync("corrected.csv", corrected, "--source", "corrected");
        Assert.Equal(before, await RegisterPicture.TakeAsync(server.Store));

        Assert.Equal(3, exit);
        Assert.Equal(first.Address.Segments[^1], summary.GetProperty("belongsTo").GetRawText());
        await AsReceivedAsync(curator, "Corrected", "corrected.csv", Encoding.UTF8.GetBytes(corrected), problems, found);

        var (_, _, _, again) = await CheckAsync("again.csv", corrected, "--source", "Corrected");
        Assert.Equal(first.Address.Segments[^1], again.GetProperty("hereAs").GetRawText());
    }

    [Fact]
    public async Task It_waits_for_nobody_who_writes_and_nobody_waits_for_it()
    {
        var id = $"{Guid.NewGuid():N}";
        // Whoever holds the one write lock of the embedded database holds up everybody else who wants to write.
        await using var db = server.Store.Open();
        await using var writing = await db.Database.BeginTransactionAsync();
        await db.Database.ExecuteSqlAsync($"INSERT INTO source (name, folded_name, remembered_match) VALUES ({id}, {id}, '')");
        var (exit, _, _, _) = await CheckAsync($"{id}.csv", Header + "Ada Quill,1,2020-01-01,Poa annua L.,Lake,Fen\n");
        Assert.Equal(0, exit);
        await writing.CommitAsync();
        Assert.Equal(1, await db.Sources.CountAsync(source => source.Name == id));
    }

    [Theory]
    [InlineData("donation-1.csv")]
    [InlineData("donation-2.xlsx")]
    public async Task Both_donations_are_found_as_receiving_finds_them(string donation)
    {
        var path = ReferenceData.Require("samples", "batches", donation);
        var holdings = ReferenceData.Require("samples", "batches", "holdings.csv");
        using var curator = await server.SignInAsync(Role.Curator);
        await HoldAsync(curator);   // which begins the series, too
        if (!await server.InRegisterAsync(db => db.Sources.AnyAsync(source => source.Name == "Holdings")))
        {
            var batch = await Bench.ReceiveAsync(
                server, curator, "Holdings", "holdings.csv", await File.ReadAllBytesAsync(holdings), carriesNumbers: true);
            await TakenOver.TakeAsync(server, curator, batch);
        }

        var before = await RegisterPicture.TakeAsync(server.Store);
        var (exit, problems, found, _) = await CheckFileAsync(path, "--source", donation);
        Assert.Equal(before, await RegisterPicture.TakeAsync(server.Store));
        Assert.Equal(3, exit);
        Assert.True(found.Select(f => f.Line).Distinct().Count() > 200);
        await AsReceivedAsync(curator, donation, donation, await File.ReadAllBytesAsync(path), problems, found);
    }

    private async Task HoldAsync(Visitor curator)
    {
        if (await server.InRegisterAsync(db => db.Sources.AnyAsync(source => source.Name == "Held")))
        {
            return;
        }

        await Bench.BeginSeriesAsync(curator, "CHK");
        var batch = await Bench.ReceiveAsync(server, curator, "Held", "held.csv", Encoding.UTF8.GetBytes(Held));
        var takeIn = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-in");
        Assert.Empty((await curator.SubmitAsync(takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", "3")])).Refusals);
        await server.WaitForWorkAsync();
    }

    private async Task<(int Exit, List<Problem> Problems, List<Found> Found, JsonElement Summary)> CheckAsync(
        string name, string text, params string[] more)
    {
        var outside = Directory.CreateTempSubdirectory("accession-test-").FullName;
        try
        {
            var file = Path.Combine(outside, name);
            await File.WriteAllTextAsync(file, text);
            return await CheckFileAsync(file, more);
        }
        finally
        {
            Directory.Delete(outside, recursive: true);
        }
    }

    private async Task<(int Exit, List<Problem> Problems, List<Found> Found, JsonElement Summary)> CheckFileAsync(
        string file, params string[] more)
    {
        server.Store.Require();
        var (exit, told, remarks) = await ServerProcess.RunApartAsync(
        [
            "check", file, "--json", "--data", server.Store.Folder,
            .. server.Store.Settings.SelectMany(setting => new[] { "--set", setting }),
            "--set", "Institution:InstitutionCode=TB", "--set", "Institution:CollectionCode=TB-H", .. more,
        ]);
        Assert.True(exit is 0 or 3, remarks);
        var lines = told.Select(line => JsonDocument.Parse(line).RootElement).ToList();
        ILookup<string, JsonElement> of = lines.ToLookup(line => line.GetProperty("type").GetString()!);
        return (
            exit,
            [
                .. of["problem"].Select(p => new Problem(
                    p.GetProperty("line").GetInt32(), p.GetProperty("column").GetString()!,
                    p.GetProperty("written").GetString()!, p.GetProperty("reason").GetString()!,
                    p.GetProperty("holdsUp").GetBoolean())),
            ],
            [
                .. of["finding"].SelectMany(f => f.GetProperty("with").EnumerateArray().Select(with => new Found(
                    f.GetProperty("line").GetInt32(), f.GetProperty("kind").GetString()!,
                    $"{with.GetProperty("catalogNumber")}{with.GetProperty("line")}: "
                    + string.Join(' ', with.GetProperty("reasons").EnumerateArray().Select(reason => reason.GetString()))))),
            ],
            Assert.Single(of["summary"]));
    }

    // Receives the list for good, by the page, and holds what is stored beside what was said.
    private async Task AsReceivedAsync(
        Visitor curator, string source, string name, byte[] bytes, List<Problem> problems, List<Found> found)
    {
        var batch = await Bench.ReceiveAsync(server, curator, source, name, bytes);
        var id = long.Parse(batch.Address.Segments[^1], CultureInfo.InvariantCulture);
        var list = await server.InRegisterAsync(db => db.Lists.Where(l => l.BatchId == id).MaxAsync(l => l.Id));
        Assert.Equal(
            await server.InRegisterAsync(db => db.Problems.Where(p => p.ListId == list).OrderBy(p => p.Line).ThenBy(p => p.Id)
                .Select(p => new Problem(p.Line, p.ColumnName, p.Text, p.Reason, p.Blocks)).ToListAsync()),
            problems);
        var stored = await server.InRegisterAsync(db => db.Rows
            .Where(row => row.LastListId == list && row.Finding != null && row.Finding != FindingKind.New)
            .Join(db.FoundMembers, row => row.Id, member => member.RowId, (row, member) => new { row, member })
            .OrderBy(pair => pair.row.Line).ThenBy(pair => pair.row.Id).ThenBy(pair => pair.member.Id)
            .Select(pair => new
            {
                pair.row.Line,
                Kind = pair.row.Finding!.Value,
                pair.member.Evidence,
                Sheet = db.Specimens.Where(s => s.GatheringId == pair.member.GatheringId).OrderBy(s => s.Id)
                    .Select(s => s.CatalogNumber).FirstOrDefault(),
                Other = db.Rows.Where(row => row.Id == pair.member.OtherRowId).Select(row => (int?)row.Line).FirstOrDefault(),
            })
            .ToListAsync());
        Assert.Equal(
            stored.Select(s => new Found(
                s.Line, JsonNamingPolicy.CamelCase.ConvertName(s.Kind.ToString()),
                $"{s.Sheet}{s.Other}: {string.Join(' ', Evidence.FromPacked(s.Evidence).Sentences(s.Kind))}")),
            found);
    }
}
