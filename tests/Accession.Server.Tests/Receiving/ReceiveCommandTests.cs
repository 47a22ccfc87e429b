using System.Text.Json;
using Accession.Server.Tests.Ground;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class ReceiveCommandOnSqlite(StoreOnSqlite store) : ReceiveCommandTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ReceiveCommandOnPostgreSql(StoreOnPostgreSql store)
    : ReceiveCommandTests(store), IClassFixture<StoreOnPostgreSql>;

/// <summary>The command as a curator types it at the console, with a server beside it and without.</summary>
public abstract class ReceiveCommandTests(TestStore store) : IDisposable
{
    private const int Long = 20_000;

    private readonly string _outside = Directory.CreateTempSubdirectory("accession-test-").FullName;

    [Fact]
    public async Task It_receives_reads_and_finds_and_the_same_list_again_changes_nothing()
    {
        var file = await ListAsync("short.csv", 4, "31.02.2024");
        var (exit, told, remarks) = await RunAsync(file, "--source", "Short", "--json");
        Assert.True(exit == 0, remarks);
        Assert.Empty(remarks);
        var batch = JsonDocument.Parse(Assert.Single(told)).RootElement;
        Assert.False(batch.GetProperty("wasHere").GetBoolean());
        Assert.Equal((4, 1, 1), (
            batch.GetProperty("rows").GetInt32(), batch.GetProperty("problems").GetInt32(),
            batch.GetProperty("open").GetInt32()));
        Assert.Equal(4, batch.GetProperty("findings").GetProperty("new").GetInt32());
        Assert.Equal($"/batch/{batch.GetProperty("batch")}", batch.GetProperty("address").GetString());

        var before = await CountsAsync();
        (exit, told, _) = await RunAsync(file, "--source", "Short", "--json");
        Assert.Equal(0, exit);
        var again = JsonDocument.Parse(Assert.Single(told)).RootElement;
        Assert.True(again.GetProperty("wasHere").GetBoolean());
        Assert.Equal(batch.GetProperty("batch").GetInt64(), again.GetProperty("batch").GetInt64());
        Assert.Equal(before, await CountsAsync());

        (exit, told, _) = await RunAsync(file, "--source", "Short");
        Assert.Equal(0, exit);
        Assert.Contains("nothing was changed", told[0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_dry_run_stores_nothing()
    {
        var before = await RegisterPicture.TakeAsync(store);
        var (exit, told, _) = await RunAsync(await ListAsync("dry.csv", 3, "31.02.2024"), "--source", "Dry", "--dry-run");
        Assert.Equal(3, exit);
        Assert.Equal("Nothing was stored.", told[^1]);
        Assert.Equal(before, await RegisterPicture.TakeAsync(store));
    }

    [Fact]
    public async Task What_cannot_be_received_is_refused_in_one_sentence()
    {
        var file = await ListAsync("refused.csv", 2, "2024-01-01");
        Assert.Equal((1, "There is no batch 987654."), await SaidAsync(file, "--batch", "987654"));
        Assert.Equal(2, (await RunAsync(file)).ExitCode);
        Assert.Equal(2, (await RunAsync(Path.Combine(_outside, "none.csv"), "--source", "None")).ExitCode);
        Assert.Equal(2, (await SaidAsync(_outside, "--source", "None")).ExitCode);
        var pdf = Path.Combine(_outside, "no-list.csv");
        await File.WriteAllBytesAsync(pdf, [.. "%PDF-1.7"u8, 0, 1, 2]);
        Assert.Equal(2, (await SaidAsync(pdf, "--source", "No list")).ExitCode);
        await File.WriteAllTextAsync(pdf, "");
        Assert.Equal(2, (await SaidAsync(pdf, "--source", "Nothing")).ExitCode);
        var nowhere = Path.Combine(_outside, "nowhere");
        var (exit, said) = await ServerProcess.RunAsync("receive", file, "--source", "Nowhere", "--data", nowhere);
        Assert.Equal((1, false), (exit, Directory.Exists(nowhere)));
        Assert.Equal($"There is no register in {nowhere}. Name its folder with --data.", said);
    }

    [Fact]
    public async Task Killed_half_way_it_is_finished_by_the_same_command_again()
    {
        var file = await ListAsync("killed.csv", Long, "2024-05-01");
        await using (var killed = ServerProcess.Begin(Line(file, "--source", "Killed")))
        {
            await UntilAsync("Killed", rows => rows >= 2000);
            await killed.KillAsync();
        }

        var (exit, told, remarks) = await RunAsync(file, "--source", "Killed", "--json");
        Assert.True(exit == 0, remarks);
        Assert.True(JsonDocument.Parse(told[0]).RootElement.GetProperty("wasHere").GetBoolean());
        await IsWholeAsync("Killed");
    }

    [Fact]
    public async Task Interrupted_it_says_what_is_left_and_nothing_is_lost()
    {
        var file = await ListAsync("interrupted.csv", Long, "2024-05-01");
        await using (var interrupted = ServerProcess.Begin(Line(file, "--source", "Interrupted")))
        {
            await UntilAsync("Interrupted", rows => rows >= 1000);
            await interrupted.InterruptAsync();
            var (exit, told, remarks) = await interrupted.EndAsync();
            Assert.Equal(130, exit);
            Assert.Empty(told);
            Assert.Contains("waits for a server, or for the same command again", remarks, StringComparison.Ordinal);
        }

        Assert.Equal(0, (await RunAsync(file, "--source", "Interrupted")).ExitCode);
        await IsWholeAsync("Interrupted");
    }

    [Fact]
    public async Task Beside_a_server_one_of_the_two_does_the_work_and_the_command_waits_for_it()
    {
        var environment = store.Settings.Select(setting => setting.Split('=', 2)).ToDictionary(
            pair => $"ACCESSION_{pair[0].Replace(":", "__", StringComparison.Ordinal)}", pair => pair[1]);
        store.Require();
        await using var server = await ServerProcess.ServeAsync(store.Folder, environment: environment);
        var (exit, _, remarks) = await RunAsync(
            await ListAsync("beside.csv", Long, "2024-05-01"), "--source", "Beside");
        Assert.True(exit == 0, remarks);
        await IsWholeAsync("Beside");
    }

    public void Dispose()
    {
        Directory.Delete(_outside, recursive: true);
        GC.SuppressFinalize(this);
    }

    private async Task<string> ListAsync(string name, int rows, string firstDate)
    {
        var file = Path.Combine(_outside, name);
        await File.WriteAllLinesAsync(
            file,
            [
                "Collector,Number,Date,Locality",
                .. Enumerable.Range(1, rows).Select(n => $"Ada Quill,{n},{(n == 1 ? firstDate : "2024-05-01")},{name} {n}"),
            ]);
        return file;
    }

    private string[] Line(string file, params string[] more)
    {
        store.Require();
        return
        [
            "receive", file, "--data", store.Folder,
            .. store.Settings.SelectMany(setting => new[] { "--set", setting }), .. more,
        ];
    }

    private Task<(int ExitCode, string[] Told, string Remarks)> RunAsync(string file, params string[] more) =>
        ServerProcess.RunApartAsync(Line(file, more));

    private async Task<(int ExitCode, string Said)> SaidAsync(string file, params string[] more)
    {
        var (exit, told, remarks) = await RunAsync(file, more);
        Assert.Empty(told);
        Assert.DoesNotContain('\n', remarks);
        Assert.DoesNotContain("   at ", remarks, StringComparison.Ordinal);
        return (exit, remarks);
    }

    private async Task<(int, int, int)> CountsAsync()
    {
        await using var db = store.Open();
        return (await db.Batches.CountAsync(), await db.Lists.CountAsync(), await db.Rows.CountAsync());
    }

    private async Task UntilAsync(string source, Func<int, bool> isSo)
    {
        var until = TimeProvider.System.GetUtcNow() + TimeSpan.FromSeconds(120);
        while (true)
        {
            await using var db = store.Open();
            var rows = await db.Rows.CountAsync(row => db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name == source));
            if (isSo(rows))
            {
                return;
            }

            Assert.True(TimeProvider.System.GetUtcNow() < until, $"{rows} rows");
            await Task.Delay(TimeSpan.FromMilliseconds(20));
        }
    }

    private async Task IsWholeAsync(string source)
    {
        await using var db = store.Open();
        var batch = await db.Batches.Include(b => b.Lists).SingleAsync(b => b.Source.Name == source);
        Assert.Equal(Long, Assert.Single(batch.Lists).Counts.Rows);
        Assert.Equal(Long, await db.Rows.CountAsync(row => row.BatchId == batch.Id && row.Finding != null));
        Assert.False(await db.Work.AnyAsync(work => work.FinishedAt == null));
    }
}
