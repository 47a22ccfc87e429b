using Accession.Migrations.PostgreSql;
using Accession.Storage.Databases;
using Accession.Storage.Databases.PostgreSql;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Accession.Tests.Stores;

/// <summary>
/// A database of its own on the server that ACCESSION_POSTGRES leads to; tests/postgres.sh starts one. Without the
/// variable the tests say so and are skipped, except in continuous integration, where both databases are required.
/// </summary>
public class PostgreSqlTestStore : TestStore
{
    private const string Variable = "ACCESSION_POSTGRES";

    private string? _server;

    /// <summary>Stands nowhere else on the server; roles of a test begin with it too.</summary>
    protected string Name { get; } = $"accession_test_{Guid.NewGuid():N}";

    public override IReadOnlyList<string> Settings => ["Store:Kind=PostgreSql", $"Store:Connection={Connection}"];

    public override IDatabase Database { get; } = new PostgreSqlDatabase();

    /// <summary>How the program reaches this class's own database.</summary>
    public virtual string Connection => new NpgsqlConnectionStringBuilder(_server)
    {
        Database = Name,
        MaxPoolSize = 30,
        IncludeErrorDetail = true,
    }.ToString();

    public override async ValueTask InitializeAsync()
    {
        _server = Environment.GetEnvironmentVariable(Variable);
        if (string.IsNullOrEmpty(_server))
        {
            WhyMissing = $"Needs a PostgreSQL server in {Variable}; tests/postgres.sh starts one.";
            Assert.False(Environment.GetEnvironmentVariable("CI") == "true", WhyMissing);
            return;
        }

        await OnServerAsync(
            $"CREATE DATABASE {Name} TEMPLATE template0 ENCODING 'UTF8' LC_COLLATE 'C.UTF-8' LC_CTYPE 'C.UTF-8'");
    }

    public override void Use(DbContextOptionsBuilder options) => options.UseAccessionPostgreSql(Connection);

    public override async ValueTask DisposeAsync()
    {
        if (!string.IsNullOrEmpty(_server))
        {
            await using (var connection = new NpgsqlConnection(Connection))
            {
                NpgsqlConnection.ClearPool(connection);
            }

            await OnServerAsync($"DROP DATABASE IF EXISTS {Name} WITH (FORCE)");
        }

        GC.SuppressFinalize(this);
        await base.DisposeAsync();
    }

    protected async Task OnServerAsync(string sql)
    {
        await using var source = NpgsqlDataSource.Create(
            new NpgsqlConnectionStringBuilder(_server) { Pooling = false }.ToString());
        await using var command = source.CreateCommand(sql);
        await command.ExecuteNonQueryAsync();
    }
}
