using Accession.Core.Standards.DarwinCore;
using Accession.Tests.Stores;

namespace Accession.Storage.Tests.Databases;

/// <summary>The same sheets give the same bytes, whichever database holds them.</summary>
[Trait("Store", "postgres")]
public sealed class SameLinesTests(StoreOnSqlite embedded, StoreOnPostgreSql server)
    : IClassFixture<StoreOnSqlite>, IClassFixture<StoreOnPostgreSql>
{
    [Fact]
    public async Task Both_databases_give_the_same_bytes()
    {
        Assert.SkipWhen(server.WhyMissing is not null, server.WhyMissing ?? "");
        var files = new[] { OccurrenceColumns.File, IdentificationColumns.File };
        foreach (var (one, other) in (await BytesAsync(embedded, files)).Zip(await BytesAsync(server, files)))
        {
            Assert.NotEmpty(one);
            Assert.Equal(one, other);
        }
    }

    private static async Task<IReadOnlyList<byte[]>> BytesAsync(TestStore store, ArchiveFile[] files)
    {
        await using var db = store.Open();
        await InventedSheets.SeedAsync(
            db,
            new DateTime(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc),
            [.. HostileTexts.All.Select(InventedSheets.Everywhere), (new(), new())]);
        await using var moment = await db.Kind.ArchiveLines.HoldAsync(db, CancellationToken.None);
        List<byte[]> all = [];
        foreach (var file in files)
        {
            all.Add(await ArchiveLinesTests.BytesAsync(moment, file));
        }

        return all;
    }
}
