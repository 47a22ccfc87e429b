using System.Security.Cryptography;
using Accession.Server.Tests.Ground;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class BackupFileOnSqlite(StoreOnSqlite store) : BackupFileTests(store), IClassFixture<StoreOnSqlite>
{
    protected override TestStore Empty() => new SqliteTestStore();
}

[Trait("Store", "postgres")]
public sealed class BackupFileOnPostgreSql(StoreOnPostgreSql store)
    : BackupFileTests(store), IClassFixture<StoreOnPostgreSql>
{
    protected override TestStore Empty() => new PostgreSqlTestStore();
}

/// <summary>Files that cannot be restored, places that cannot take a register, and commands that are killed.</summary>
public abstract class BackupFileTests(TestStore store) : IDisposable
{
    private static readonly DateTime At = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);

    private readonly string _files = Directory.CreateTempSubdirectory("accession-backup-").FullName;

    [Fact]
    public async Task A_backup_of_another_program_database_or_register_is_refused_and_leaves_nothing()
    {
        var whole = await File.ReadAllBytesAsync(await BackupAsync());
        await using var into = await EmptyAsync();
        foreach (var (bytes, says) in new[]
        {
            (BackupBytes.Changed(whole, manifest => manifest["format"] = 2), "newer version of the program"),
            (BackupBytes.Changed(whole, manifest => manifest["migration"] = "29990101000000_Unknown"), "which is newer"),
            (BackupBytes.Changed(whole, manifest => manifest["database"] = "Another"), "is of a register on Another"),
            (BackupBytes.Changed(whole, manifest => manifest["tables"]![0]!["rows"] = 77), "77 rows"),
            (whole[..^1], "was cut short"),
        })
        {
            var file = Path.Combine(_files, $"{Guid.NewGuid():N}.backup");
            await File.WriteAllBytesAsync(file, bytes);
            var (exit, said) = await RestoreAsync(file, into);
            Assert.True(exit == 1 && said.Contains(says, StringComparison.Ordinal), $"{says}: {exit} {said}");
            Assert.DoesNotContain("   at ", said, StringComparison.Ordinal);
            Assert.True(await IsUntouchedAsync(into), says);
        }
    }

    [Fact]
    public async Task A_restore_writes_over_nothing_and_a_trial_does_nothing()
    {
        var file = await BackupAsync();
        await using var into = await EmptyAsync();
        SetMode(file, UnixFileMode.UserRead | UnixFileMode.GroupRead);
        var (exit, said) = await RestoreAsync(file, into, "--dry-run");
        Assert.True(exit == 0 && said.Contains("Nothing was done", StringComparison.Ordinal), said);
        Assert.Contains("chmod 600", said, StringComparison.Ordinal);
        Assert.True(await IsUntouchedAsync(into));

        // As a restore leaves it that was killed before it could mark its folder.
        Directory.CreateDirectory(into.Folder + ".restoring");
        Assert.Equal(0, (await RestoreAsync(file, into, "--json")).ExitCode);
        Assert.Equal(3, await CountAsync(into));
        await AgreesAsync(into);
        (exit, said) = await RestoreAsync(file, into);
        Assert.True(exit == 1 && said.Contains("is not empty", StringComparison.Ordinal), said);
        Assert.Equal(3, await CountAsync(into));
        var elsewhere = Path.Combine(_files, "elsewhere");
        if (!into.Database.Whole.IsInDataFolder)
        {
            (exit, said) = await ServerProcess.RunAsync(
                ["restore", file, "--data", elsewhere, .. into.Settings.SelectMany(s => new[] { "--set", s })]);
            Assert.True(exit == 1 && said.Contains("has tables already", StringComparison.Ordinal), said);
            Assert.False(Directory.Exists(elsewhere));
        }

        foreach (var (path, says) in new[]
        {
            (_files, "is a folder"), (Path.Combine(_files, "none", "a.backup"), "There is no folder"),
            (file, "--replace"), ("/proc/a.backup", "could not be done"),
        })
        {
            (exit, said) = await ServerProcess.RunAsync(["backup", path, .. RestoredServer.Lead(store)]);
            Assert.True(exit == 1 && said.Contains(says, StringComparison.Ordinal), said);
        }

        (exit, said) = await ServerProcess.RunAsync(["restore", file, "--data", "/proc/here", .. Sets(into)]);
        Assert.True(exit == 1 && said.Contains("cannot be written", StringComparison.Ordinal)
            || said.Contains("tables already", StringComparison.Ordinal), said);
    }

    [Fact]
    public async Task A_backup_that_is_killed_leaves_no_file_under_its_name()
    {
        await SeedAsync();
        await BigListAsync();
        var file = Path.Combine(_files, "killed.backup");
        var killed = 0;
        foreach (var pause in new[] { 0, 20, 60, 120 })
        {
            await using var process = ServerProcess.Begin(["backup", file, .. RestoredServer.Lead(store)]);
            await WaitAsync(process, () => Directory.EnumerateFiles(_files, "*.part").Any());
            await Task.Delay(pause, TestContext.Current.CancellationToken);
            var ended = process.HasEnded;
            await process.KillAsync();
            killed += ended ? 0 : 1;
            Assert.Equal(ended, File.Exists(file));
            File.Delete(file);
            Directory.EnumerateFiles(_files, "*.part").ToList().ForEach(File.Delete);
        }

        Assert.True(killed > 0, "It was always killed too late for this test to show anything.");
        Assert.Equal(0, (await ServerProcess.RunAsync(["backup", file, .. RestoredServer.Lead(store)])).ExitCode);
    }

    [Fact]
    public async Task A_restore_that_is_killed_is_done_or_not_begun_and_the_next_one_goes_through()
    {
        await BigListAsync();
        var file = await BackupAsync();
        await using var into = await EmptyAsync();
        var killed = 0;
        foreach (var pause in new[] { 0, 100, 300, 600, 1000, 1500 })
        {
            await using var process = ServerProcess.Begin(["restore", file, .. RestoredServer.Lead(into)]);
            await WaitAsync(process, () => Directory.Exists(into.Folder + ".restoring"));
            await Task.Delay(pause, TestContext.Current.CancellationToken);
            var ended = process.HasEnded;
            await process.KillAsync();
            if (ended || !await IsUntouchedAsync(into, evenBeside: false))
            {
                break;
            }

            killed++;
        }

        Assert.True(killed > 0, "It was always killed too late for this test to show anything.");
        if (await IsUntouchedAsync(into, evenBeside: false))
        {
            var (exit, said) = await RestoreAsync(file, into);
            Assert.True(exit == 0, said);
        }

        Assert.False(Directory.Exists(into.Folder + ".restoring"));
        Assert.False(File.Exists(Path.Combine(into.Folder, "restore.lock")));
        Assert.Equal(3, await CountAsync(into));
        await AgreesAsync(into);
    }

    [Fact]
    public async Task A_trial_says_what_would_be_written_and_writes_nothing()
    {
        await SeedAsync();
        await BigListAsync();
        var before = Directory.EnumerateFileSystemEntries(_files).Order().ToList();
        var file = Path.Combine(_files, "trial.backup");
        var (exit, said) = await ServerProcess.RunAsync(["backup", file, "--dry-run", "--json", .. RestoredServer.Lead(store)]);
        Assert.True(exit == 0, said);
        Assert.Equal(before, Directory.EnumerateFileSystemEntries(_files).Order());
        using var plan = System.Text.Json.JsonDocument.Parse(said.Split('\n').First(line => line.StartsWith('{')));
        Assert.True(plan.RootElement.GetProperty("dryRun").GetBoolean());
        Assert.Equal(file, plan.RootElement.GetProperty("file").GetString());
        Assert.Equal(3, plan.RootElement.GetProperty("specimens").GetInt64());

        // It is no smaller than what is written then, and says so in words too.
        Assert.Equal(0, (await ServerProcess.RunAsync(["backup", file, .. RestoredServer.Lead(store)])).ExitCode);
        Assert.InRange(plan.RootElement.GetProperty("aboutBytes").GetInt64(), new FileInfo(file).Length / 2, long.MaxValue);
        (exit, said) = await ServerProcess.RunAsync(["backup", file, "--dry-run", .. RestoredServer.Lead(store)]);
        Assert.True(exit == 1 && said.Contains("--replace", StringComparison.Ordinal), said);
        var written = File.GetLastWriteTimeUtc(file);
        (exit, said) = await ServerProcess.RunAsync(["backup", file, "--dry-run", "--replace", .. RestoredServer.Lead(store)]);
        Assert.True(exit == 0 && said.Contains("Nothing was written", StringComparison.Ordinal), said);
        Assert.Equal(written, File.GetLastWriteTimeUtc(file));

        var list = Directory.EnumerateFiles(Path.Combine(store.Folder, "lists")).First();
        var content = await File.ReadAllBytesAsync(list);
        File.Delete(list);
        (exit, said) = await ServerProcess.RunAsync(["backup", file, "--dry-run", "--replace", .. RestoredServer.Lead(store)]);
        await File.WriteAllBytesAsync(list, content);
        Assert.True(exit == 3 && said.Contains(Path.GetFileName(list), StringComparison.Ordinal), said);
    }

    [Fact]
    public async Task A_list_that_the_folder_lost_is_told()
    {
        await SeedAsync();
        await BigListAsync();
        var list = Directory.EnumerateFiles(Path.Combine(store.Folder, "lists")).First();
        var content = await File.ReadAllBytesAsync(list);
        File.Delete(list);
        var (exit, said) = await ServerProcess.RunAsync(
            ["backup", Path.Combine(_files, "without.backup"), .. RestoredServer.Lead(store)]);
        await File.WriteAllBytesAsync(list, content);
        Assert.Equal(3, exit);
        Assert.Contains(Path.GetFileName(list), said, StringComparison.Ordinal);
    }

    public void Dispose()
    {
        Directory.Delete(_files, recursive: true);
        GC.SuppressFinalize(this);
    }

    protected abstract TestStore Empty();

    private async Task<string> BackupAsync()
    {
        await SeedAsync();
        var file = Path.Combine(_files, "whole.backup");
        var (exit, said) = await ServerProcess.RunAsync(["backup", file, .. RestoredServer.Lead(store)]);
        Assert.True(exit == 0, said);
        return file;
    }

    private async Task SeedAsync()
    {
        await using var db = store.Open();
        if (!await db.Specimens.AnyAsync())
        {
            await InventedSheets.SeedAsync(
                db, At, [.. Enumerable.Range(1, 3).Select(i => InventedSheets.Everywhere($"sheet {i}"))]);
            await db.Database.ExecuteSqlRawAsync("UPDATE received_list SET kept_as = 'none' WHERE kept_as = ''");
            await KeepAsync(new byte[1000]);
        }
    }

    // Enough to be half way for a while.
    private async Task BigListAsync()
    {
        await SeedAsync();
        var bytes = new byte[24 << 20];
        RandomNumberGenerator.Fill(bytes);
        await KeepAsync(bytes);
    }

    private async Task KeepAsync(byte[] bytes)
    {
        var name = new string('a', 32);
        var lists = Directory.CreateDirectory(Path.Combine(store.Folder, "lists")).FullName;
        await File.WriteAllBytesAsync(Path.Combine(lists, name), bytes);
        await using var db = store.Open();
        await db.Lists.ExecuteUpdateAsync(row => row.SetProperty(list => list.KeptAs, name)
            .SetProperty(list => list.Sha256, Convert.ToHexStringLower(SHA256.HashData(bytes)))
            .SetProperty(list => list.Bytes, bytes.Length));
    }

    private async Task<TestStore> EmptyAsync()
    {
        store.Require();
        var empty = Empty();
        await empty.InitializeAsync();
        return empty;
    }

    private static Task<(int ExitCode, string Said)> RestoreAsync(string file, TestStore into, params string[] more) =>
        ServerProcess.RunAsync(["restore", file, .. RestoredServer.Lead(into), .. more]);

    private static IEnumerable<string> Sets(TestStore of) => of.Settings.SelectMany(s => new[] { "--set", s });

    private static async Task<bool> IsUntouchedAsync(TestStore into, bool evenBeside = true)
    {
        await using var db = into.Open();
        var marker = Path.Combine(into.Folder, "restore.lock");
        return (!Directory.Exists(into.Folder) || File.Exists(marker)
                || !Directory.EnumerateFileSystemEntries(into.Folder).Any())
            && (!evenBeside || !Directory.Exists(into.Folder + ".restoring"))
            && await into.Database.Whole.IsFreeAsync(db, CancellationToken.None);
    }

    private static async Task<int> CountAsync(TestStore of)
    {
        await using var db = of.Open();
        return await db.Specimens.CountAsync();
    }

    // These sheets were made without a list and a counter, so some checks find that in both.
    private async Task AgreesAsync(TestStore of)
    {
        var before = await ServerProcess.RunAsync(["verify", "--json", .. RestoredServer.Lead(store)]);
        var after = await ServerProcess.RunAsync(["verify", "--json", .. RestoredServer.Lead(of)]);
        Assert.Equal(before, after);
    }

    private static async Task WaitAsync(ServerProcess process, Func<bool> until)
    {
        while (!until() && !process.HasEnded)
        {
            await Task.Delay(TimeSpan.FromMilliseconds(2), TestContext.Current.CancellationToken);
        }
    }

    private static void SetMode(string file, UnixFileMode mode)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(file, mode);
        }
    }
}
