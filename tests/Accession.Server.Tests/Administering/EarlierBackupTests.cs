using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Accession.Server.Tests.Ground;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class EarlierBackupOnSqlite : EarlierBackupTests
{
    protected override TestStore Empty() => new SqliteTestStore();

    protected override string ColumnsOfTables => """
        SELECT m.name || '.' || c.name AS "Value" FROM sqlite_master m, pragma_table_info(m.name) c
        WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite_%' AND m.name NOT LIKE '\_\_EF%' ESCAPE '\'
        """;
}

[Trait("Store", "postgres")]
public sealed class EarlierBackupOnPostgreSql : EarlierBackupTests
{
    protected override TestStore Empty() => new PostgreSqlTestStore();

    protected override string ColumnsOfTables => """
        SELECT table_name || '.' || column_name AS "Value" FROM information_schema.columns
        WHERE table_schema = current_schema() AND table_name NOT LIKE '\_\_EF%'
        """;
}

/// <summary>A backup that an earlier version made, of a register that had fewer tables and columns.</summary>
public abstract class EarlierBackupTests : IDisposable
{
    private readonly string _files = Directory.CreateTempSubdirectory("accession-backup-").FullName;

    [Fact]
    public async Task A_backup_of_an_earlier_version_is_brought_up_to_this_one()
    {
        var file = Path.Combine(_files, "earlier.backup");
        await using (var old = Empty())
        {
            await old.InitializeAsync();
            old.Require();
            await using var db = old.Open();
            // The first version that people had; every later one is on the way.
            var first = db.Database.GetMigrations().First();
            await db.Database.MigrateAsync(first);
            await db.Database.ExecuteSqlRawAsync(
                "INSERT INTO source (name, folded_name, remembered_match) VALUES ('Orla Finch', 'orla finch', '{{}}')");
            await File.WriteAllBytesAsync(file, await BackupAsync(db, first), TestContext.Current.CancellationToken);
        }

        await using var restored = new RestoredServer(Empty(), file);
        await restored.InitializeAsync();
        await using var now = restored.Store.Open();
        Assert.Equal(now.Database.GetMigrations(), await now.Database.GetAppliedMigrationsAsync());
        Assert.Equal("Orla Finch", await now.Sources.Select(source => source.Name).SingleAsync());
        var (exit, said) = await ServerProcess.RunAsync(["verify", .. RestoredServer.Lead(restored.Store)]);
        Assert.True(exit == 0, said);
    }

    public void Dispose()
    {
        Directory.Delete(_files, recursive: true);
        GC.SuppressFinalize(this);
    }

    protected abstract TestStore Empty();

    /// <summary>Asks the database itself for "table.column", because the model knows only those of today.</summary>
    protected abstract string ColumnsOfTables { get; }

    private async Task<byte[]> BackupAsync(AccessionDb db, string migration)
    {
        await using var moment = await db.Kind.ReadOneMomentAsync(db, CancellationToken.None);
        var columns = await db.Database.SqlQueryRaw<string>(ColumnsOfTables).ToListAsync();
        List<RegisterTable> tables = [];
        foreach (var table in columns.Select(name => name.Split('.')).GroupBy(pair => pair[0], pair => pair[1]))
        {
            var count = $"SELECT count(*) AS \"Value\" FROM {table.Key}";
            var rows = await db.Database.SqlQueryRaw<long>(count).ToListAsync();
            tables.Add(new(table.Key, [.. table.Order(StringComparer.Ordinal)], rows.Single()));
        }

        List<(string Name, byte[] Bytes)> parts = [];
        await db.Kind.Whole.CopyOutAsync(
            db, tables, Path.Combine(_files, "scratch"),
            async (name, write) =>
            {
                using var part = new MemoryStream();
                await write(part);
                parts.Add((name, part.ToArray()));
            },
            CancellationToken.None);
        var manifest = new JsonObject
        {
            ["format"] = 1,
            ["program"] = "0.1.0",
            ["database"] = db.Kind.Name,
            ["migration"] = migration,
            ["takenAt"] = "2026-03-05T09:00:00Z",
            ["tables"] = new JsonArray([.. tables.Select(table => new JsonObject
            {
                ["name"] = table.Name,
                ["columns"] = new JsonArray([.. table.Columns.Select(column => (JsonNode)column)]),
                ["rows"] = table.Rows,
            })]),
            ["parts"] = new JsonArray([.. parts.Select(part => new JsonObject
            {
                ["name"] = part.Name,
                ["bytes"] = part.Bytes.Length,
                ["sha256"] = Convert.ToHexStringLower(SHA256.HashData(part.Bytes)),
            })]),
            ["missing"] = new JsonArray(),
        };
        return BackupBytes.Of(parts, Encoding.UTF8.GetBytes(manifest.ToJsonString()));
    }
}
