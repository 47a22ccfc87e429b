using System.IO.Compression;
using System.Net;
using System.Text;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.Standards.DarwinCore;
using Accession.Core.Tests.Standards;
using Accession.Server.Publishing;
using Accession.Server.Tests.Ground;
using Accession.Storage;
using Accession.Storage.Localities;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Server.Tests.Publishing;

[Trait("Store", "sqlite")]
public sealed class ArchiveOnSqlite() : ArchiveTests(new ServerOnSqlite());

[Trait("Store", "postgres")]
public sealed class ArchiveOnPostgreSql() : ArchiveTests(new ServerOnPostgreSql());

[Trait("Store", "postgres")]
public sealed class ArchiveUnderPublicRole() : ArchiveTests(new ServerWithPublicRole());

/// <summary>The archive as a curator gets it, read by a stranger's reader.</summary>
public abstract class ArchiveTests(TestServer server) : IAsyncLifetime
{
    private static readonly DateTime At = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);

    // Words and digits that stand nowhere else: whatever is left of them in the archive has leaked.
    // The first two decimals of the point are public under the weaker categories.
    private static readonly string[] Secrets = ["Xyzzy", "43.987", "118.123", "1777", "1888", "43987", "118123"];

    private static readonly PublicPlace SecretPlace = new()
    {
        Country = "United States of America",
        County = "Harney",
        Municipality = "Xyzzyville",
        Locality = "Xyzzy Spring",
        Habitat = "Xyzzy meadow",
        Remarks = "Xyzzy remarks",
        CoordinatesVerbatim = "43.987654 N 118.123456 W at Xyzzy",
        Latitude = 43.987654,
        Longitude = -118.123456,
        CoordinatePrecision = 0.000001,
        UncertaintyInMeters = 17,
        ElevationVerbatim = "1777.25 m Xyzzy",
        MinimumElevationInMeters = 1777.25,
        MaximumElevationInMeters = 1888.25,
    };

    public ValueTask InitializeAsync() => server.InitializeAsync();

    public ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        return server.DisposeAsync();
    }

    [Fact]
    public async Task A_register_without_specimens_gives_a_valid_archive_of_headings()
    {
        using var zip = new MemoryStream(await BuildOnThePageAsync());
        AssertValid(zip);
        Assert.All(ArchiveSecondReader.Read(zip), file => Assert.Empty(file.Rows));
    }

    [Fact]
    public async Task The_archive_is_valid_and_holds_every_sheet()
    {
        await SeedAsync([.. HostileTexts.All.Select(InventedSheets.Everywhere), (new(), new())]);
        using var zip = new MemoryStream(await BuildOnThePageAsync());

        AssertValid(zip);
        var (core, history) = (ArchiveSecondReader.Read(zip)[0], ArchiveSecondReader.Read(zip)[1]);
        Assert.Equal(HostileTexts.All.Count + 1, core.Rows.Count);
        Assert.Equal(HostileTexts.All.Count, history.Rows.Count);
        Assert.All(core.Rows, row => Assert.NotEmpty(row.Id));
        Assert.Equal(core.Rows.Select(row => row.Id).Distinct(), core.Rows.Select(row => row.Id));
        Assert.Subset(core.Rows.Select(row => row.Id).ToHashSet(), history.Rows.Select(row => row.Id).ToHashSet());
        Assert.Equal(
            HostileTexts.All.Select(ArchiveLine.Cell), core.Rows.SkipLast(1).Select(row => row["occurrenceRemarks"]));
        Assert.Equal(["TB-H0000001", "TB"], [core.Rows[0]["catalogNumber"], core.Rows[0]["institutionCode"]]);
    }

    [Theory]
    [InlineData(SensitivityCategory.Extreme)]
    [InlineData(SensitivityCategory.High)]
    [InlineData(SensitivityCategory.Medium)]
    public async Task A_protected_place_is_nowhere_in_the_archive(SensitivityCategory category)
    {
        var ids = await SeedAsync([(new FieldNotes { RecordNumber = "812" }, SecretPlace)]);
        Assert.NotEmpty(await LeaksAsync());   // what is looked for is found while nothing is protected
        await ProtectAsync(ids[0], category);

        Assert.Equal([], await LeaksAsync());
        using var zip = new MemoryStream(await BuildOnThePageAsync());
        var row = Assert.Single(ArchiveSecondReader.Read(zip)[0].Rows);
        Assert.Equal(["Harney", "812", ""], [row["county"], row["recordNumber"], row["locality"]]);
        Assert.NotEmpty(row["informationWithheld"]);
        Assert.Equal(category == SensitivityCategory.Extreme, row["decimalLatitude"] == "");
        Assert.Equal(category == SensitivityCategory.Extreme, row["dataGeneralizations"] == "");
    }

    [Fact]
    public async Task The_data_set_keeps_its_identifier_and_counts_its_versions()
    {
        var first = Package(await BuildOnThePageAsync());
        var second = Package(await BuildOnThePageAsync());
        Assert.Equal(first.Split('/')[0], second.Split('/')[0]);
        Assert.Equal(["v1", "v2"], [first.Split('/')[1], second.Split('/')[1]]);

        static string Package(byte[] archive)
        {
            using var zip = new MemoryStream(archive);
            var eml = ArchiveSecondReader.ReadText(zip, "eml.xml");
            return eml.Split("packageId=\"")[1].Split('"')[0];
        }
    }

    [Theory]
    [InlineData("/archive/..%2Fregister.db")]
    [InlineData("/archive/..%2F..%2Fregister.zip")]
    [InlineData("/archive/.zip")]
    [InlineData("/archive/register.db")]
    [InlineData("/archive/tb-h-2026-01-01-v9.zip")]
    public async Task Only_archives_can_be_taken_away(string address)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var answer = await curator.Http.GetAsync(new Uri(server.Address, address));
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    public async Task What_is_stopped_half_way_leaves_nothing_behind()
    {
        await SeedAsync([InventedSheets.Everywhere("text")]);
        var wanted = await server.RunAsync<WantArchive, Outcome<WantArchive.Wanted>>(
            want => want.RunAsync(new(InBackground: false), Door.System, CancellationToken.None));
        var file = Path.Combine(server.Store.Folder, "stopped.zip");
        var request = new BuildArchive.Request(wanted.Value.ActId, file, Replace: false);

        await Assert.ThrowsAsync<TimeoutException>(() => server.RunAsync<BuildArchive, Outcome<BuildArchive.Archive>>(
            build => build.RunAsync(request, (_, _, _) => throw new TimeoutException(), CancellationToken.None)));
        using var stop = new CancellationTokenSource();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(
            () => server.RunAsync<BuildArchive, Outcome<BuildArchive.Archive>>(
                build => build.RunAsync(request, (_, _, _) => stop.CancelAsync(), stop.Token)));
        Assert.Empty(Directory.EnumerateFiles(server.Store.Folder, "stopped.zip*"));
    }

    private async Task<IReadOnlyList<long>> SeedAsync(IReadOnlyList<(FieldNotes, PublicPlace)> sheets) =>
        await server.InRegisterAsync(db => InventedSheets.SeedAsync(db, At, sheets));

    private async Task ProtectAsync(long gatheringId, SensitivityCategory category)
    {
        await using var scope = server.App.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        var exact = new ExactLocalities(db, TimeProvider.System);
        var act = Act.Of(Door.System, "protect a place", At, "It is dug up.");
        var outcome = await db.CarryOutAsync<long>(
            Door.System,
            act,
            async () =>
            {
                var gathering = await db.Gatherings.SingleAsync(g => g.Id == gatheringId);
                var refusal = await exact.ProtectAsync(gathering, new(category, null), act, CancellationToken.None);
                return refusal is null ? gatheringId : refusal;
            },
            CancellationToken.None);
        Assert.False(outcome.IsRefused);
    }

    private async Task<IReadOnlyList<string>> LeaksAsync()
    {
        using var zip = new ZipArchive(new MemoryStream(await BuildOnThePageAsync()));
        List<string> leaks = [];
        foreach (var entry in zip.Entries)
        {
            await using var content = entry.Open();
            using var reader = new StreamReader(content, Encoding.Latin1);   // every byte is a character
            var text = await reader.ReadToEndAsync();
            leaks.AddRange(Secrets.Where(secret => text.Contains(secret, StringComparison.OrdinalIgnoreCase))
                .Select(secret => $"{secret} in {entry.FullName}"));
        }

        return leaks;
    }

    private async Task<byte[]> BuildOnThePageAsync()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var before = await curator.GetPageAsync("/archive");
        var answer = await curator.SubmitAsync(before, "main form");
        Assert.Equal("/archive", answer.Location);
        await server.WaitForWorkAsync();
        var after = await curator.GetPageAsync("/archive");
        var links = after.All("a[href$='.zip']");
        Assert.Equal(before.All("a[href$='.zip']").Count + 1, links.Count);
        return await curator.Http.GetByteArrayAsync(new Uri(server.Address, links[0].GetAttribute("href")!));
    }

    private static void AssertValid(MemoryStream zip)
    {
        var dwc = new PublishedSchema(ReferenceData.Require("standards", "dwc", "xsd", "tdwg_dwc_text.xsd"));
        Assert.Empty(dwc.Against(Bytes("meta.xml")));
        foreach (var schema in EmlSchemas())
        {
            Assert.Empty(schema.Against(Bytes("eml.xml")));
        }

        byte[] Bytes(string name) => Encoding.UTF8.GetBytes(ArchiveSecondReader.ReadText(zip, name));
    }

    private static IEnumerable<PublishedSchema> EmlSchemas() =>
    [
        new(ReferenceData.Require("standards", "gbif", "eml-gbif-profile-1.3", "eml.xsd")),
        new(ReferenceData.Require("standards", "gbif", "eml-2.2.0", "eml.xsd")),
    ];
}
