using System.Globalization;
using Accession.Core.Matching;
using Accession.Server.Hosting;
using Accession.Server.Receiving;
using Accession.Storage;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Accession.Benchmarks.Matching;

/// <summary>
/// Finds what the rows of a list are, against a register of signed gatherings and against each other, in a program that
/// runs already. The peer does the same set-based in DuckDB. Both tell how many of the planted duplicates they found.
/// </summary>
internal sealed class MatchBenchmark : IBenchmark, IDisposable
{
    private IHost? _app;
    private DuckDbPeer? _peer;
    private InventedList? _list;
    private long _batch;

    public string Name => "match";

    public string Measures => "Find duplicates; the peer parses, blocks and scores in DuckDB with two threads";

    public async Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation)
    {
        var (settings, labels) = (holdings.Settings, new InventedLabels(holdings.Settings.Seed));
        var file = Path.Combine(holdings.Folder, "list.csv");
        _list = new InventedList(labels, settings.Specimens, settings.Rows);
        await _list.WriteAsync(file, cancellation);
        _peer = new DuckDbPeer(holdings.Folder, file);
        _peer.Hold(labels, settings.Specimens);
        _app = AccessionServer.BuildForCommand(holdings.Program);
        await SignedHoldings.SignAsync(_app, holdings, cancellation);
        await using (var scope = _app.Services.CreateAsyncScope())
        {
            _batch = await SignedHoldings.ReceiveAsync(scope.ServiceProvider, file, "Sender", cancellation);
        }

        await PeerAsync();
        await FindAsync(cancellation);
        await TellRecallAsync(_peer.Findings(), "DuckDB");
        await TellRecallAsync(await FindingsAsync(cancellation), "ours");
        return
        [
            new("DuckDB, 2 threads: parse, block, score, write", _ => PeerAsync()),
            new("stage the rows and find, in a program that runs already", FindAsync),
        ];
    }

    public void Dispose()
    {
        _peer?.Dispose();
        _app?.Dispose();
    }

    private Task<Sample> PeerAsync()
    {
        var (began, worked) = (TimeProvider.System.GetTimestamp(), Environment.CpuUsage.TotalTime);
        _peer!.Find();
        var seconds = TimeProvider.System.GetElapsedTime(began).TotalSeconds;
        Console.Error.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"DuckDB: {seconds:F2} s ({(Environment.CpuUsage.TotalTime - worked).TotalSeconds:F2} s of processor)"));
        return Task.FromResult(new Sample(seconds, null));
    }

    // As the first time: what an earlier round left is gone before the time runs.
    private async Task<Sample> FindAsync(CancellationToken cancellation)
    {
        await using var scope = _app!.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        await scope.ServiceProvider.GetRequiredService<MatchTable>().ClearAsync(_batch, cancellation);
        await db.FoundMembers.ExecuteDeleteAsync(cancellation);
        await db.Rows.Where(row => row.BatchId == _batch).ExecuteUpdateAsync(
            row => row.SetProperty(r => r.Finding, (FindingKind?)null), cancellation);
        var (began, worked) = (TimeProvider.System.GetTimestamp(), Environment.CpuUsage.TotalTime);
        string Since() => string.Create(
            CultureInfo.InvariantCulture,
            $"{TimeProvider.System.GetElapsedTime(began).TotalSeconds:F2} s "
            + $"({(Environment.CpuUsage.TotalTime - worked).TotalSeconds:F2} s of processor)");
        var staged = "";
        await scope.ServiceProvider.GetRequiredService<FindDuplicates>().StageAndFindAsync(
            _batch,
            (done, total, _) =>
            {
                staged = done * 2 == total ? Since() : staged;
                return Task.CompletedTask;
            },
            cancellation);
        var seconds = TimeProvider.System.GetElapsedTime(began).TotalSeconds;
        await Console.Error.WriteLineAsync($"staged after {staged}, found after {Since()}");
        return new Sample(seconds, Tool.PeakMegabytesOfThis());
    }

    private async Task<List<(int Row, long Gathering)>> FindingsAsync(CancellationToken cancellation)
    {
        await using var scope = _app!.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        var found = await db.FoundMembers.Where(member => member.GatheringId != null)
            .Join(db.Rows, member => member.RowId, row => row.Id, (m, row) => new { row.Line, row.Finding, m.GatheringId })
            .Where(pair => pair.Finding != FindingKind.New).ToListAsync(cancellation);
        // The gatherings have the keys from 1 on, the labels the numbers from 0 on.
        return [.. found.Select(pair => (pair.Line - InventedList.LineOf(0), pair.GatheringId!.Value - 1))];
    }

    private async Task TellRecallAsync(IEnumerable<(int Row, long Gathering)> findings, string whose)
    {
        var (right, rows) = (0, new HashSet<int>());
        foreach (var (row, gathering) in findings)
        {
            right += _list!.PlantedAt(row) == gathering ? 1 : 0;
            rows.Add(row);
        }

        await Console.Error.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"{whose}: {right:N0} of {_list!.Planted:N0} planted duplicates found ({(double)right / _list.Planted:P1}); "
            + $"{rows.Count(row => _list.PlantedAt(row) is null):N0} other rows found with something of the register"));
    }
}
