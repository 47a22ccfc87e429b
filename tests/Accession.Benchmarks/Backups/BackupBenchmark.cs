using System.Globalization;
using Npgsql;

namespace Accession.Benchmarks.Backups;

/// <summary>
/// A backup of the whole register and a restore from it, by the commands that people use, beside the database's own copy.
/// Each runs as a process of its own.
/// </summary>
internal sealed class BackupBenchmark : IBenchmark
{
    public string Name => "backup";

    public string Measures => "Back up the whole register and restore it; the limit is the copy of the database's own tool";

    public Task<IReadOnlyList<Contestant>> PrepareAsync(Holdings holdings, CancellationToken cancellation)
    {
        var tool = holdings.Settings.IsPostgreSql ? "pg_dump" : "sqlite3";
        Tool.Require(tool);
        return Task.FromResult<IReadOnlyList<Contestant>>(
        [
            new(holdings.Settings.IsPostgreSql ? "pg_dump -Fc -Z1" : "sqlite3 .backup, not compressed",
                c => CopyAsync(holdings, c)),
            new("accession backup", c => BackupAsync(holdings, c)),
            new("accession restore", c => RestoreAsync(holdings, c)),
        ]);
    }

    private static string File(Holdings holdings) => Path.Combine(holdings.Folder, "ours.backup");

    private static Task<Sample> CopyAsync(Holdings holdings, CancellationToken cancellation)
    {
        var copy = Path.Combine(holdings.Folder, "theirs.copy");
        System.IO.File.Delete(copy);
        if (!holdings.Settings.IsPostgreSql)
        {
            return Tool.RunAsync("sqlite3", [holdings.File, $".backup {copy}"], environment: null, cancellation);
        }

        var server = holdings.Connection;
        return Tool.RunAsync(
            "pg_dump",
            [
                "-Fc", "-Z1", "-f", copy, "-h", server.Host!, "-p", $"{server.Port}", "-U", server.Username!,
                "-n", "public", server.Database!,
            ],
            new Dictionary<string, string> { ["PGPASSWORD"] = server.Password! },
            cancellation);
    }

    private static async Task<Sample> BackupAsync(Holdings holdings, CancellationToken cancellation)
    {
        var sample = await Tool.RunAsync(
            "dotnet", [holdings.Settings.Program, "backup", File(holdings), "--data", holdings.Folder, "--replace"],
            holdings.Environs, cancellation);
        await Console.Error.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture, $"The backup has {new FileInfo(File(holdings)).Length:N0} bytes."));
        return sample;
    }

    // On PostgreSQL into a schema of its own, which is as empty as a database.
    private static async Task<Sample> RestoreAsync(Holdings holdings, CancellationToken cancellation)
    {
        var drill = Path.Combine(holdings.Folder, "drill");
        if (Directory.Exists(drill))
        {
            Directory.Delete(drill, recursive: true);
        }

        Dictionary<string, string> environs = new(holdings.Environs);
        if (holdings.Settings.IsPostgreSql)
        {
            await using var source = NpgsqlDataSource.Create(holdings.Connection);
            await using var fresh = source.CreateCommand("DROP SCHEMA IF EXISTS drill CASCADE; CREATE SCHEMA drill");
            await fresh.ExecuteNonQueryAsync(cancellation);
            environs["ACCESSION_Store__Connection"] =
                new NpgsqlConnectionStringBuilder(holdings.Connection.ToString()) { SearchPath = "drill" }.ToString();
        }

        return await Tool.RunAsync(
            "dotnet", [holdings.Settings.Program, "restore", File(holdings), "--data", drill], environs, cancellation);
    }
}
