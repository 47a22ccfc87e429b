using System.Text.Json;
using Accession.Server.Tests.Ground;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class AdministeringCommandsOnSqlite : AdministeringCommandsTests
{
    protected override TestStore Store { get; } = new SqliteTestStore();
}

[Trait("Store", "postgres")]
public sealed class AdministeringCommandsOnPostgreSql : AdministeringCommandsTests
{
    protected override TestStore Store { get; } = new PostgreSqlTestStore();
}

/// <summary><c>user</c>, <c>migrate</c> and <c>demo</c>, each on a database of its own.</summary>
public abstract class AdministeringCommandsTests : IAsyncLifetime
{
    protected abstract TestStore Store { get; }

    public ValueTask InitializeAsync() => Store.InitializeAsync();

    public async ValueTask DisposeAsync()
    {
        await Store.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task A_person_is_let_in_by_a_link_that_works_once()
    {
        Store.Require();
        await Store.MigrateAsync();
        var before = await RegisterPicture.TakeAsync(Store);
        var dry = await OneAsync("user", "add", "ada@herbarium.example", "--role", "Curator", "--dry-run");
        Assert.True(dry.GetProperty("dryRun").GetBoolean());
        Assert.Equal(before, await RegisterPicture.TakeAsync(Store));

        var added = await OneAsync(
            "user", "add", "ada@herbarium.example", "--role", "Curator", "Technician", "--name", "Ada Quill");
        Assert.Equal("Ada Quill", added.GetProperty("displayName").GetString());
        var listed = await OneAsync("user", "list");
        Assert.Equal("ada@herbarium.example", listed.GetProperty("name").GetString());
        Assert.Equal(["Curator", "Technician"], listed.GetProperty("roles").EnumerateArray().Select(role => role.GetString()));

        var changed = await OneAsync(
            "user", "role", "ada@herbarium.example", "--role", "WeedOfficer", "--county", "Harney, Oregon", "--county",
            "Lake, OR");
        Assert.Equal("WeedOfficer", changed.GetProperty("roles").GetString());
        await using (var db = Store.Open())
        {
            Assert.Equal(
                ["oregon/harney", "oregon/lake"],
                await db.AccountCounties.OrderBy(c => c.CountyKey).Select(c => c.CountyKey).ToListAsync());
        }

        // What was typed cannot be right: a weed officer without a county sees nothing.
        Assert.Equal(2, (await RunAsync("user", "role", "ada@herbarium.example", "--role", "WeedOfficer")).ExitCode);

        var (exit, told, remarks) = await RunAsync("user", "add", "ada@herbarium.example", "--role", "Curator");
        Assert.Equal(1, exit);
        Assert.Empty(told);
        Assert.Contains("ada@herbarium.example", remarks, StringComparison.Ordinal);
        Assert.Equal(1, (await RunAsync("user", "link", "nobody@herbarium.example")).ExitCode);

        var link = (await OneAsync("user", "link", "ADA@herbarium.example")).GetProperty("link").GetString()!;
        Assert.NotEqual(added.GetProperty("link").GetString(), link);
        await using var server = await ServerProcess.ServeAsync(
            Store.Folder, [.. Store.Settings.SelectMany(setting => new[] { "--set", setting })]);
        Assert.True(await SignsInAsync(server.Address, link));
        Assert.False(await SignsInAsync(server.Address, added.GetProperty("link").GetString()!));
    }

    [Fact]
    public async Task A_register_of_an_earlier_version_is_brought_up_and_one_of_a_newer_refused()
    {
        Store.Require();
        await using (var db = Store.Open())
        {
            await Store.Database.BeforeMigratingAsync(db, CancellationToken.None);
            await db.GetService<IMigrator>().MigrateAsync(db.Database.GetMigrations().SkipLast(1).Last());
        }

        var (exit, _, remarks) = await RunAsync("verify");
        Assert.Equal(1, exit);
        Assert.Contains("accession migrate", remarks, StringComparison.Ordinal);
        Assert.Single((await OneAsync("migrate", "--dry-run")).GetProperty("pending").EnumerateArray());
        Assert.Single((await OneAsync("migrate")).GetProperty("pending").EnumerateArray());
        Assert.Empty((await OneAsync("migrate")).GetProperty("pending").EnumerateArray());
        Assert.Equal(0, (await RunAsync("verify")).ExitCode);

        await using (var db = Store.Open())
        {
            await db.Database.ExecuteSqlRawAsync(
                """INSERT INTO "__EFMigrationsHistory" VALUES ('99990101000000_Later', '99.0')""");
        }

        foreach (var command in new[] { "migrate", "verify", "demo" })
        {
            (exit, _, remarks) = await RunAsync(command);
            Assert.Equal(1, exit);
            Assert.StartsWith("The register is of a newer version", remarks, StringComparison.Ordinal);
        }

        (exit, _, remarks) = await RunAsync("serve", "--urls", "http://127.0.0.1:0");
        Assert.Equal(2, exit);
        Assert.Contains("newer version", remarks, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_demo_fills_an_empty_register_once_and_no_other()
    {
        Store.Require();
        var empty = RegisterPicture.Files(Store.Folder).ToList();
        Assert.True((await OneAsync("demo", "--dry-run")).GetProperty("dryRun").GetBoolean());
        Assert.Equal(empty, RegisterPicture.Files(Store.Folder));

        var filled = await OneAsync("demo");
        Assert.False(filled.GetProperty("wasThere").GetBoolean());
        Assert.Equal(
            ["Curator", "Technician", "Administrator", "Determiner", "Collector", "Weed officer"],
            filled.GetProperty("links").EnumerateArray().Select(link => link.GetProperty("who").GetString()));
        await using var db = Store.Open();
        var (batches, sheets) = (await db.Batches.CountAsync(), await db.Specimens.CountAsync());
        Assert.True(batches > 3 && sheets > 10);
        Assert.True((await OneAsync("demo")).GetProperty("wasThere").GetBoolean());
        Assert.Equal((batches, sheets), (await db.Batches.CountAsync(), await db.Specimens.CountAsync()));
    }

    [Fact]
    public async Task A_register_that_holds_anything_is_no_place_for_the_demo()
    {
        Store.Require();
        await Store.MigrateAsync();
        await OneAsync("user", "add", "ada@herbarium.example", "--role", "Curator");
        var before = await RegisterPicture.TakeAsync(Store);
        var (exit, told, remarks) = await RunAsync("demo");
        Assert.Equal(1, exit);
        Assert.Empty(told);
        Assert.Contains("holds something else than the demo", remarks, StringComparison.Ordinal);
        Assert.Equal(before, await RegisterPicture.TakeAsync(Store));
    }

    private static async Task<bool> SignsInAsync(Uri address, string link)
    {
        using var visitor = new Visitor(address);
        await visitor.ComeInAsync(link);
        return visitor.SessionCookie is not null;
    }

    private async Task<JsonElement> OneAsync(params string[] typed)
    {
        var (exit, told, remarks) = await RunAsync([.. typed, "--json"]);
        Assert.True(exit == 0, remarks);
        return JsonDocument.Parse(Assert.Single(told)).RootElement;
    }

    private Task<(int ExitCode, string[] Told, string Remarks)> RunAsync(params string[] typed) =>
        ServerProcess.RunApartAsync(
        [
            .. typed, "--data", Store.Folder, .. Store.Settings.SelectMany(setting => new[] { "--set", setting }),
        ]);
}
