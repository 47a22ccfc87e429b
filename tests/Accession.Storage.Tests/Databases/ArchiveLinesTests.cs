using System.IO.Pipelines;
using System.Text;
using Accession.Core.Standards;
using Accession.Core.Standards.DarwinCore;
using Accession.Storage.Databases.Archives;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Tests.Databases;

[Trait("Store", "sqlite")]
public sealed class ArchiveLinesOnSqlite() : ArchiveLinesTests(() => new StoreOnSqlite());

[Trait("Store", "postgres")]
public sealed class ArchiveLinesOnPostgreSql() : ArchiveLinesTests(() => new StoreOnPostgreSql());

/// <summary>Lines come out of the database as they went in, but for what a line cannot hold.</summary>
public abstract class ArchiveLinesTests(Func<TestStore> makeStore) : IAsyncLifetime
{
    private static readonly DateTime At = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);
    private static readonly DatasetCells Cells = new("https://example.org/licence", "TB", "TB-H");

    private readonly TestStore _store = makeStore();

    public ValueTask InitializeAsync() => _store.InitializeAsync();

    public ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        return _store.DisposeAsync();
    }

    [Fact]
    public async Task A_hostile_text_in_any_column_comes_out_as_one_line_by_the_rule()
    {
        await using var db = _store.Open();
        await InventedSheets.SeedAsync(db, At, [.. HostileTexts.All.Select(InventedSheets.Everywhere)]);

        Assert.Equal(Expected(OccurrenceColumns.File), await LinesAsync(db, OccurrenceColumns.File));
        Assert.Equal(Expected(IdentificationColumns.File), await LinesAsync(db, IdentificationColumns.File));
    }

    [Fact]
    public async Task What_is_not_known_is_an_empty_cell()
    {
        await using var db = _store.Open();
        await InventedSheets.SeedAsync(db, At, (new(), new()));

        var cells = (await LinesAsync(db, OccurrenceColumns.File)).Single().Split('\t');
        var known = OccurrenceColumns.File.Columns.Zip(cells).Where(cell => cell.Second.Length > 0)
            .Select(cell => cell.First.Heading);
        Assert.Equal(OccurrenceColumns.File.Columns.Count, cells.Length);
        Assert.Equal(
            [
                "occurrenceID", "license", "institutionCode", "collectionCode", "basisOfRecord", "catalogNumber",
                "occurrenceStatus", "nomenclaturalCode",
            ],
            known);
        Assert.Empty(await LinesAsync(db, IdentificationColumns.File));
    }

    [Theory]
    [InlineData(0, "0")]
    [InlineData(43.5, "43.5")]
    [InlineData(-118.123456, "-118.123456")]
    [InlineData(0.1, "0.1")]
    [InlineData(0.00001, "0.00001")]         // never 1E-05
    [InlineData(1371.6, "1371.6")]
    [InlineData(1e20, "100000000000000000000")]
    [InlineData(179.99999999999997, "179.99999999999997")]
    public async Task A_number_is_written_with_the_shortest_digits_and_no_exponent(double number, string expected)
    {
        await using var db = _store.Open();
        await InventedSheets.SeedAsync(db, At, (new(), new() { Latitude = number }));
        var at = OccurrenceColumns.File.Columns.ToList().FindIndex(c => c.Value == PublishedValue.DecimalLatitude);
        Assert.Equal(expected, (await LinesAsync(db, OccurrenceColumns.File)).Single().Split('\t')[at]);
    }

    [Fact]
    public async Task The_determination_that_counts_stands_in_the_core_and_all_that_name_the_plant_in_the_history()
    {
        await using var db = _store.Open();
        await InventedSheets.SeedAsync(db, At, InventedSheets.Everywhere("first"), InventedSheets.Everywhere("other"));
        await db.Database.ExecuteSqlRawAsync("""
            INSERT INTO determination (specimen_id, act_id, name, qualifier, family, identified_by, date_identified)
            VALUES (1, 1, 'second', '', '', 'Somebody', '2026'), (1, 1, 'third', '', '', 'Somebody else', '1998');
            INSERT INTO determination (specimen_id, act_id, name, qualifier, family, identified_by, date_identified, kind)
            VALUES (1, 1, 'denied', '', '', 'Somebody', '2026', 'Rejection')
            """);
        // Neither the first nor the newest: the one that a curator let count.
        await db.Specimens.Where(s => s.Id == 1).ExecuteUpdateAsync(row => row.SetProperty(
            s => s.CurrentDeterminationId,
            _ => db.Determinations.Where(d => d.Name == "second").Select(d => (long?)d.Id).Single()));

        var columns = OccurrenceColumns.File.Columns.ToList();
        var name = columns.FindIndex(c => c.Value == PublishedValue.ScientificName);
        var identifier = columns.FindIndex(c => c.Value == PublishedValue.IdentificationId);
        var core = (await LinesAsync(db, OccurrenceColumns.File)).Select(line => line.Split('\t')).ToList();
        var history = (await LinesAsync(db, IdentificationColumns.File)).Select(line => line.Split('\t')).ToList();
        Assert.Equal(["second", "other"], core.Select(cells => cells[name]));
        Assert.Equal(["first", "second", "third", "other"], history.Select(cells => cells[2]));
        Assert.Equal([history[1][1], history[3][1]], core.Select(cells => cells[identifier]));
        Assert.Equal(4, history.Select(cells => cells[1]).Distinct().Count());
    }

    [Fact]
    public async Task What_is_written_meanwhile_is_not_of_this_moment()
    {
        await using var db = _store.Open();
        await InventedSheets.SeedAsync(db, At, InventedSheets.Everywhere("before"));
        await using var moment = await db.Kind.ArchiveLines.HoldAsync(db, CancellationToken.None);
        Assert.Equal(1, await moment.CountAsync(OccurrenceColumns.File, CancellationToken.None));

        await db.Database.ExecuteSqlRawAsync("UPDATE gathering SET habitat = 'after'");
        await db.Database.ExecuteSqlRawAsync("DELETE FROM determination");

        Assert.Contains("before", Encoding.UTF8.GetString(await BytesAsync(moment, OccurrenceColumns.File)));
        Assert.NotEmpty(await BytesAsync(moment, IdentificationColumns.File));
    }

    [Fact]
    public async Task Whoever_stops_taking_lines_up_stops_the_reading()
    {
        await using var db = _store.Open();
        await InventedSheets.SeedAsync(db, At, [.. HostileTexts.All.Select(InventedSheets.Everywhere)]);
        await using var moment = await db.Kind.ArchiveLines.HoldAsync(db, CancellationToken.None);
        var pipe = new Pipe();
        await pipe.Reader.CompleteAsync();
        await Assert.ThrowsAsync<IOException>(() =>
            moment.WriteAsync(OccurrenceColumns.File, Cells, new LineWriter(pipe.Writer), CancellationToken.None));
    }

    internal static async Task<byte[]> BytesAsync(Storage.Databases.IArchiveMoment moment, ArchiveFile file)
    {
        var pipe = new Pipe(new PipeOptions(pauseWriterThreshold: 0));
        await moment.WriteAsync(file, Cells, new LineWriter(pipe.Writer), CancellationToken.None);
        await pipe.Writer.CompleteAsync();
        using var all = new MemoryStream();
        await pipe.Reader.CopyToAsync(all);
        return all.ToArray();
    }

    private static async Task<IReadOnlyList<string>> LinesAsync(AccessionDb db, ArchiveFile file)
    {
        await using var moment = await db.Kind.ArchiveLines.HoldAsync(db, CancellationToken.None);
        var lines = Encoding.UTF8.GetString(await BytesAsync(moment, file)).Split('\n');
        Assert.Equal("", lines[^1]);
        return lines[..^1];
    }

    private static IEnumerable<string> Expected(ArchiveFile file) => HostileTexts.All.Select((text, i) =>
        string.Join('\t', file.Columns.Select(column => Expected(column.Value, OneLine.Of(text), i + 1))));

    private static string Expected(PublishedValue value, string text, int key) => value switch
    {
        PublishedValue.OccurrenceId => $"urn:uuid:00000000-0000-4000-8000-{100_000_000_000 + key}",
        PublishedValue.IdentificationId => $"urn:uuid:00000000-0000-4000-8000-{100_000_000_000 + key}#{key}",
        PublishedValue.License => Cells.License,
        PublishedValue.InstitutionCode => Cells.InstitutionCode,
        PublishedValue.CollectionCode => Cells.CollectionCode,
        PublishedValue.BasisOfRecord => "PreservedSpecimen",
        PublishedValue.OccurrenceStatus => "present",
        PublishedValue.NomenclaturalCode => "ICN",
        PublishedValue.CatalogNumber => $"TB-H{key:0000000}",
        PublishedValue.Year => "1987",
        PublishedValue.Month => "6",
        PublishedValue.Day => "14",
        PublishedValue.DecimalLatitude => "43.5",
        PublishedValue.DecimalLongitude => "-118.25",
        PublishedValue.CoordinatePrecision => "0.00001",
        PublishedValue.CoordinateUncertaintyInMeters => "30",
        PublishedValue.MinimumElevationInMeters => "1371.6",
        PublishedValue.MaximumElevationInMeters => "1400",
        _ => text,
    };
}
