using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Publishing;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Benchmarks.Export;

/// <summary>
/// The archive of the whole register, by the command that people use, beside the database's own tool writing the same
/// joins as text. Each runs as a process of its own, so starting counts, but for one that has started already.
/// </summary>
internal sealed class ExportBenchmark : IBenchmark
{
    private const string Specimens = """
        SELECT s.occurrence_id, 'http://creativecommons.org/licenses/by/4.0/legalcode', 'HERB', 'HERB',
            'PreservedSpecimen', g.information_withheld, g.data_generalizations, g.event_date, g.year, g.month, g.day,
            g.date_verbatim, g.habitat, g.country, g.country_code, g.state_province, g.county, g.municipality,
            g.locality,
            g.minimum_elevation_in_meters, g.maximum_elevation_in_meters, g.elevation_verbatim, g.latitude, g.longitude,
            g.geodetic_datum, g.uncertainty_in_meters, g.coordinate_precision, g.coordinates_verbatim,
            s.occurrence_id || '#' || d.id, d.name, d.qualifier, d.identified_by, d.date_identified, s.catalog_number,
            g.other_catalog_numbers, g.record_number, g.recorded_by, 'present', g.associated_taxa, g.remarks, d.name,
            d.family, 'ICN'
        FROM specimen s JOIN gathering g ON g.id = s.gathering_id
        LEFT JOIN determination d ON d.id = (SELECT max(id) FROM determination WHERE specimen_id = s.id)
        ORDER BY s.id
        """;

    private const string Determinations = """
        SELECT s.occurrence_id, s.occurrence_id || '#' || d.id, d.name, d.qualifier, d.identified_by, d.date_identified,
            d.name, d.family, 'ICN'
        FROM specimen s CROSS JOIN determination d WHERE d.specimen_id = s.id ORDER BY s.id, d.id
        """;

    public string Name => "export";

    public string Measures => "Write the archive of the whole register; the limit is a dump of the same joins as text";

    public async Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation)
    {
        Tool.Require(holdings.Settings.IsPostgreSql ? "psql" : "sqlite3");
        Tool.Require("zip");
        var specimens = Path.Combine(holdings.Folder, "occurrence.txt");
        var determinations = Path.Combine(holdings.Folder, "identification.txt");
        var dump = holdings.Settings.IsPostgreSql ? "psql" : "sqlite3";
        await BuildAsync(holdings, cancellation);
        return
        [
            new($"{dump}, the same joins as text", c => DumpAsync(holdings, specimens, determinations, c)),
            new("accession export", c => ExportAsync(holdings, c)),
            new("the same in a program that runs already", c => BuildAsync(holdings, c)),
            new($"{dump}, then zip -6", async c => Sum(
                await DumpAsync(holdings, specimens, determinations, c),
                await ZipAsync(holdings, specimens, determinations, c))),
        ];
    }

    private static Task<Sample> ExportAsync(Holdings holdings, CancellationToken cancellation) => Tool.RunAsync(
        "dotnet",
        [
            holdings.Settings.Program, "export", "--data", holdings.Folder, "--replace",
            "--out", Path.Combine(holdings.Folder, "ours.zip"),
        ],
        holdings.Environs,
        cancellation);

    private static Task<Sample> DumpAsync(
        Holdings holdings, string specimens, string determinations, CancellationToken cancellation)
    {
        if (!holdings.Settings.IsPostgreSql)
        {
            return Tool.RunAsync(
                "sqlite3",
                [
                    "-readonly", "-tabs", holdings.File, $".output {specimens}", Specimens, $".output {determinations}",
                    Determinations,
                ],
                environment: null,
                cancellation);
        }

        var server = holdings.Connection;
        return Tool.RunAsync(
            "psql",
            [
                "-q", "-h", server.Host!, "-p", $"{server.Port}", "-U", server.Username!, server.Database!,
                "-c", $"\\copy ({Specimens.ReplaceLineEndings(" ")}) TO '{specimens}'",
                "-c", $"\\copy ({Determinations.ReplaceLineEndings(" ")}) TO '{determinations}'",
            ],
            new Dictionary<string, string> { ["PGPASSWORD"] = server.Password! },
            cancellation);
    }

    private static Task<Sample> ZipAsync(
        Holdings holdings, string specimens, string determinations, CancellationToken cancellation)
    {
        var zip = Path.Combine(holdings.Folder, "theirs.zip");
        File.Delete(zip);
        return Tool.RunAsync("zip", ["-6", "-q", "-j", zip, specimens, determinations], null, cancellation);
    }

    // As a server builds it that has started long ago: nothing is compiled or read for the first time.
    private static async Task<Sample> BuildAsync(Holdings holdings, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(holdings.Program);
        await using var scope = app.Services.CreateAsyncScope();
        var want = scope.ServiceProvider.GetRequiredService<WantArchive>();
        var build = scope.ServiceProvider.GetRequiredService<BuildArchive>();
        var began = TimeProvider.System.GetTimestamp();
        var wanted = await want.RunAsync(new(InBackground: false), Door.System, cancellation);
        var request = new BuildArchive.Request(
            wanted.Value.ActId, Path.Combine(holdings.Folder, "ours.zip"), Replace: true);
        var outcome = await build.RunAsync(request, (_, _, _) => Task.CompletedTask, cancellation);
        return outcome.IsRefused
            ? throw new InvalidOperationException(outcome.Refusals[0].Reason)
            : new Sample(TimeProvider.System.GetElapsedTime(began).TotalSeconds, PeakMegabytes: null);
    }

    private static Sample Sum(Sample first, Sample second) => new(
        first.Seconds + second.Seconds, Math.Max(first.PeakMegabytes ?? 0, second.PeakMegabytes ?? 0));
}
