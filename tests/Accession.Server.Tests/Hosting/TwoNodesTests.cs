using Accession.Core.Outcomes;
using Accession.Server.Administering;
using Accession.Server.Hosting;
using Accession.Tests.Stores;
using Microsoft.AspNetCore.Builder;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Hosting;

/// <summary>
/// Nodes that share a PostgreSQL register and nothing else: no folder, so no file that could hold one of them off.
/// </summary>
[Trait("Store", "postgres")]
public sealed class TwoNodesTests : IAsyncLifetime
{
    private readonly PostgreSqlTestStore _store = new();
    private readonly List<DirectoryInfo> _folders = [];

    public ValueTask InitializeAsync() => _store.InitializeAsync();

    public async ValueTask DisposeAsync()
    {
        _folders.ForEach(folder => folder.Delete(recursive: true));
        await _store.DisposeAsync();
    }

    [Fact]
    public async Task Nodes_that_start_at_once_on_one_empty_database_all_come_up()
    {
        _store.Require();
        List<WebApplication> nodes = [Node(), Node(), Node()];
        try
        {
            await Task.WhenAll(nodes.Select(node => Task.Run(() => ComeUpAsync(node))));
        }
        finally
        {
            foreach (var node in nodes)
            {
                await node.StopAsync(TestContext.Current.CancellationToken);
                await node.DisposeAsync();
            }
        }

        await using var db = _store.Open();
        Assert.Empty(await db.Database.GetPendingMigrationsAsync(TestContext.Current.CancellationToken));
        Assert.Equal(Enum.GetValues<Role>().Length, await db.Roles.CountAsync(TestContext.Current.CancellationToken));
        Assert.Equal(1, await db.Users.CountAsync(TestContext.Current.CancellationToken));
    }

    private static async Task ComeUpAsync(WebApplication node)
    {
        await FirstStart.PrepareAsync(node, CancellationToken.None);
        await node.StartAsync();
        Assert.Equal("Administrator", Assert.Single(
            await FirstStart.LinksAsync(node, demo: false, CancellationToken.None)).Who);
    }

    private WebApplication Node()
    {
        var folder = Directory.CreateTempSubdirectory("accession-test-");
        _folders.Add(folder);
        return AccessionServer.Build(new Settings
        {
            DataFolder = folder.FullName,
            Urls = "http://127.0.0.1:0",
            Set = [.. _store.Settings],
        });
    }
}
