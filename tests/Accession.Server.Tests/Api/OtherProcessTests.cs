using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class OtherProcessOnSqlite(ServerOnSqlite server)
    : OtherProcessTests(server), IClassFixture<ServerOnSqlite>
{
    protected override TestStore Empty() => new SqliteTestStore();
}

[Trait("Store", "postgres")]
public sealed class OtherProcessOnPostgreSql(ServerOnPostgreSql server)
    : OtherProcessTests(server), IClassFixture<ServerOnPostgreSql>
{
    protected override TestStore Empty() => new PostgreSqlTestStore();
}

/// <summary>
/// Another server on the same register, as after a restart or beside the first: it knows the keys and tokens of the first,
/// because neither is kept in memory. And a register that was restored, which lets no token in.
/// </summary>
public abstract class OtherProcessTests(TestServer server)
{
    private const string List = "Collector,Number,Species\nA. Quill,1,Poa secunda J.Presl\n";

    protected abstract TestStore Empty();

    [Fact]
    public async Task It_answers_what_the_first_was_asked_and_nothing_is_done_twice()
    {
        using var here = await JsonProgram.DeviceAsync(server, "Sender", [Right.SendLists]);
        var (key, source) = (JsonProgram.Key(), $"Restart {Guid.NewGuid():N}");
        var first = await here.SendListAsync(source, List, key);
        Assert.Equal(HttpStatusCode.Accepted, first.Status);

        await using var node = Node();
        await node.StartAsync(TestContext.Current.CancellationToken);
        using var there = new JsonProgram(AddressOf(node), here.Token);
        var again = await there.SendListAsync(source, List, key);
        var other = await there.SendListAsync(source, List + "A. Quill,2,Poa secunda J.Presl\n", key);

        Assert.Equal((first.Status, first.Text), (again.Status, again.Text));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.Status);
        Assert.Equal(1, await ListsOfAsync(source));
        await node.StopAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Asked_at_both_at_once_it_is_done_once()
    {
        using var here = await JsonProgram.DeviceAsync(server, "Sender", [Right.SendLists]);
        await using var node = Node();
        await node.StartAsync(TestContext.Current.CancellationToken);
        using var there = new JsonProgram(AddressOf(node), here.Token);
        for (var i = 0; i < 5; i++)
        {
            var (key, source) = (JsonProgram.Key(), $"Both {Guid.NewGuid():N}");
            var answers = await Task.WhenAll(
                Task.Run(() => here.SendListAsync(source, List, key)), Task.Run(() => there.SendListAsync(source, List, key)));

            Assert.All(answers, answer => Assert.Equal(HttpStatusCode.Accepted, answer.Status));
            Assert.Equal(answers[0].Text, answers[1].Text);
            Assert.Equal(1, await ListsOfAsync(source));
        }

        await node.StopAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task A_restored_register_lets_no_token_in()
    {
        using var device = await JsonProgram.DeviceAsync(server, "Bench", [Right.ReadRegister]);
        using var person = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.ReadRegister);
        Assert.Equal(HttpStatusCode.OK, (await device.GetAsync("/api/v1/specimens")).Status);
        var file = Path.Combine(Directory.CreateTempSubdirectory("accession-backup-").FullName, "tokens.backup");
        try
        {
            var (exit, said) = await ServerProcess.RunAsync(["backup", file, .. RestoredServer.Lead(server.Store)]);
            Assert.True(exit == 0, said);
            await using var restored = new RestoredServer(Empty(), file);
            await restored.InitializeAsync();

            foreach (var token in new[] { device.Token, person.Token })
            {
                using var program = new JsonProgram(restored.Address, token);
                Assert.Equal(HttpStatusCode.Unauthorized, (await program.GetAsync("/api/v1/specimens")).Status);
            }

            Assert.False(await restored.InRegisterAsync(
                db => db.ApiTokens.AnyAsync(t => t.WithdrawnAt == null || t.WithdrawnActId == null)));
            var verified = await ServerProcess.RunAsync(["verify", .. RestoredServer.Lead(restored.Store)]);
            Assert.True(verified.ExitCode == 0, verified.Said);
        }
        finally
        {
            Directory.GetParent(file)!.Delete(recursive: true);
        }
    }

    private Task<int> ListsOfAsync(string source) => server.InRegisterAsync(
        db => db.Lists.CountAsync(list => list.Batch.Source.Name == source));

    private WebApplication Node()
    {
        server.Store.Require();
        return AccessionServer.Build(new Settings
        {
            DataFolder = server.Store.Folder,
            Urls = "http://127.0.0.1:0",
            Set = [.. server.Store.Settings],
        });
    }

    private static Uri AddressOf(WebApplication node) => new(
        node.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single());
}
