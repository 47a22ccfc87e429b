using Accession.Core.Outcomes;
using Accession.Server.Publishing;
using Accession.Server.Tests.Docs;
using Accession.Server.Tests.Ground;
using Accession.Storage;
using Accession.Tests;
using Accession.Tests.Stores;
using Npgsql;

namespace Accession.Server.Tests.Hosting;

/// <summary>The database refuses exact places to whoever makes something public.</summary>
[Trait("Store", "postgres")]
public sealed class PublicRoleTests(ServerWithPublicRole server) : IClassFixture<ServerWithPublicRole>
{
    private PublicRoleTestStore Store => (PublicRoleTestStore)server.Store;

    [Theory]
    [InlineData("SELECT * FROM exact_locality")]
    [InlineData("SELECT count(*) FROM exact_locality")]
    [InlineData("SELECT cells FROM batch_row")]
    [InlineData("SELECT batch_row_id FROM gathering")]
    [InlineData("SELECT * FROM act")]
    [InlineData("UPDATE gathering SET locality = ''")]
    [InlineData("DELETE FROM specimen")]
    public async Task What_is_not_for_everyone_is_refused(string sql)
    {
        server.Store.Require();
        var refused = await Assert.ThrowsAsync<PostgresException>(() => UnderRoleAsync(sql));
        Assert.Equal(PostgresErrorCodes.InsufficientPrivilege, refused.SqlState);
    }

    [Theory]
    [InlineData("SELECT latitude, locality FROM gathering")]
    [InlineData("SELECT count(*) FROM specimen")]
    public async Task What_everyone_may_know_is_read(string sql)
    {
        server.Store.Require();
        await UnderRoleAsync(sql);
    }

    [Fact]
    public async Task An_archive_is_read_under_the_role()
    {
        var wanted = await server.RunAsync<WantArchive, Outcome<WantArchive.Wanted>>(
            want => want.RunAsync(new(InBackground: false), Door.System, CancellationToken.None));
        var request = new BuildArchive.Request(wanted.Value.ActId, Path.Combine(Store.Folder, "refused.zip"), false);
        await AsOwnerAsync($"REVOKE SELECT (catalog_number) ON specimen FROM {Store.PublicRole}");
        try
        {
            var refused = await Assert.ThrowsAsync<PostgresException>(
                () => server.RunAsync<BuildArchive, Outcome<BuildArchive.Archive>>(
                    build => build.RunAsync(request, (_, _, _) => Task.CompletedTask, CancellationToken.None)));
            Assert.Equal(PostgresErrorCodes.InsufficientPrivilege, refused.SqlState);
        }
        finally
        {
            await AsOwnerAsync($"GRANT SELECT (catalog_number) ON specimen TO {Store.PublicRole}");
        }
    }

    [Fact]
    public async Task The_statements_of_the_how_to_make_a_role_that_fits()
    {
        server.Store.Require();
        var block = Assert.Single(CodeBlock.All(), block => block.Language == "sql");
        // Names stand for the whole server, so the test has its own; the statements are those of the document.
        var (role, statements) = (Store.HandMadeRole, block.Text
            .Replace("accession_public", Store.HandMadeRole, StringComparison.Ordinal)
            .Replace("TO accession;", $"TO {Store.Login};", StringComparison.Ordinal));
        await Store.AsAdministratorAsync(statements);
        await using var start = await ServerProcess.ServeAsync(Folder("how-to"), StartWith(role));
        await Assert.ThrowsAsync<PostgresException>(
            () => AsOwnerAsync($"SET LOCAL ROLE {role}", "SELECT * FROM exact_locality"));
        await AsOwnerAsync($"SET LOCAL ROLE {role}", "SELECT locality FROM gathering");
    }

    [Fact]
    public async Task A_role_that_does_not_fit_stops_the_start_with_a_sentence()
    {
        server.Store.Require();
        await AssertStopsAsync("nobody_of_that_name", "CREATE ROLE \"nobody_of_that_name\" NOLOGIN");
        await AssertStopsAsync(Store.ForeignRole, $"is no member of {Store.ForeignRole}; GRANT");
        await AssertStopsAsync(Store.Login, "is the role that signs in");
        await AssertStopsAsync(
            new NpgsqlConnectionStringBuilder(Environment.GetEnvironmentVariable("ACCESSION_POSTGRES")).Username!,
            "is a superuser");
        await AsOwnerAsync("GRANT SELECT ON exact_locality TO PUBLIC");
        try
        {
            await AssertStopsAsync(Store.PublicRole, "REVOKE ALL ON \"exact_locality\" FROM PUBLIC");
        }
        finally
        {
            await AsOwnerAsync("REVOKE ALL ON exact_locality FROM PUBLIC");
        }
    }

    private async Task AssertStopsAsync(string role, string named)
    {
        var (code, said) = await ServerProcess.RunAsync(
            ["serve", "--data", Folder("other"), "--urls", "http://127.0.0.1:0", .. StartWith(role)]);
        Assert.True(code == 2, said);
        Assert.StartsWith("Accession did not start. Store:PublicRole cannot be used. ", said, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', said);
        Assert.Contains(named, said, StringComparison.Ordinal);
    }

    private string[] StartWith(string role) =>
    [
        "--set", "Store:Kind=PostgreSql", "--set", $"Store:Connection={Store.Connection}",
        "--set", $"Store:PublicRole={role}",
    ];

    private string Folder(string name) => Directory.CreateDirectory(Path.Combine(Store.Folder, name)).FullName;

    private Task UnderRoleAsync(string sql) => AsOwnerAsync($"SET LOCAL ROLE {Store.PublicRole}", sql);

    private async Task AsOwnerAsync(params string[] statements)
    {
        await using var connection = new NpgsqlConnection(Store.Connection);
        await connection.OpenAsync();
        await using var transaction = await connection.BeginTransactionAsync();
        foreach (var sql in statements)
        {
            await using var command = new NpgsqlCommand(sql, connection, transaction);
            await command.ExecuteNonQueryAsync();
        }

        await transaction.CommitAsync();
    }
}
