using System.Text.Json;
using Accession.Core.Batches;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Storage.Tables;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

/// <summary>
/// Reads a received list into rows: to the letter, with the problems that reading them shows. It can be stopped
/// anywhere and begun again: a row is known by its content, so storing it twice changes nothing.
/// </summary>
public sealed class ReadList(
    AccessionDb db, ReceivedFiles files, ListReaders readers, IOptions<ReceivingOptions> options)
{
    private const int Slice = 1000;
    private const int LookedThrough = 5000;

    /// <summary>Says how far it is.</summary>
    public delegate Task Report(long done, long total, CancellationToken cancellation);

    /// <summary>Reads a list that was kept in the data folder.</summary>
    public Task RunAsync(long listId, Report report, CancellationToken cancellation) =>
        RunAsync(listId, list => files.PathOf(list.KeptAs), report, cancellation);

    /// <summary>Reads a list where it lies.</summary>
    public Task RunAsync(long listId, string file, Report report, CancellationToken cancellation) =>
        RunAsync(listId, _ => file, report, cancellation);

    private async Task RunAsync(
        long listId, Func<ReceivedList, string> file, Report report, CancellationToken cancellation)
    {
        var list = await db.Lists.Include(l => l.Act).Include(l => l.Batch).ThenInclude(b => b.Source)
            .Include(l => l.Batch).ThenInclude(b => b.Lists)
            .SingleAsync(l => l.Id == listId, cancellation);
        if (list.IsRead)
        {
            return;
        }

        var opened = TableReader.Open(file(list), options.Value.Limits);
        if (opened.IsRefused)
        {
            list.Refuse(string.Join(" ", opened.Refusals.Select(refusal => refusal.Reason)));
            await db.SaveChangesAsync(cancellation);
            return;
        }

        var rows = await LookThroughAsync(list, opened.Value, report, cancellation);
        await using var room = await db.Kind.MakeRoomAsync(db, cancellation);
        var tally = await StoreAsync(list, opened.Value, rows, report, cancellation);
        await Comparison.FinishAsync(list, tally, cancellation);
    }

    // The first pass counts the rows and finds out whether this is an earlier list of the same source come again.
    private async Task<int> LookThroughAsync(
        ReceivedList list, Table table, Report report, CancellationToken cancellation)
    {
        var headings = JsonSerializer.Serialize(table.Headers);
        list.Opened($"{table.Format}, {table.Encoding}".TrimEnd(',', ' '), headings);
        var (rows, keys) = await KeysAsync(list, table, report, cancellation);
        await JoinAsync(list, keys, cancellation);
        var match = ListColumns.Match(headings, list.Batch.Match, list.Batch.CarriesNumbers);
        list.Batch.SettleMatch(ListColumns.Remember(match, list.Batch.Match));
        await db.SaveChangesAsync(cancellation);
        await db.Problems.Where(problem => problem.ListId == list.Id).ExecuteDeleteAsync(cancellation);
        return rows;
    }

    // What rows are known by is made only where there is an earlier list to compare with; else they are counted.
    private async Task<(int Rows, List<RowKeys> Keys)> KeysAsync(
        ReceivedList list, Table table, Report report, CancellationToken cancellation)
    {
        var identity = new RowIdentity(table.Headers);
        var reader = IsFirstOfItsBatch(list) && await Comparison.HasEarlierAsync(list, cancellation)
            ? readers.Of(list.Batch, list)
            : null;
        var rows = 0;
        List<RowKeys> keys = [];
        foreach (var row in table.Rows().Where(row => !row.IsRefused))
        {
            cancellation.ThrowIfCancellationRequested();
            if (reader is not null)
            {
                var pairKey = reader.Read(new RowCells(row.Cells, row.DateColumns)).PairKey;
                keys.Add(new(identity.Of(row.Cells), pairKey));
            }

            if (++rows % LookedThrough == 0)
            {
                await report(0, 0, cancellation);
            }
        }

        return (rows, keys);
    }

    // A list that somebody sent for its batch stays there; only the first list of a batch is looked for elsewhere.
    private static bool IsFirstOfItsBatch(ReceivedList list) => list.Batch.Lists.Count == 1;

    private ListComparison Comparison => new(db, readers);

    private async Task JoinAsync(ReceivedList list, List<RowKeys> keys, CancellationToken cancellation)
    {
        if (!IsFirstOfItsBatch(list))
        {
            return;
        }

        if (await Comparison.IsEarlierUnreadAsync(list, cancellation))
        {
            throw new WorkMustWaitException("An earlier list of this source is still being read.");
        }

        if (await Comparison.MostAlikeAsync(list, keys, cancellation) is not { } alike)
        {
            return;
        }

        var earlier = await db.Batches.Include(batch => batch.Source).Include(batch => batch.Lists)
            .SingleAsync(batch => batch.Id == alike.BatchId, cancellation);
        // A closed batch takes no list: somebody has to open it first, or say that it is another list.
        if (!alike.IsThatListAgain || earlier.ClosedActId is not null)
        {
            list.Batch.Resemble(earlier, alike.ToTheLetter, alike.Alike);
            return;
        }

        if (await BatchBusy.IsBusyAsync(db, earlier.Id, cancellation))
        {
            throw new WorkMustWaitException("The batch that this list belongs to is being worked on.");
        }

        list.Batch.JoinTo(earlier);
    }

    private async Task<OrderTally> StoreAsync(
        ReceivedList list, Table table, int rows, Report report, CancellationToken cancellation)
    {
        var staging = new RowStaging(table, readers.Of(list.Batch, list), new RowIdentity(table.Headers));
        var done = 0;
        foreach (var slice in staging.Slices(Slice))
        {
            await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
            await db.Kind.Rows.StoreAsync(
                db, new RowSlice(list.BatchId, list.Id, slice.Rows, slice.LinesNotRead), cancellation);
            await transaction.CommitAsync(cancellation);
            done += slice.Rows.Count;
            await report(done, rows, cancellation);
        }

        return staging.Tally;
    }
}
