using System.Diagnostics;
using Accession.Core.Matching;
using Accession.Core.Outcomes;
using Accession.Server.Administering;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class DemoOnSqlite(ServerOnSqlite server) : DemoTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class DemoOnPostgreSql(ServerOnPostgreSql server) : DemoTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>The invented herbarium shows every stage between the door and the last number, and stays as it is.</summary>
public abstract class DemoTests(TestServer server)
{
    [Fact]
    public async Task It_shows_every_stage()
    {
        await FillAsync();
        using var curator = await server.SignInAsync(Role.Curator);

        var batches = await curator.GetPageAsync("/batches");
        foreach (var stage in new[] { "Rows to settle", "Findings to settle", "To take into the register", "In the register" })
        {
            Assert.Contains(stage, batches.Text, StringComparison.Ordinal);
        }

        var asked = await BatchAsync(curator, "Brackwater");
        Assert.Contains("Settle day and month", asked.Text, StringComparison.Ordinal);
        Assert.Contains("6 dates wait", asked.Text, StringComparison.Ordinal);

        var again = await BatchAsync(curator, "volunteers");
        Assert.Contains("volunteers corrected.csv", again.Text, StringComparison.Ordinal);
        Assert.Contains("Number Nine corral, inside the fence",
            (await curator.GetPageAsync($"{again.Address.AbsolutePath}/rows?show=changed")).Text, StringComparison.Ordinal);
        Assert.Equal(2, (await curator.GetPageAsync($"{again.Address.AbsolutePath}/rows?show=withdrawn"))
            .All("table tbody tr").Count);

        var exchange = await BatchAsync(curator, "Tule Basin");
        var found = await server.InRegisterAsync(db => db.Rows
            .Where(row => db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name.Contains("Tule Basin")))
            .GroupBy(row => row.Finding!.Value).Select(of => new { of.Key, Count = of.Count() })
            .ToDictionaryAsync(of => of.Key, of => of.Count));
        Assert.Equal((3, 1, 1, 4), (
            found[FindingKind.SameGathering], found[FindingKind.NumberClash], found[FindingKind.Possible],
            found[FindingKind.New]));
        Assert.Contains("5 open", exchange.Text, StringComparison.Ordinal);

        Assert.Contains("None open", (await BatchAsync(curator, "Marlpit")).Text, StringComparison.Ordinal);
        Assert.Contains("sheets wait", (await BatchAsync(curator, "Lindenrook")).Text, StringComparison.Ordinal);
        Assert.Contains("All numbered", (await BatchAsync(curator, "Sylvester Quern")).Text, StringComparison.Ordinal);

        var waiting = await curator.GetPageAsync("/");
        foreach (var work in new[] { "Scan numbers back", "Decide on names", "Refile", "Photograph sheets", "File sheets" })
        {
            Assert.Contains(work, waiting.Text, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("Long work stopped", waiting.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_old_herbarium_lies_in_its_cabinets_and_two_numbers_stand_on_two_sheets_each()
    {
        await FillAsync();
        using var curator = await server.SignInAsync(Role.Curator);

        var (sheets, placed) = await server.InRegisterAsync(async db => (
            await db.Specimens.CountAsync(s => s.CatalogNumber.StartsWith("LRA-")),
            await db.Parts.CountAsync(part => part.Code.StartsWith("LRA-") && part.PlaceId != null)));
        Assert.Equal(DemoCabinet.Collectors.Sum(collector => collector.Sheets), sheets);
        Assert.Equal(sheets - 4, placed);
        Assert.Contains("2 numbers", (await curator.GetPageAsync("/numbers/repeated")).Text, StringComparison.Ordinal);
        // Fairlamb, A. and A. Fairlamb are read alike; Aug. Fairlamb is not.
        Assert.Contains("Augustin Fairlamb 2 none", (await curator.GetPageAsync("/collectors")).Text,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_protected_plant_shows_its_county_and_no_more()
    {
        await FillAsync();
        var number = await server.InRegisterAsync(db => db.Specimens
            .Where(s => s.CurrentName.StartsWith("Stephanomeria")).Select(s => s.CatalogNumber).SingleAsync());
        using var technician = await server.SignInAsync(Role.Technician);

        var page = await technician.GetPageAsync($"/specimen/{number}");

        Assert.Contains("Harney", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Pepperpot", page.Source, StringComparison.Ordinal);
        Assert.DoesNotContain("43.20", page.Source, StringComparison.Ordinal);
        Assert.DoesNotContain("volcanic ash", page.Source, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_second_filling_changes_nothing()
    {
        await FillAsync();
        var before = await CountsAsync();

        await FillAsync();

        Assert.Equal(before, await CountsAsync());
    }

    [Fact]
    public async Task A_filling_that_was_broken_off_goes_on_where_it_stopped()
    {
        await FillAsync();
        var before = await CountsAsync();
        // As if the process had died before its last act: the key is gone, everything else is there.
        await server.InRegisterAsync(db => db.Acts.Where(act => act.RequestKey == DemoStory.LastKey)
            .ExecuteUpdateAsync(act => act.SetProperty(a => a.RequestKey, "gone")));

        // Protecting a second time is refused, so the answers up to there must have been those of the first time.
        var refused = await Assert.ThrowsAsync<InvalidOperationException>(FillAsync);

        Assert.Contains("protected in just this way already", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, await CountsAsync());
        await server.InRegisterAsync(db => db.Acts.Where(act => act.RequestKey == "gone")
            .ExecuteUpdateAsync(act => act.SetProperty(a => a.RequestKey, DemoStory.LastKey)));
    }

    private async Task<Page> BatchAsync(Visitor curator, string source)
    {
        var id = await server.InRegisterAsync(db => db.Batches
            .Where(b => b.JoinedToBatchId == null && b.Source.Name.Contains(source)).Select(b => b.Id).SingleAsync());
        return await curator.GetPageAsync($"/batch/{id}");
    }

    private Task<string> CountsAsync() => server.InRegisterAsync(async db => string.Join(' ',
        await db.Batches.CountAsync(), await db.Lists.CountAsync(), await db.Rows.CountAsync(),
        await db.Gatherings.CountAsync(), await db.Specimens.CountAsync(), await db.Acts.CountAsync(),
        await db.Work.CountAsync(), await db.Users.CountAsync(user => user.UserName!.StartsWith("demo-"))));

    private async Task FillAsync()
    {
        var took = Stopwatch.StartNew();
        await server.RunAsync<Demo, bool>(async demo =>
        {
            await demo.FillAsync(CancellationToken.None);
            return true;
        });
        TestContext.Current.SendDiagnosticMessage($"The demo was filled in {took.ElapsedMilliseconds} ms.");
    }
}
