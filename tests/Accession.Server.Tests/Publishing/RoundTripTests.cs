using System.IO.Compression;
using System.Text;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Server.Numbering;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Publishing;

[Trait("Store", "sqlite")]
public sealed class RoundTripOnSqlite(ServerOnSqlite server) : RoundTripTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class RoundTripOnPostgreSql(ServerOnPostgreSql server)
    : RoundTripTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>What goes out as an archive can come in again as a list, and no core field is lost on the way.</summary>
public abstract class RoundTripTests(TestServer server)
{
    // Invented people and places in real counties of Oregon.
    private const string List = """
        Collector;Coll. No.;Date coll.;Country;State;County;Locality;Habitat;Latitude;Longitude;Uncertainty (m);Elev (ft);Species;Family;Det.;Date det.;Notes;Associated species
        Orla Finch & T. Brandt;101;2024-06-14;United States;Oregon;Harney;"Sage flat; 3 km N of ""Cold"" Ford";sagebrush, silt;43.58642;-119.05417;30;4120-4150;Artemisia tridentata Nutt.;Asteraceae;R. Quillon;2025;shrub to 1 m;Poa sp.
        Ines Ørland;s.n.;Aug 1907;United States;Oregon;Lake;Dry wash;;43°35'11.1"N;119°03'15.1"W;;;Bromus tectorum L.;Poaceae;;;;
        T. Brandt;KB-12a;July 24-25, 1947;USA;Oregon;Malheur;Chalk bluff;alkaline clay;;;;1256 m;Cryptantha cf. humilis (Greene) Payson;Boraginaceae;T. Brandt;24 Jul 1947;flowers white;
        """;

    [Fact]
    public async Task What_comes_out_can_be_received_again_without_loss()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "RT");
        var first = await TakeInAsync(curator, "Sender of the list", "list.csv", Encoding.UTF8.GetBytes(List));
        await NumberEverySheetAsync();

        var again = await TakeInAsync(curator, "Reader of the archive", "occurrence.txt", await CoreFileAsync(curator));

        Assert.Equal(3, first.Count);
        Assert.Equal(first.Select(Core), again.Select(Core));

        // The archive as a whole says the same, and the history of the names stands beside the rows.
        var archive = await ArchiveAsync(curator);
        var whole = await TakeInAsync(curator, "Reader of the whole", "archive.zip", archive);
        Assert.Equal(first.Select(Core), whole.Select(Core));
        var cells = await server.InRegisterAsync(db => db.Rows
            .Where(row => db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name == "Reader of the whole"))
            .OrderBy(row => row.Line).Select(row => row.Cells).FirstAsync());
        Assert.Contains("scientificName: Artemisia tridentata Nutt.", cells, StringComparison.Ordinal);

        // Published anew it is another file and the same list.
        await Bench.ReceiveAsync(server, curator, "Reader of the whole", "again.zip", await ArchiveAsync(curator));
        var counts = await server.InRegisterAsync(db => db.Lists.Where(list => list.FileName == "again.zip")
            .Select(list => list.Counts).SingleAsync());
        Assert.Equal((3, 3, 0, 0), (counts.Rows, counts.Unchanged, counts.Added, counts.Withdrawn));
    }

    // The fields a reader of the archive would miss; what was written on the list stays with the list.
    private static object Core(Gathering gathering) => new
    {
        gathering.Notes.RecordedBy,
        gathering.Notes.RecordNumber,
        gathering.Notes.NumberKey,
        gathering.Notes.EventDate,
        gathering.Notes.NameVerbatim,
        gathering.Notes.Family,
        gathering.Notes.IdentifiedBy,
        gathering.Notes.DateIdentified,
        gathering.Notes.AssociatedTaxa,
        gathering.Place.Country,
        gathering.Place.CountryCode,
        gathering.Place.StateProvince,
        gathering.Place.County,
        gathering.Place.Locality,
        gathering.Place.Habitat,
        gathering.Place.Remarks,
        gathering.Place.Latitude,
        gathering.Place.Longitude,
        gathering.Place.UncertaintyInMeters,
        gathering.Place.MinimumElevationInMeters,
        gathering.Place.MaximumElevationInMeters,
    };

    // An archive of our own brings nothing but repeats; here they are wanted a second time.
    private static async Task TellRepeatsApartAsync(Visitor curator, string batch)
    {
        while (await curator.GetPageAsync($"{batch}/findings") is var page && page.All("button[value=Different]").Count > 0)
        {
            Assert.Equal("Repeat", page.One("#finding .mark").TextContent);
            var answer = await curator.SubmitAsync(page, "main form.form", press: "button[value=Different]");
            Assert.Empty(answer.Refusals);
        }
    }

    private async Task<IReadOnlyList<Gathering>> TakeInAsync(
        Visitor curator, string source, string fileName, byte[] bytes)
    {
        var batch = await Bench.ReceiveAsync(server, curator, source, fileName, bytes);
        var open = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/rows?show=open");
        Assert.True(open.All(".empty").Count > 0, open.Text);
        await TellRepeatsApartAsync(curator, batch.Address.AbsolutePath);
        var page = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-in");
        var answer = await curator.SubmitAsync(page, "main form", [("Terms", "Gift"), ("SheetsInPile", "3")]);
        Assert.Empty(answer.Refusals);
        await server.WaitForWorkAsync();
        var batchId = long.Parse(batch.Address.Segments[^1], System.Globalization.CultureInfo.InvariantCulture);
        return await server.InRegisterAsync(db => db.Gatherings.AsNoTracking()
            .Where(g => db.Rows.Any(row => row.Id == g.BatchRowId && row.BatchId == batchId))
            .OrderBy(g => g.Id).ToListAsync());
    }

    private async Task NumberEverySheetAsync()
    {
        var (series, gatherings) = await server.InRegisterAsync(async db => (
            await db.Series.Where(s => s.PatternText == "RT0000000").Select(s => s.Id).SingleAsync(),
            await db.Gatherings.OrderBy(g => g.Id).Select(g => g.Id).ToListAsync()));
        foreach (var gathering in gatherings)
        {
            var outcome = await server.RunAsync<NumberSheet, Outcome<SheetAtBench>>(number => number.RunAsync(
                new(gathering, series, null), Door.System, CancellationToken.None));
            Assert.False(outcome.IsRefused);
        }
    }

    private async Task<byte[]> ArchiveAsync(Visitor curator)
    {
        var page = await curator.GetPageAsync("/archive");
        await curator.SubmitAsync(page, "main form");
        await server.WaitForWorkAsync();
        var link = (await curator.GetPageAsync("/archive")).All("a[href$='.zip']")[0].GetAttribute("href")!;
        return await curator.Http.GetByteArrayAsync(new Uri(server.Address, link));
    }

    private async Task<byte[]> CoreFileAsync(Visitor curator)
    {
        await using var zip = new ZipArchive(new MemoryStream(await ArchiveAsync(curator)));
        await using var file = zip.GetEntry("occurrence.txt")!.Open();
        using var bytes = new MemoryStream();
        await file.CopyToAsync(bytes);
        return bytes.ToArray();
    }
}
