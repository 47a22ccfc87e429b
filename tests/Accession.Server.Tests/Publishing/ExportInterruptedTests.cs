using System.Text.Json;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Publishing;

[Trait("Store", "sqlite")]
public sealed class ExportInterruptedOnSqlite(StoreOnSqlite store)
    : ExportInterruptedTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ExportInterruptedOnPostgreSql(StoreOnPostgreSql store)
    : ExportInterruptedTests(store), IClassFixture<StoreOnPostgreSql>;

/// <summary>An export that does not come to its end leaves nothing, and one that is only tried writes nothing.</summary>
public abstract class ExportInterruptedTests(TestStore store)
{
    [Fact]
    public async Task Ctrl_C_leaves_neither_a_file_nor_an_act()
    {
        store.Require();
        var file = Path.Combine(store.Folder, $"{Guid.NewGuid():N}.zip");
        await using var db = store.Open();
        var acts = await db.Acts.CountAsync();
        // Its act waits for whoever writes, so that it is interrupted before its end for certain.
        await using var holding = await db.Database.BeginTransactionAsync();
        await db.Database.ExecuteSqlRawAsync(
            store is StoreOnPostgreSql ? "LOCK TABLE act IN EXCLUSIVE MODE" : "UPDATE act SET what = what");
        await using var export = ServerProcess.Begin(Line(file));
        await Task.Delay(TimeSpan.FromSeconds(5));
        Assert.False(export.HasEnded, export.Said);
        await export.InterruptAsync();
        Assert.Equal(130, (await export.EndAsync()).ExitCode);
        await holding.RollbackAsync();

        Assert.Equal(acts, await db.Acts.CountAsync());
        Assert.DoesNotContain(Directory.EnumerateFiles(store.Folder), path => path.Contains(Path.GetFileName(file), StringComparison.Ordinal));
        Assert.Equal(0, (await ServerProcess.RunAsync(Line(file))).ExitCode);
    }

    [Fact]
    public async Task A_dry_run_writes_nothing()
    {
        store.Require();
        var file = Path.Combine(store.Folder, $"{Guid.NewGuid():N}.zip");
        await using var db = store.Open();
        var acts = await db.Acts.CountAsync();
        var (exit, told, remarks) = await ServerProcess.RunApartAsync([.. Line(file), "--dry-run", "--json"]);
        Assert.True(exit == 0, remarks);
        Assert.True(JsonDocument.Parse(Assert.Single(told)).RootElement.GetProperty("dryRun").GetBoolean());
        Assert.Equal((acts, false), (await db.Acts.CountAsync(), File.Exists(file)));
    }

    private string[] Line(string file) =>
    [
        "export", "--out", file, "--data", store.Folder,
        .. store.Settings.SelectMany(setting => new[] { "--set", setting }),
    ];
}
