using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Receiving;
using Accession.Storage;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class KilledWhileReceivingOnSqlite(StoreOnSqlite store)
    : KilledWhileReceivingTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class KilledWhileReceivingOnPostgreSql(StoreOnPostgreSql store)
    : KilledWhileReceivingTests(store), IClassFixture<StoreOnPostgreSql>;

/// <summary>The power goes while a long list is read; the next start goes on, and nothing is lost or doubled.</summary>
public abstract class KilledWhileReceivingTests(TestStore store)
{
    private const int Count = 50_000;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    [Fact]
    public async Task A_list_is_read_to_its_end_by_the_next_process()
    {
        store.Require();
        // Each hundredth row stands twice, and each thousandth cannot be read.
        List<string> rows = [.. Enumerable.Range(1, Count).Select(n =>
            $"Ada Quill,{(n % 100 == 0 ? n - 1 : n)},{(n % 1000 == 7 ? "31.02.2024" : "2024-05-01")},Field {n / 2}")];
        await ReceiveAsync(rows);
        long reached;
        await using (var first = await ServeAsync())
        {
            reached = await UntilAsync(work => work.Done >= 3000);
            await first.KillAsync();
        }

        Assert.InRange(reached, 3000, Count - 1);
        await using (var second = await ServeAsync())
        {
            await UntilAsync(work => work.FinishedAt is not null);
            await second.KillAsync();
        }

        await AsExpectedAsync(lists: 1, unchanged: 0);
        rows.Reverse();
        await ReceiveAsync(rows);
        await using (var third = await ServeAsync())
        {
            await UntilAsync(work => work.FinishedAt is not null);
        }

        await AsExpectedAsync(lists: 2, unchanged: Count);
    }

    private async Task AsExpectedAsync(int lists, int unchanged)
    {
        await using var db = store.Open();
        var batch = Assert.Single(await db.Batches.Include(b => b.Lists).Where(b => b.JoinedToBatchId == null).ToListAsync());
        Assert.Equal(lists, batch.Lists.Count);
        var counts = batch.Lists.MaxBy(list => list.Id)!.Counts;
        Assert.Equal((Count, unchanged, Count - unchanged, 0), (counts.Rows, counts.Unchanged, counts.Added, counts.Withdrawn));
        Assert.Equal(Count, await db.Rows.CountAsync());
        Assert.Equal(Count / 1000, await db.Rows.CountAsync(row => row.OpenProblems > 0));
        Assert.Equal(Count / 1000, await db.Problems.CountAsync(problem => problem.Blocks));
    }

    private async Task ReceiveAsync(IEnumerable<string> rows)
    {
        var files = new ReceivedFiles(new DataFolder(Options.Create(new StoreOptions { DataFolder = store.Folder })));
        using var content = new MemoryStream(
            Encoding.UTF8.GetBytes("Collector,Number,Date,Locality\n" + string.Join('\n', rows)));
        var kept = await files.KeepAsync(content, "long.csv", CancellationToken.None);
        await using var db = store.Open();
        var received = await new ReceiveList(db, files, TimeProvider.System)
            .RunAsync(new("Quill", null, kept), Door.System, CancellationToken.None);
        Assert.False(received.IsRefused);
    }

    private Task<ServerProcess> ServeAsync() => ServerProcess.ServeAsync(store.Folder, environment: store.Settings
        .Select(setting => setting.Split('=', 2))
        .ToDictionary(pair => $"ACCESSION_{pair[0].Replace(":", "__", StringComparison.Ordinal)}", pair => pair[1]));

    private async Task<long> UntilAsync(Func<Storage.Work.WorkRow, bool> isSo)
    {
        var until = TimeProvider.System.GetUtcNow() + Patience;
        while (true)
        {
            await using var db = store.Open();
            var work = await db.Work.AsNoTracking().OrderByDescending(row => row.Id).FirstAsync();
            if (isSo(work))
            {
                return work.Done;
            }

            Assert.True(TimeProvider.System.GetUtcNow() < until, $"{work.Kind}: {work.Done} of {work.Total}, {work.Failure}");
            await Task.Delay(TimeSpan.FromMilliseconds(20));
        }
    }
}
