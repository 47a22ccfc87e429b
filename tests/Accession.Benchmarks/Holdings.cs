using System.Data.Common;
using Accession.Server.Administering;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Npgsql;

namespace Accession.Benchmarks;

/// <summary>
/// An invented register in a folder or database of its own, gone afterwards. The program makes the tables; the rows
/// come from set-based SQL that both databases speak, and follow from the seed alone.
/// </summary>
internal sealed class Holdings : IAsyncDisposable
{
    private readonly string? _server;
    private readonly string _database = $"accession_benchmark_{Guid.NewGuid():N}";

    private Holdings(BenchmarkSettings settings)
    {
        Settings = settings;
        if (settings.IsPostgreSql)
        {
            _server = Environment.GetEnvironmentVariable("ACCESSION_POSTGRES")
                ?? throw new MissingToolException("a PostgreSQL server in ACCESSION_POSTGRES");
        }
    }

    public BenchmarkSettings Settings { get; }

    /// <summary>The data folder, and room for what the contestants write.</summary>
    public string Folder { get; } = Directory.CreateTempSubdirectory("accession-benchmark-").FullName;

    /// <summary>The register on SQLite.</summary>
    public string File => Path.Combine(Folder, "register.db");

    /// <summary>The register on PostgreSQL.</summary>
    public NpgsqlConnectionStringBuilder Connection => new(_server) { Database = _database };

    /// <summary>What leads the program to this register, within this process.</summary>
    public Settings Program => new()
    {
        DataFolder = Folder,
        Set = Settings.IsPostgreSql ? ["Store:Kind=PostgreSql", $"Store:Connection={Connection}"] : [],
    };

    /// <summary>What leads the program to this register, as environment variables of a process of its own.</summary>
    public IReadOnlyDictionary<string, string> Environs => Settings.IsPostgreSql
        ? new Dictionary<string, string>
        {
            ["ACCESSION_Store__Kind"] = "PostgreSql",
            ["ACCESSION_Store__Connection"] = Connection.ToString(),
        }
        : new Dictionary<string, string>();

    public static async Task<Holdings> InventAsync(BenchmarkSettings settings, CancellationToken cancellation)
    {
        var holdings = new Holdings(settings);
        try
        {
            await holdings.FillAsync(cancellation);
            return holdings;
        }
        catch
        {
            await holdings.DisposeAsync();
            throw;
        }
    }

    public async ValueTask DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
        NpgsqlConnection.ClearAllPools();
        Directory.Delete(Folder, recursive: true);
        if (_server is not null)
        {
            await OnServerAsync($"DROP DATABASE IF EXISTS {_database} WITH (FORCE)");
        }
    }

    private async Task FillAsync(CancellationToken cancellation)
    {
        if (_server is not null)
        {
            await OnServerAsync(
                $"CREATE DATABASE {_database} TEMPLATE template0 ENCODING 'UTF8' "
                + "LC_COLLATE 'C.UTF-8' LC_CTYPE 'C.UTF-8'");
        }

        await using var app = AccessionServer.Build(Program);
        await FirstStart.PrepareAsync(app, cancellation);
        await using var scope = app.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        db.Database.SetCommandTimeout(TimeSpan.FromMinutes(30));
        await db.Database.OpenConnectionAsync(cancellation);
        var connection = db.Database.GetDbConnection();
        foreach (var statement in InventedRows.Statements(Settings))
        {
            await ExecuteAsync(connection, statement, cancellation);
        }

        await System.IO.File.WriteAllBytesAsync(
            Path.Combine(scope.ServiceProvider.GetRequiredService<DataFolder>().Lists, InventedRows.KeptList), [],
            cancellation);
        await ExecuteAsync(
            connection,
            Settings.IsPostgreSql ? "VACUUM ANALYZE" : "PRAGMA wal_checkpoint(TRUNCATE); ANALYZE",
            cancellation);
    }

    private static async Task ExecuteAsync(DbConnection connection, string sql, CancellationToken cancellation)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.CommandTimeout = 1800;
        await command.ExecuteNonQueryAsync(cancellation);
    }

    private async Task OnServerAsync(string sql)
    {
        await using var source = NpgsqlDataSource.Create(
            new NpgsqlConnectionStringBuilder(_server) { Pooling = false }.ToString());
        await using var command = source.CreateCommand(sql);
        await command.ExecuteNonQueryAsync();
    }
}
