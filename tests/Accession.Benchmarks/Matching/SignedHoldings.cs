using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Matching;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Receiving;
using Accession.Storage;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Accession.Benchmarks.Matching;

/// <summary>
/// Gives every gathering of an invented register the signature and the keys of an invented label, read and kept by the
/// program's own code. What stands in the other columns of the gathering is not compared and stays as it is.
/// </summary>
internal static class SignedHoldings
{
    private const int Slice = 10_000;

    public static async Task SignAsync(IHost app, Holdings holdings, CancellationToken cancellation)
    {
        var labels = new InventedLabels(holdings.Settings.Seed);
        var reader = new ListReader(
            ColumnMatch.Propose(InventedLabel.Headings, new Dictionary<string, string>()),
            new ListSettings(DayMonthOrder.DayFirst, new DateOnly(2026, 1, 5)));
        for (var first = 0; first < holdings.Settings.Specimens; first += Slice)
        {
            // The invented gatherings have the keys from 1 on.
            var entries = Enumerable.Range(first, Math.Min(Slice, holdings.Settings.Specimens - first))
                .AsParallel().AsOrdered().WithCancellation(cancellation)
                .Select(i => Entry(i + 1, labels.Of(i).AsHeld(), reader)).ToList();
            await using var scope = app.Services.CreateAsyncScope();
            var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
            await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
            await scope.ServiceProvider.GetRequiredService<MatchTable>().KeepAsync(entries, cancellation);
            await transaction.CommitAsync(cancellation);
        }

        await using var last = app.Services.CreateAsyncScope();
        await last.ServiceProvider.GetRequiredService<AccessionDb>().Database.ExecuteSqlRawAsync(
            holdings.Settings.IsPostgreSql ? "VACUUM ANALYZE" : "PRAGMA wal_checkpoint(TRUNCATE)", cancellation);
    }

    /// <summary>Receives a list and reads it, as the program does.</summary>
    /// <returns>The key of its batch.</returns>
    public static async Task<long> ReceiveAsync(
        IServiceProvider services, string list, string sender, CancellationToken cancellation)
    {
        await using var content = File.OpenRead(list);
        var kept = await services.GetRequiredService<ReceivedFiles>().KeepAsync(content, "list.csv", cancellation);
        var received = await services.GetRequiredService<ReceiveList>()
            .RunAsync(new(sender, null, kept), Door.System, cancellation);
        var listId = await services.GetRequiredService<AccessionDb>().Lists
            .Where(l => l.BatchId == received.Value.BatchId).Select(l => l.Id).SingleAsync(cancellation);
        await services.GetRequiredService<ReadList>()
            .RunAsync(listId, (_, _, _) => Task.CompletedTask, cancellation);
        return received.Value.BatchId;
    }

    private static MatchTable.Entry Entry(long id, string[] cells, ListReader reader)
    {
        var signature = Signature.Of(reader.Read(new RowCells(cells, [])));
        return new(id, 0, signature, MatchKeys.Of(signature, Identities.None));
    }
}
