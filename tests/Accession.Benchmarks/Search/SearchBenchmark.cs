using System.Data.Common;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Tracking;
using Accession.Storage;
using Microsoft.AspNetCore.Builder;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Benchmarks.Search;

/// <summary>
/// Finds sheets as the find box does: two words, the newest fifty of them; and one word that many sheets bear. The
/// limits are the bare index with the same words, and the bare index that ranks all it finds. What counts is the time
/// that nineteen of twenty questions stay under.
/// </summary>
internal sealed class SearchBenchmark : IBenchmark, IAsyncDisposable
{
    private const int Questions = 100;
    private const int WarmingUp = 20;
    private const int Page = 51;

    private static readonly string[] Genera =
        ["Poa", "Carex", "Juncus", "Phlox", "Salix", "Stipa", "Draba", "Lupinus", "Erigeron", "Penstemon"];

    private static readonly string[] Places =
        ["Alder", "Juniper", "Ridge", "Sagehen", "Heron", "Cairns", "Whitehorse", "Harney", "Wallowa", "Crook"];

    private static readonly string[] Common = ["oregon", "creek", "harney", "flat", "bench"];

    private WebApplication? _app;
    private bool _isPostgreSql;

    public string Name => "search";

    public string Measures => $"Find sheets by words, {Questions} questions; the time that 95 in 100 stay under";

    public async Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation)
    {
        _isPostgreSql = holdings.Settings.IsPostgreSql;
        _app = AccessionServer.Build(holdings.Program);
        await using var scope = _app.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        await db.Database.ExecuteSqlRawAsync(
            _isPostgreSql
                ? "VACUUM ANALYZE specimen"
                : "INSERT INTO specimen_find (specimen_find) VALUES ('optimize')",
            cancellation);
        Contestant[] contestants =
        [
            new("bare index: two words, the newest 51", c => EachAsync(k => BareAsync(Two(k), Newest, c))),
            new("the find box: two words", c => EachAsync(k => OursAsync(Two(k), c))),
            new("bare index: a common word, ranked", c => EachAsync(k => BareAsync([Common[k % Common.Length]], Ranked, c))),
            new("the find box: a common word", c => EachAsync(k => OursAsync([Common[k % Common.Length]], c))),
        ];
        // A server that runs has compiled what it asks a thousand times; the bare index needs no such thing.
        for (var k = 0; k < WarmingUp; k++)
        {
            await contestants[1].RunAsync(cancellation);
        }

        return contestants;
    }

    public async ValueTask DisposeAsync()
    {
        if (_app is not null)
        {
            await _app.DisposeAsync();
        }
    }

    private string Newest => _isPostgreSql
        ? $"SELECT id FROM specimen WHERE to_tsvector('simple', find_text) @@ to_tsquery('simple', @q) ORDER BY id DESC LIMIT {Page}"
        : $"SELECT rowid FROM specimen_find WHERE specimen_find MATCH @q ORDER BY rowid DESC LIMIT {Page}";

    private string Ranked => _isPostgreSql
        ? $"""
            SELECT id FROM specimen, to_tsquery('simple', @q) q WHERE to_tsvector('simple', find_text) @@ q
            ORDER BY ts_rank(to_tsvector('simple', find_text), q) DESC LIMIT {Page}
            """
        : $"SELECT rowid FROM specimen_find WHERE specimen_find MATCH @q ORDER BY rank LIMIT {Page}";

    private static string[] Two(int k) => [Genera[k % Genera.Length], Places[k / Genera.Length % Places.Length]];

    private static async Task<Sample> EachAsync(Func<int, Task<int>> ask)
    {
        var took = new double[Questions];
        var found = 0;
        for (var k = 0; k < Questions; k++)
        {
            var began = TimeProvider.System.GetTimestamp();
            found += await ask(k);
            took[k] = TimeProvider.System.GetElapsedTime(began).TotalSeconds;
        }

        if (found == 0)
        {
            throw new InvalidOperationException("No question found a sheet, so nothing was measured.");
        }

        Array.Sort(took);
        return new Sample(took[(int)(Questions * 0.95) - 1], null);
    }

    private async Task<int> BareAsync(string[] words, string sql, CancellationToken cancellation)
    {
        await using var scope = _app!.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        await db.Database.OpenConnectionAsync(cancellation);
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        var parameter = command.CreateParameter();
        (parameter.ParameterName, parameter.Value) = ("@q", string.Join(_isPostgreSql ? " & " : " ", words));
        command.Parameters.Add(parameter);
        await using DbDataReader rows = await command.ExecuteReaderAsync(cancellation);
        var found = 0;
        while (await rows.ReadAsync(cancellation))
        {
            found++;
        }

        return found;
    }

    private async Task<int> OursAsync(string[] words, CancellationToken cancellation)
    {
        await using var scope = _app!.Services.CreateAsyncScope();
        // As at a request, and as the other one does.
        await scope.ServiceProvider.GetRequiredService<AccessionDb>().Database.OpenConnectionAsync(cancellation);
        var found = await scope.ServiceProvider.GetRequiredService<FindSheets>().RunAsync(
            new(string.Join(' ', words)), Actor.System, null, Page,
            cancellation);
        return found.Ids.Count;
    }
}
