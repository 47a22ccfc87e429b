using System.Text;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Receiving;
using Accession.Storage.Numbers;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class KilledWhileTakingOverOnSqlite(StoreOnSqlite store)
    : KilledWhileTakingOverTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class KilledWhileTakingOverOnPostgreSql(StoreOnPostgreSql store)
    : KilledWhileTakingOverTests(store), IClassFixture<StoreOnPostgreSql>;

/// <summary>The power goes while sheets are taken over; the next start goes on, and nothing is lost or doubled.</summary>
public abstract class KilledWhileTakingOverTests(TestStore store)
{
    private const int Count = 6_000;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(180);

    [Fact]
    public async Task Every_sheet_is_taken_over_once_by_the_next_process()
    {
        store.Require();
        // Each hundredth number stands on two sheets, and each tenth follows no series.
        List<string> rows = [.. Enumerable.Range(1, Count).Select(n =>
            TakenOver.Row(n % 10 == 0 ? $"Q.{n}" : $"KO-H{(n % 100 == 2 ? n - 1 : n):0000000}", n))];
        await BeginAsync();
        await ReceiveAsync(rows);
        await using (var reading = await ServeAsync())
        {
            await UntilAsync(work => work is { Kind: FindDuplicatesWork.Kind, FinishedAt: not null });
            await reading.KillAsync();
        }

        await TakeOverAsync();
        long reached;
        await using (var first = await ServeAsync())
        {
            reached = await UntilAsync(work => work is { Kind: TakeOverRowsWork.Kind, Done: >= 500 });
            await first.KillAsync();
        }

        Assert.InRange(reached, 500, Count - 1);
        await using (var second = await ServeAsync())
        {
            await UntilAsync(work => work.FinishedAt is not null);
            await second.KillAsync();
        }

        await AsExpectedAsync();
        // The list comes again, re-sorted.
        rows.Reverse();
        await ReceiveAsync(rows);
        await using (var third = await ServeAsync())
        {
            await UntilAsync(work => work is { Kind: FindDuplicatesWork.Kind, FinishedAt: not null });
        }

        await AsExpectedAsync();
        await using var db = store.Open();
        Assert.Equal(0, await db.Rows.CountAsync(row => row.GatheringId == null));
    }

    private async Task AsExpectedAsync()
    {
        await using var db = store.Open();
        Assert.Equal(Count, await db.Specimens.CountAsync());
        Assert.Equal(Count, await db.Gatherings.CountAsync());
        Assert.Equal(Count, await db.Parts.CountAsync(part => part.IsFromBefore));
        var rows = await db.Rows.CountAsync(row => row.GatheringId != null
            && db.Specimens.Count(s => s.GatheringId == row.GatheringId && s.CatalogNumber == row.CatalogNumber) == 1);
        Assert.Equal(Count, rows);
        Assert.Equal(0, await db.Specimens.CountAsync(s => s.Repeat == 0
            && db.Specimens.Any(o => o.Id != s.Id && o.SeriesId == s.SeriesId && o.Number == s.Number && o.Repeat == 0)));
        Assert.Equal(Count / 100, await db.Specimens.CountAsync(s => s.Repeat == 1));
        Assert.True(await db.Series.AnyAsync(s => s.Use == SeriesUse.Specimens && s.Next == Count));
    }

    private async Task BeginAsync()
    {
        await using var db = store.Open();
        db.Add(NumberSeries.Begin("Sheets", SeriesUse.Specimens, "KO-H0000000").Value);
        db.Add(NumberSeries.Begin("Accessions", SeriesUse.Accessions, "YYYY.0000").Value);
        await db.SaveChangesAsync();
    }

    private async Task ReceiveAsync(IEnumerable<string> rows)
    {
        var files = new ReceivedFiles(new DataFolder(Options.Create(new StoreOptions { DataFolder = store.Folder })));
        using var content = new MemoryStream(Encoding.UTF8.GetBytes(TakenOver.Headings + string.Join('\n', rows)));
        var kept = await files.KeepAsync(content, "holdings.csv", CancellationToken.None);
        await using var db = store.Open();
        var received = await new ReceiveList(db, files, TimeProvider.System)
            .RunAsync(new("Quill", null, kept, CarriesNumbers: true), Door.System, CancellationToken.None);
        Assert.False(received.IsRefused);
    }

    private async Task TakeOverAsync()
    {
        await using var db = store.Open();
        var numbers = new NumberIssuer(db);
        var clock = new InstitutionClock(Options.Create(new InstitutionOptions()));
        var taken = await new TakeOver(
                db, numbers, new AccessionNumbers(db, numbers, clock), new SeriesBehindBorne(db, numbers),
                TimeProvider.System)
            .RunAsync(new(1, null, null), Door.System, CancellationToken.None);
        Assert.True(!taken.IsRefused, taken.IsRefused ? taken.Refusals[0].Reason : "");
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
