using System.Net;
using Accession.Server.Tests.Ground;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Hosting;

[Trait("Store", "sqlite")]
public sealed class StartOnSqlite() : StartTests(new SqliteTestStore());

[Trait("Store", "postgres")]
public sealed class StartOnPostgreSql() : StartTests(new PostgreSqlTestStore());

/// <summary>The program as its own process, on an empty database.</summary>
public abstract class StartTests(TestStore store) : IAsyncLifetime
{
    public ValueTask InitializeAsync() => store.InitializeAsync();

    public ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        return store.DisposeAsync();
    }

    [Fact]
    public async Task The_first_administrator_comes_in_by_the_printed_link_and_sees_no_alarm()
    {
        await using var server = await ServeAsync();
        using var visitor = new Visitor(server.Address);

        var page = await visitor.FollowAsync(await visitor.ComeInAsync(await server.LinkAsync("Administrator")));

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.DoesNotContain("fail:", server.Said, StringComparison.Ordinal);
        Assert.DoesNotContain("warn:", server.Said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_processes_that_start_at_once_both_come_up()
    {
        var servers = await Task.WhenAll(ServeAsync(), ServeAsync());

        foreach (var server in servers)
        {
            await using (server)
            {
                using var visitor = new Visitor(server.Address);
                Assert.Equal(HttpStatusCode.OK, (await visitor.GetPageAsync("/sign-in")).Status);
                await server.LinkAsync("Administrator");
            }
        }
    }

    [Fact]
    public async Task Somebody_signed_in_stays_so_when_the_server_is_killed_and_started_again()
    {
        var first = await ServeAsync();
        using var before = new Visitor(first.Address);
        await before.ComeInAsync(await first.LinkAsync("Administrator"));
        await first.KillAsync();
        await first.DisposeAsync();

        await using var second = await ServeAsync();
        using var after = new Visitor(second.Address, before.SessionCookie);

        Assert.Equal(HttpStatusCode.OK, (await after.GetPageAsync("/account")).Status);
    }

    [Fact]
    public async Task A_start_that_was_killed_while_migrating_does_not_hang_the_next()
    {
        await using (var db = store.Open())
        {
            await db.Database.ExecuteSqlRawAsync("""
                CREATE TABLE "__EFMigrationsLock" ("Id" INTEGER PRIMARY KEY, "Timestamp" TEXT NOT NULL);
                INSERT INTO "__EFMigrationsLock" VALUES (1, '2026-01-02 03:04:05');
                """);
        }

        await using var server = await ServeAsync();

        await server.LinkAsync("Administrator");
    }

    [Fact]
    public async Task A_user_without_a_home_serves_a_folder_that_is_named()
    {
        // What a service runs as; a folder below a file can be made by nobody, not even by root.
        var file = Path.Combine(store.Folder, "no-home");
        await File.WriteAllTextAsync(file, "");
        var environment = new Dictionary<string, string>
        {
            ["HOME"] = Path.Combine(file, "home"),
            ["XDG_DATA_HOME"] = "",
        };

        await using var server = await ServeAsync([], environment);

        await server.LinkAsync("Administrator");
    }

    [Fact]
    public async Task The_command_line_is_stronger_than_the_environment_and_that_than_the_file()
    {
        await File.WriteAllTextAsync(
            Path.Combine(store.Folder, "accession.json"), """{ "Institution": { "Name": "From the file" } }""");
        var environment = new Dictionary<string, string> { ["ACCESSION_Institution__Name"] = "From the environment" };

        Assert.Equal("From the file", await HouseAsync([], null));
        Assert.Equal("From the environment", await HouseAsync([], environment));
        Assert.Equal("From the command", await HouseAsync(["--set", "Institution:Name=From the command"], environment));
    }

    private async Task<string> HouseAsync(string[] more, IReadOnlyDictionary<string, string>? environment)
    {
        await using var server = await ServeAsync(more, environment);
        using var visitor = new Visitor(server.Address);
        return (await visitor.GetPageAsync("/sign-in")).One(".house").TextContent;
    }

    private Task<ServerProcess> ServeAsync(
        string[]? more = null, IReadOnlyDictionary<string, string>? environment = null)
    {
        store.Require();
        return ServerProcess.ServeAsync(
            store.Folder, [.. store.Settings.SelectMany(s => new[] { "--set", s }), .. more ?? []], environment);
    }
}
