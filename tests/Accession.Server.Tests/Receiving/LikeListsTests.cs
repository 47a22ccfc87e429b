using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class LikeListsOnSqlite(ServerOnSqlite server) : LikeListsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class LikeListsOnPostgreSql(ServerOnPostgreSql server)
    : LikeListsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// A list that is much like an earlier one of its source: what is plain is joined, what is not is asked. People and
/// places are invented.
/// </summary>
public abstract class LikeListsTests(TestServer server)
{
    private const string Header = "Collector,Number,Date,Species,Locality";

    private static readonly string[] Rows =
        [.. Enumerable.Range(1, 8).Select(n => $"Ada Quill,{n},2024-05-0{n},Poa annua L.,Field {n}")];

    private static readonly string[] Others =
        [.. Enumerable.Range(1, 4).Select(n => $"Ada Quill,9{n},2024-06-0{n},Carex hirta L.,Fen {n}")];

    [Fact]
    public async Task Half_of_the_rows_are_asked_about_and_nothing_goes_in_or_out_before()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "LL");
        var first = await ReceiveAsync(curator, "Half", Rows);
        var second = await ReceiveAsync(curator, "Half", [.. Rows[..4], .. Others]);
        Assert.NotEqual(first.Address.AbsolutePath, second.Address.AbsolutePath);
        Assert.Contains("Of its 8 rows, 4 stand there to the letter.", second.Text, StringComparison.Ordinal);
        var path = second.Address.AbsolutePath;
        Assert.Contains("Which list is it?", (await curator.GetPageAsync("/batches")).Text, StringComparison.Ordinal);
        var refused = await curator.SubmitAsync(
            await curator.GetPageAsync($"{path}/take-in"), "main form", [("Terms", "Gift"), ("SheetsInPile", "8")]);
        Assert.Equal(HttpStatusCode.Conflict, refused.Status);
        Assert.Contains("could go in twice", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.Equal(8, await StandingAsync(first));

        // Another list: it stays, says so, and can be taken in.
        var told = await curator.SubmitAsync(second, "form[action$='handler=Another']");
        Assert.Empty(told.Refusals);
        second = await curator.FollowAsync(told);
        Assert.Contains("Told apart from batch", second.Text, StringComparison.Ordinal);
        Assert.Empty(second.All("#which-list"));
        Assert.Equal(8, await StandingAsync(first));
        Assert.NotEmpty(second.All("a.act[href$='take-in']"));

        // Taken back: it is that list after all.
        var joined = await curator.SubmitAsync(second, "form[action$='handler=Same']");
        Assert.Equal(first.Address.AbsolutePath, joined.Location);
        await server.WaitForWorkAsync();
        var whole = await curator.FollowAsync(joined);
        Counts(whole, unchanged: 4, changed: 0, added: 4, withdrawn: 4);
        Assert.Equal(8, await StandingAsync(first));
        var now = await curator.FollowAsync(await curator.GetPageAsync(path));
        Assert.Equal(first.Address.AbsolutePath, now.Address.AbsolutePath);
        Assert.Empty(now.All("#which-list"));
        Assert.Equal(0, await StandingAsync(second));
    }

    [Fact]
    public async Task A_list_with_a_column_more_is_known_by_its_numbers_and_asked_about()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await ReceiveAsync(curator, "Wider", Rows);
        var second = await ReceiveAsync(
            curator, "Wider", [.. Rows.Select(row => row + ",shade")], Header + ",Habitat");
        Assert.Contains("8 have the collector and number of a row there", second.Text, StringComparison.Ordinal);
        var joined = await curator.SubmitAsync(second, "form[action$='handler=Same']");
        await server.WaitForWorkAsync();
        var whole = await curator.FollowAsync(joined);
        Assert.Equal(first.Address.AbsolutePath, whole.Address.AbsolutePath);
        Counts(whole, unchanged: 0, changed: 8, added: 0, withdrawn: 0);
    }

    [Fact]
    public async Task A_list_that_goes_on_from_an_earlier_one_is_asked_about_and_joins_without_a_loss()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await ReceiveAsync(curator, "Grows", Rows);
        var second = await ReceiveAsync(curator, "Grows", [.. Rows, .. Others]);
        Assert.NotEqual(first.Address.AbsolutePath, second.Address.AbsolutePath);
        var joined = await curator.SubmitAsync(second, "form[action$='handler=Same']");
        await server.WaitForWorkAsync();
        Counts(await curator.FollowAsync(joined), unchanged: 8, changed: 0, added: 4, withdrawn: 0);
    }

    [Fact]
    public async Task What_is_plain_is_not_asked()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await ReceiveAsync(curator, "Plain", Rows);
        var again = await ReceiveAsync(curator, "Plain", [.. Rows[1..].Reverse(), Others[0]]);
        Assert.Equal(first.Address.AbsolutePath, again.Address.AbsolutePath);
        var other = await ReceiveAsync(curator, "Plain", [.. Others[1..], Rows[3]]);
        Assert.NotEqual(first.Address.AbsolutePath, other.Address.AbsolutePath);
        Assert.Empty(other.All("#which-list"));
    }

    [Fact]
    public async Task A_file_that_is_another_batch_already_is_not_said_to_be_in_this_one()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await ReceiveAsync(curator, "Elsewhere", Rows);
        var other = await ReceiveAsync(curator, "Elsewhere", Others);
        var refused = await curator.SubmitAsync(first, "form[action$='handler=Again']", [],
            [new Upload("File", "other.csv", Encoding.UTF8.GetBytes(Header + "\n" + string.Join('\n', Others)))]);
        Assert.Equal(HttpStatusCode.Conflict, refused.Status);
        Assert.Contains(
            $"it is batch {other.Address.AbsolutePath.Split('/')[^1]}.", Assert.Single(refused.Refusals),
            StringComparison.Ordinal);
    }

    private Task<int> StandingAsync(Page batch)
    {
        var id = long.Parse(
            batch.Address.AbsolutePath.Split('/')[^1], System.Globalization.CultureInfo.InvariantCulture);
        return server.InRegisterAsync(db => db.Rows.CountAsync(
            row => row.BatchId == id && row.SupersededById == null && row.WithdrawnInListId == null));
    }

    private Task<Page> ReceiveAsync(Visitor curator, string source, string[] rows, string header = Header) =>
        Bench.ReceiveAsync(
            server, curator, source, "list.csv", Encoding.UTF8.GetBytes(header + "\n" + string.Join('\n', rows)));

    private static string Fact(Page page, string name) =>
        page.All("dl.facts dt").Single(dt => dt.TextContent == name).NextElementSibling!.TextContent;

    private static void Counts(Page page, int unchanged, int changed, int added, int withdrawn) => Assert.Equal(
        ($"{unchanged}", $"{changed}", $"{added}", $"{withdrawn}"),
        (Fact(page, "Unchanged"), Fact(page, "Changed"), Fact(page, "Added"), Fact(page, "Withdrawn")));
}
