using System.Text;
using Accession.Core.Matching;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class PersonsInFindingOnSqlite(ServerOnSqlite server)
    : PersonsInFindingTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class PersonsInFindingOnPostgreSql(ServerOnPostgreSql server)
    : PersonsInFindingTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>What a curator says of a person changes at once what the rows of waiting batches are found to be.</summary>
public abstract class PersonsInFindingTests(TestServer server)
{
    // Invented; the two lists have one number each, years and counties apart.
    private const string Heading = "Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets\n";

    [Fact]
    public async Task A_clash_is_none_where_the_numbers_begin_anew_each_year()
    {
        var name = $"Ada {InventedNames.FamilyOf("anew each year")}";
        var batch = await WaitingAsync(
            $"{name},812,1957-06-14,United States,Oregon,Harney,Rim of Dry Basin,Poa secunda J.Presl,1\n",
            $"{name},812,1958-05-01,United States,Oregon,Malheur,Owyhee breaks,Carex nebrascensis Dewey,1\n");
        Assert.Equal(FindingKind.NumberClash, await FoundAsync(batch));
        using var curator = await server.SignInAsync(Role.Curator);
        var address = await Tracking.CollectorsAtHand.OnRecordAsync(curator, name, name);

        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync(address), "form[action$='handler=Habit']",
            [("habit", "RestartsYearly"), ("how", "told by phone")])).Refusals);
        await server.WaitForWorkAsync();

        Assert.Equal(FindingKind.New, await FoundAsync(batch));
        Assert.Contains("begins the numbers anew each year", await SaidAsync(batch), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_clash_is_none_where_one_date_is_outside_the_years()
    {
        var name = $"Ada {InventedNames.FamilyOf("outside the years")}";
        var batch = await WaitingAsync(
            $"{name},33,1957-07-14,United States,Oregon,Harney,Rim of Wet Basin,Poa secunda J.Presl,1\n",
            $"{name},33,1999-02-03,United States,Oregon,Malheur,Owyhee breaks,Carex nebrascensis Dewey,1\n");
        Assert.Equal(FindingKind.NumberClash, await FoundAsync(batch));
        using var curator = await server.SignInAsync(Role.Curator);
        var address = await Tracking.CollectorsAtHand.OnRecordAsync(curator, name, name);

        Assert.Empty((await Tracking.CollectorsAtHand.StateYearsAsync(curator, address, "1950", "1960")).Refusals);
        await server.WaitForWorkAsync();
        Assert.Equal(FindingKind.New, await FoundAsync(batch));
        Assert.Contains("Outside the years", await SaidAsync(batch), StringComparison.Ordinal);

        // Taken back, it is a clash again.
        Assert.Empty((await Tracking.CollectorsAtHand.StateYearsAsync(curator, address, "", "")).Refusals);
        await server.WaitForWorkAsync();
        Assert.Equal(FindingKind.NumberClash, await FoundAsync(batch));
    }

    [Fact]
    public async Task Merged_two_names_are_one_collector_and_taken_back_they_are_two()
    {
        var (born, married) = (
            $"Ada {InventedNames.FamilyOf("born so")}", $"Ada {InventedNames.FamilyOf("married so")}");
        var batch = await WaitingAsync(
            $"{born},71,1957-08-14,United States,Oregon,Harney,Rim of Far Basin,Poa secunda J.Presl,1\n",
            $"{married},71,1957-08-14,United States,Oregon,Harney,Rim of Far Basin,Poa secunda J.Presl,1\n");
        Assert.Equal(FindingKind.Possible, await FoundAsync(batch));
        using var curator = await server.SignInAsync(Role.Curator);
        var one = await Tracking.CollectorsAtHand.OnRecordAsync(curator, born, born);
        var two = await Tracking.CollectorsAtHand.OnRecordAsync(curator, $"{married} of the list");
        // The batch waits, so its spelling does not stand in the register yet: it is said to the letter.
        Assert.NotNull((await Tracking.CollectorsAtHand.PostAsync(
            server, curator, await curator.GetPageAsync(two), "", ("spellings", married))).Location);

        var family = married.Split(' ')[1];
        var merged = await curator.SubmitAsync(
            await curator.GetPageAsync($"{one}?Family={family}"), "form[action$='handler=Merge']",
            [("other", two.Split('/')[^1]), ("how", "the wedding is in the annals")]);
        Assert.Empty(merged.Refusals);
        await server.WaitForWorkAsync();
        Assert.Equal(FindingKind.SameGathering, await FoundAsync(batch));
        Assert.Contains("A curator has said that these are one person.", await SaidAsync(batch), StringComparison.Ordinal);

        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync(one), "form[action$='handler=Unmerge']", [("how", "another wedding")])).Refusals);
        await server.WaitForWorkAsync();
        Assert.Equal(FindingKind.Possible, await FoundAsync(batch));
    }

    // One sheet in the register, and a batch of one row that waits; answers the batch.
    private async Task<long> WaitingAsync(string held, string waits)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Pile.TakeInAsync(server, curator, Heading + held);
        var page = await Bench.ReceiveAsync(
            server, curator, $"Source {Guid.NewGuid():N}", "list.csv", Encoding.UTF8.GetBytes(Heading + waits));
        return long.Parse(page.Address.AbsolutePath.Split('/')[^1], null);
    }

    private Task<FindingKind?> FoundAsync(long batch) => server.InRegisterAsync(db =>
        db.Rows.Where(row => row.BatchId == batch).Select(row => row.Finding).SingleAsync());

    private Task<string> SaidAsync(long batch) => server.InRegisterAsync(async db =>
    {
        var found = await db.FoundMembers
            .Where(one => db.Rows.Any(row => row.Id == one.RowId && row.BatchId == batch))
            .Select(one => new { one.Evidence, Kind = db.Rows.Single(row => row.Id == one.RowId).Finding })
            .SingleAsync();
        return string.Join(' ', Evidence.FromPacked(found.Evidence).Sentences(found.Kind!.Value));
    });
}
