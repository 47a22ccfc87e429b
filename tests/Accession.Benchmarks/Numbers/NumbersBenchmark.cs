using System.Globalization;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Numbering;
using Accession.Storage;
using Microsoft.AspNetCore.Builder;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Benchmarks.Numbers;

/// <summary>
/// Numbers a sheet and stores it, 64 callers at once, each sheet in a durable transaction of its own: by the operation of
/// the bench, beside the same transaction with a number that was given, so that nobody waits for a counter.
/// </summary>
internal sealed class NumbersBenchmark : IBenchmark, IAsyncDisposable
{
    private const int Callers = 64;
    private const int Each = 16;

    private WebApplication? _app;
    private long _series;
    private List<long> _gatherings = [];
    private int _round;
    private long _given = 10_000_000;

    public string Name => "numbers";

    public string Measures => $"Number {Callers * Each:N0} sheets, {Callers} at once; the limit is given its numbers";

    public async Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation)
    {
        _app = AccessionServer.Build(new Settings
        {
            DataFolder = holdings.Folder,
            Set = holdings.Settings.IsPostgreSql
                ? ["Store:Kind=PostgreSql", $"Store:Connection={holdings.Connection}"]
                : [],
        });
        await using var scope = _app.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        if (holdings.Settings.IsPostgreSql)
        {
            // The invented rows brought their own keys, and PostgreSQL does not count those.
            await db.Database.ExecuteSqlRawAsync(
                """
                SELECT setval(pg_get_serial_sequence('act', 'id'), (SELECT MAX(id) + 1 FROM act)),
                    setval(pg_get_serial_sequence('number_series', 'id'), (SELECT MAX(id) + 1 FROM number_series)),
                    setval(pg_get_serial_sequence('specimen', 'id'), (SELECT MAX(id) + 1 FROM specimen))
                """,
                cancellation);
        }

        var begun = await scope.ServiceProvider.GetRequiredService<BeginSeries>()
            .RunAsync(new("Numbers", SeriesUse.Specimens, "NUMBERS-00000000"), Door.System, cancellation);
        if (begun.IsRefused)
        {
            throw new InvalidOperationException(begun.Refusals[0].Reason);
        }

        _series = await db.Series.Where(s => s.Name == "Numbers").Select(s => s.Id).SingleAsync(cancellation);
        _gatherings = await db.Gatherings.OrderBy(g => g.Id).Select(g => g.Id).Take(Callers * Each)
            .ToListAsync(cancellation);
        // Each round numbers one more sheet of the same gatherings; there are enough sheets for every round.
        await db.Gatherings.Where(g => _gatherings.Contains(g.Id)).ExecuteUpdateAsync(
            row => row.SetProperty(g => g.SheetsExpected, g => g.SheetsExpected + 100_000), cancellation);
        await AllAsync(GivenAsync, cancellation);
        await AllAsync(IssuedAsync, cancellation);
        return
        [
            new("the same transaction, its number given", c => AllAsync(GivenAsync, c)),
            new("the next number of a series", c => AllAsync(IssuedAsync, c)),
        ];
    }

    public async ValueTask DisposeAsync()
    {
        if (_app is not null)
        {
            await _app.DisposeAsync();
        }
    }

    private async Task<Sample> AllAsync(Func<IServiceProvider, long, Door, Task> number, CancellationToken cancellation)
    {
        var round = _round++;
        var began = TimeProvider.System.GetTimestamp();
        await Task.WhenAll(_gatherings.Chunk(Each).Select(own => Task.Run(
            async () =>
            {
                foreach (var gathering in own)
                {
                    await using var scope = _app!.Services.CreateAsyncScope();
                    var key = string.Create(CultureInfo.InvariantCulture, $"{round}-{gathering}");
                    await number(scope.ServiceProvider, gathering, new Door(Actor.System with { Id = "bench" }, key));
                }
            },
            cancellation)));
        var seconds = TimeProvider.System.GetElapsedTime(began).TotalSeconds;
        await Console.Error.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture, $"{number.Method.Name}: {_gatherings.Count / seconds:F0} durable numbers a second"));
        return new Sample(seconds, null);
    }

    private async Task IssuedAsync(IServiceProvider services, long gathering, Door door) => Check(
        await services.GetRequiredService<NumberSheet>().RunAsync(new(gathering, _series, null), door, CancellationToken.None));

    private async Task GivenAsync(IServiceProvider services, long gathering, Door door)
    {
        var db = services.GetRequiredService<AccessionDb>();
        var number = Interlocked.Increment(ref _given);
        var act = Act.Of(door, "number a sheet", TimeProvider.System.GetUtcNow().UtcDateTime);
        Check(await db.CarryOutAsync<SheetAtBench>(
            door, act,
            async () =>
            {
                var of = await db.Gatherings.SingleAsync(g => g.Id == gathering);
                var specimen = Specimen.NumberSheet(new(_series, number, $"GIVEN-{number}"), of, "Bench", false, null, null, act).Value;
                db.Add(specimen);
                return new SheetAtBench(
                    BenchResult.Issued, specimen.CatalogNumber, of.Id, of.Label, specimen.CurrentName, of.SheetsNumbered,
                    of.SheetsExpected);
            },
            CancellationToken.None));
    }

    private static void Check(Outcome<SheetAtBench> outcome)
    {
        if (outcome.IsRefused)
        {
            throw new InvalidOperationException(outcome.Refusals[0].Reason);
        }
    }
}
