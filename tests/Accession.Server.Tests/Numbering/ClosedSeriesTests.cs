using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Storage.Numbers;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Numbering;

[Trait("Store", "sqlite")]
public sealed class ClosedSeriesOnSqlite(ServerOnSqlite server) : ClosedSeriesTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ClosedSeriesOnPostgreSql(ServerOnPostgreSql server)
    : ClosedSeriesTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A series is closed, by hand or because the register was restored, and opened with a number from paper.</summary>
public abstract class ClosedSeriesTests(TestServer server)
{
    private const string Lost = "the register was restored to 20 Nov 2026";

    private static string List => $"""
        Collector,Coll. No.,Date coll.,State,County,Species,Sheets
        Orla {InventedNames.FamilyOf($"{Guid.NewGuid()}")},7,2024-06-14,Oregon,Harney,Poa secunda J.Presl,20
        """;

    [Fact]
    public async Task After_a_restore_nothing_is_issued_until_the_paper_was_read_and_no_number_goes_on_two_sheets()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var administrator = await server.SignInAsync(Role.Administrator);
        var pile = await Pile.TakeInAsync(server, curator, List);
        var gathering = Assert.Single(pile.Gatherings);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 5, 8);
        Assert.Equal([pile.Code(1), pile.Code(2)], [await NextAsync(), await NextAsync()]);

        Assert.True(await CloseEverySeriesAsync() >= 2);
        Assert.Contains("Open the closed number series", (await administrator.GetPageAsync("/")).Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));

        var refused = await scanner.NextAsync(gathering);
        Assert.Equal(HttpStatusCode.Conflict, refused.Status);
        Assert.Contains(Lost, refused.One("li.scan").TextContent, StringComparison.Ordinal);
        Assert.Contains("administrator", refused.One("li.scan").TextContent, StringComparison.Ordinal);
        Assert.Contains("issues nothing", refused.Text, StringComparison.Ordinal);
        // What a roll's barcode says is on paper already, so it goes on.
        Assert.Equal(HttpStatusCode.OK, (await scanner.ScanAsync(pile.Code(6), gathering)).Status);
        // A sheet from the days that were lost.
        var unknown = await scanner.ScanAsync(pile.Code(4), gathering);
        Assert.Contains("is closed", unknown.One("li.scan").TextContent, StringComparison.Ordinal);

        Assert.DoesNotContain("handler=Open", (await curator.GetPageAsync("/series")).Source, StringComparison.Ordinal);
        Assert.Contains(Lost, (await curator.GetPageAsync("/series")).Text, StringComparison.Ordinal);
        Assert.Contains("is no number of", Assert.Single((await OpenAsync("rubbish")).Refusals), StringComparison.Ordinal);
        Assert.Contains("more than a million", Assert.Single((await OpenAsync("3000000")).Refusals), StringComparison.Ordinal);
        var opened = await administrator.FollowAsync(await OpenAsync(pile.Code(11)));
        Assert.Contains($"reaches {pile.Code(6)}", opened.Text, StringComparison.Ordinal);
        Assert.Contains("5 numbers", opened.Text, StringComparison.Ordinal);
        Assert.Contains("before the restore of", opened.Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));

        // 3, 4 and 9 to 11 may be on sheets: they go on one when it is scanned, and the counter gives none of them.
        Assert.Equal(HttpStatusCode.OK, (await scanner.ScanAsync(pile.Code(4), gathering)).Status);
        Assert.Equal(HttpStatusCode.OK, (await scanner.ScanAsync(pile.Code(11), gathering)).Status);
        Assert.Equal([pile.Code(12), pile.Code(13)], [await NextAsync(), await NextAsync()]);
        Assert.Empty(await Pile.VerifyAsync(server));
        await OpenTheOthersAsync(administrator);
        Assert.DoesNotContain("closed number series", (await administrator.GetPageAsync("/")).Text, StringComparison.Ordinal);

        async Task<string> NextAsync() => (await scanner.NextAsync(gathering)).One("li.scan .code").TextContent;

        Task<Page> OpenAsync(string number) => SubmitOpenAsync(administrator, pile, number);
    }

    [Fact]
    public async Task A_series_closed_by_hand_goes_on_where_it_was_when_the_paper_shows_nothing_new()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var administrator = await server.SignInAsync(Role.Administrator);
        var pile = await Pile.TakeInAsync(server, curator, List);
        var gathering = Assert.Single(pile.Gatherings);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        for (var i = 1; i <= 3; i++)
        {
            Assert.Equal(pile.Code(i), (await scanner.NextAsync(gathering)).One("li.scan .code").TextContent);
        }

        var page = await administrator.GetPageAsync("/series");
        (string, string)[] fields = [("series", $"{pile.SeriesId}"), ("why", "labels were printed twice.")];
        Assert.Empty((await administrator.SubmitAsync(page, "form[action$='handler=Close']", fields)).Refusals);
        Assert.Contains("labels were printed twice", Scanner.Said(await scanner.NextAsync(gathering)), StringComparison.Ordinal);

        var opened = await administrator.FollowAsync(await SubmitOpenAsync(administrator, pile, "2"));
        Assert.Contains("nothing lies between", opened.Text, StringComparison.Ordinal);
        Assert.Equal(pile.Code(4), (await scanner.NextAsync(gathering)).One("li.scan .code").TextContent);
        Assert.False(await server.InRegisterAsync(db => db.Rolls.AnyAsync(roll => roll.SeriesId == pile.SeriesId)));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_closed_series_of_lots_issues_none_and_goes_on_behind_the_paper()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var administrator = await server.SignInAsync(Role.Administrator);
        var first = await Pile.TakeInAsync(server, curator, List);
        var lots = await server.InRegisterAsync(db => db.Series.SingleAsync(s => s.PatternText == "YYYY.0000"));
        await administrator.SubmitAsync(await administrator.GetPageAsync("/series"), "form[action$='handler=Close']",
            [("series", $"{lots.Id}"), ("why", "a list on paper runs ahead")]);
        var refused = await server.RunAsync<NumberIssuer, Outcome<Core.Numbers.IssuedNumber>>(
            numbers => numbers.NextForLotAsync(lots.Id, lots.Year, CancellationToken.None));
        Assert.Contains("a list on paper runs ahead", Assert.Single(refused.Refusals).Reason, StringComparison.Ordinal);

        var paper = lots.Pattern.Write(lots.Next + 4, lots.Year);
        var page = await administrator.GetPageAsync("/series");
        var form = $"form[action$='handler=Open']:has(input[name=series][value='{lots.Id}'])";
        var answer = await administrator.FollowAsync(await administrator.SubmitAsync(page, form, [("paperHighest", paper)]));
        Assert.Contains("5 numbers of lots", answer.Text, StringComparison.Ordinal);
        var second = await Pile.TakeInAsync(server, curator, List);
        Assert.Equal(lots.Pattern.Write(lots.Next + 5, lots.Year), second.Accession);
        Assert.NotEqual(first.Accession, second.Accession);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    // The register of the class is restored for all its tests.
    private static async Task OpenTheOthersAsync(Visitor administrator)
    {
        const string Form = "form[action$='handler=Open']";
        for (var page = await administrator.GetPageAsync("/series"); page.All(Form).Count > 0;)
        {
            page = await administrator.FollowAsync(await administrator.SubmitAsync(page, Form, [("paperHighest", "none")]));
        }
    }

    private static async Task<Page> SubmitOpenAsync(Visitor administrator, Pile pile, string number) =>
        await administrator.SubmitAsync(
            await administrator.GetPageAsync("/series"),
            $"form[action$='handler=Open']:has(input[name=series][value='{pile.SeriesId}'])", [("paperHighest", number)]);

    // As the act of a restore does it.
    private Task<int> CloseEverySeriesAsync() => server.InRegisterAsync(async db =>
    {
        var act = Act.Of(Door.System, "restore the register", TimeProvider.System.GetUtcNow().UtcDateTime, Lost);
        var closed = await db.CarryOutAsync(
            Door.System, act, () => new CloseEverySeries(db).CloseAsync(act, CancellationToken.None),
            CancellationToken.None);
        return closed.Value;
    });
}
