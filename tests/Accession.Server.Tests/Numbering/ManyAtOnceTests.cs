using System.Collections.Concurrent;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Tests;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Numbering;

[Trait("Store", "sqlite")]
public sealed class ManyAtOnceOnSqlite(ServerOnSqlite server) : ManyAtOnceTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ManyAtOnceOnPostgreSql(ServerOnPostgreSql server)
    : ManyAtOnceTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Ten people, two server processes, one register; and a process that dies in the middle of a pile.</summary>
public abstract class ManyAtOnceTests(TestServer server)
{
    private const int People = 10;
    private const int Sheets = 3;

    [Fact]
    public async Task Ten_people_at_two_servers_number_a_pile_without_a_gap_or_a_double()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List(People * 10));
        await Bench.RegisterRollAsync(curator, pile.Prefix, 101, 300);
        await using var second = await ServeAsync();
        var refused = new ConcurrentBag<string>();

        await Task.WhenAll(Enumerable.Range(0, People).Select(person => Task.Run(async () =>
        {
            using var scanner = await ScannerAsync(pile, person % 2 == 0 ? server.Address : second.Address);
            for (var i = 0; i < 10; i++)
            {
                var gathering = pile.Gatherings[(person * 10) + i];
                var twice = Guid.NewGuid().ToString();
                // The network was slow, and the script sent it again while the first sending was under way.
                var both = await Task.WhenAll(
                    scanner.ScanAsync(pile.Code(101 + (person * 10) + i), gathering, twice),
                    scanner.ScanAsync(pile.Code(101 + (person * 10) + i), gathering, twice));
                Assert.Equal(Scanner.Said(both[0]), Scanner.Said(both[1]));
                Note(both[0]);
                var issued = await Task.WhenAll(
                    scanner.NextAsync(gathering, twice + "n"), scanner.NextAsync(gathering, twice + "n"));
                Assert.Equal(Scanner.Said(issued[0]), Scanner.Said(issued[1]));
                Note(issued[0]);
                Note(await scanner.ScanAsync(issued[0].One("li.scan .code").TextContent, gathering));
                Note(await scanner.NextAsync(gathering));
            }
        })));

        Assert.Empty(refused);
        var numbers = await server.InRegisterAsync(db => db.Specimens.Where(s => s.SeriesId == pile.SeriesId)
            .OrderBy(s => s.Number).Select(s => s.Number).ToListAsync());
        Assert.Equal(
            Enumerable.Range(1, 100).Concat(Enumerable.Range(101, 100)).Concat(Enumerable.Range(301, 100)).Select(n => (long)n),
            numbers);
        Assert.Empty(await Pile.VerifyAsync(server));

        void Note(Page answer)
        {
            if (answer.Status != System.Net.HttpStatusCode.OK)
            {
                refused.Add($"{answer.Status}: {Scanner.Said(answer)}");
            }
        }
    }

    [Fact]
    public async Task A_server_that_dies_while_numbering_loses_nothing_and_doubles_nothing()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List(40));
        await Bench.RegisterRollAsync(curator, pile.Prefix, 1001, 1100);
        // What each person meant to do: the roll's barcode, and the next number, for each gathering of theirs.
        var wanted = pile.Gatherings.SelectMany((gathering, i) => new[]
        {
            (Gathering: gathering, Code: (string?)pile.Code(1001 + i), Key: $"kill-{pile.Prefix}-{i}-roll"),
            (Gathering: gathering, Code: null, Key: $"kill-{pile.Prefix}-{i}-next"),
        }).ToList();
        var heard = new ConcurrentDictionary<string, string>();
        await using (var doomed = await ServeAsync())
        {
            var work = wanted.Chunk(8).Select(own => Task.Run(async () =>
            {
                try
                {
                    using var scanner = await ScannerAsync(pile, doomed.Address);
                    foreach (var want in own)
                    {
                        heard[want.Key] = Scanner.Said(await SendAsync(scanner, want));
                    }
                }
                catch (HttpRequestException)
                {
                    // The connection broke: this person does not know whether the last scan counted.
                }
            })).ToList();
            while (heard.Count < 20)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(5), TestContext.Current.CancellationToken);
            }

            await doomed.KillAsync();
            await Task.WhenAll(work);
        }

        Assert.True(heard.Count < wanted.Count, "It was killed too late for this test to show anything.");
        await using var revived = await ServeAsync();
        using var again = await ScannerAsync(pile, revived.Address);
        foreach (var want in wanted)
        {
            var said = Scanner.Said(await SendAsync(again, want));
            Assert.Contains(want.Code is null ? "Scan it back" : "Numbered", said, StringComparison.Ordinal);
            Assert.Equal(heard.GetValueOrDefault(want.Key, said), said);
        }

        var numbers = await server.InRegisterAsync(db => db.Specimens.Where(s => s.SeriesId == pile.SeriesId)
            .OrderBy(s => s.Number).Select(s => s.Number).ToListAsync());
        Assert.Equal(
            Enumerable.Range(1, 40).Concat(Enumerable.Range(1001, 40)).Select(n => (long)n), numbers);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private static Task<Page> SendAsync(Scanner scanner, (long Gathering, string? Code, string Key) want) =>
        want.Code is { } code
            ? scanner.ScanAsync(code, want.Gathering, want.Key)
            : scanner.NextAsync(want.Gathering, want.Key);

    private Task<ServerProcess> ServeAsync()
    {
        server.Store.Require();
        return ServerProcess.ServeAsync(
            server.Store.Folder,
            [.. server.Store.Settings.Append("Institution:Name=Herbarium of the Test Bench").SelectMany(s => new[] { "--set", s })]);
    }

    private async Task<Scanner> ScannerAsync(Pile pile, Uri address)
    {
        using var technician = await server.SignInAsync(Role.Technician);
        return await new Scanner(new Visitor(address, technician.SessionCookie), pile).OpenAsync();
    }

    private static string List(int rows) =>
        "Collector,Coll. No.,Date coll.,State,County,Locality,Species,Sheets\n" + string.Concat(
            Enumerable.Range(1, rows).Select(i =>
                $"Orla {InventedNames.FamilyOf($"{rows} rows")},{i},{1900 + rows}-06-14,Oregon,Harney,"
                + $"{InventedNames.FamilyOf($"place {i}")},Poa {InventedNames.FamilyOf($"plant {i}").ToLowerInvariant()},"
                + $"{Sheets}\n"));
}
