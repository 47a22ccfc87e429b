using System.Net;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Server.Tests.Treating;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Arriving;

[Trait("Store", "sqlite")]
public sealed class ParcelPlacesOnSqlite(ServerOnSqlite server) : ParcelPlaceTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ParcelPlacesOnPostgreSql(ServerOnPostgreSql server)
    : ParcelPlaceTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A parcel has a barcode on its receipt, and stands in a place with a zone.</summary>
public abstract class ParcelPlaceTests(TestServer server)
{
    [Fact]
    public async Task The_barcodes_of_tag_and_receipt_open_the_parcel_at_the_door()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var tag = await room.TagAsync();

        var receipt = await room.Technician.GetPageAsync($"/parcel/{tag}/receipt");

        Assert.Equal([tag, tag], receipt.All("svg.bar-symbol").Select(Symbols.Read));
        var scanned = await room.Technician.GetPageAsync($"/parcels?scan={tag.ToLowerInvariant()}");
        Assert.EndsWith($"/parcel/{tag}", scanned.Location, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await room.Technician.GetPageAsync("/parcels?scan=TB-H0000001")).Status);
    }

    [Fact]
    public async Task A_parcel_stands_in_quarantine_until_it_may_be_opened()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var page = await room.Technician.GetPageAsync("/parcels");
        var door = room.Door().Where(field => field.Item1 != "Standing").ToArray();
        var nowhere = await room.Technician.SubmitAsync(page, "form[action='/parcels'][method=post]", door);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, nowhere.Status);
        var shelf = await PlaceAsync(room, "Shelf");
        var answer = ColdRoom.Sent(await room.Technician.SubmitAsync(
            page, "form[action='/parcels'][method=post]", [.. door, ("Place", $"{shelf}")]));
        var tag = answer.Location!.Split('/')[^1];

        var shown = await room.Technician.GetPageAsync($"/parcel/{tag}");
        Assert.Contains($"Shelf {room.Name}, quarantine", shown.Text, StringComparison.Ordinal);
        Assert.Contains($"Put in Shelf {room.Name}", shown.Text, StringComparison.Ordinal);
        foreach (var (place, status) in new[]
        {
            ("Room", HttpStatusCode.Forbidden), ("Office", HttpStatusCode.Forbidden), ("Shelf", HttpStatusCode.Conflict),
        })
        {
            var refused = await MoveAsync(room, tag, await PlaceAsync(room, place));
            Assert.Equal(status, refused.Status);
        }

        var load = await room.BeginAsync();
        ColdRoom.Sent(await room.AddAsync(load, tag));
        Assert.Equal(HttpStatusCode.Conflict, (await MoveAsync(room, tag, await PlaceAsync(room, "Room"))).Status);
        ColdRoom.Sent(await room.CloseAsync(load, 100));
        ColdRoom.Sent(await room.TakeOutAsync(load, 1));
        ColdRoom.Sent(await room.UnderRuleAsync(load));
        ColdRoom.Sent(await MoveAsync(room, tag, await PlaceAsync(room, "Room")));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task What_was_written_before_there_were_places_is_kept()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var tag = await room.TagAsync();
        Assert.Contains("Shelf Q3", (await room.Technician.GetPageAsync($"/parcel/{tag}")).Text, StringComparison.Ordinal);

        ColdRoom.Sent(await MoveAsync(room, tag, await PlaceAsync(room, "Shelf")));

        var shown = await room.Technician.GetPageAsync($"/parcel/{tag}");
        Assert.Contains("Stood, when tagged", shown.Text, StringComparison.Ordinal);
        Assert.Contains("Shelf Q3", shown.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task After_a_restore_no_tag_is_issued_before_somebody_looked_at_those_on_paper()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var known = await room.TagAsync();
        Assert.True(Parcel.TryReadTag(known, out var year, out var number));
        await server.InRegisterAsync(db => db.TagCounters.ExecuteUpdateAsync(
            row => row.SetProperty(c => c.ClosedActId, db.Acts.Max(act => act.Id))));   // as restoring does

        var page = await room.Technician.GetPageAsync("/parcels");
        var refused = await room.Technician.SubmitAsync(page, "form[action='/parcels'][method=post]", room.Door());
        Assert.Equal(HttpStatusCode.Conflict, refused.Status);
        Assert.Equal(
            HttpStatusCode.UnprocessableEntity,
            (await room.Technician.SubmitAsync(page, "form[action$='handler=Tags']", [("highest", "Parcel 7")])).Status);
        Assert.Equal(
            HttpStatusCode.UnprocessableEntity,
            (await room.Technician.SubmitAsync(
                await room.Technician.GetPageAsync("/parcels"), "form[action$='handler=Tags']", [("highest", $"Q{year}-99999999")])).Status);
        var opened = ColdRoom.Sent(await room.Technician.SubmitAsync(
            await room.Technician.GetPageAsync("/parcels"), "form[action$='handler=Tags']",
            [("highest", $"q{year}-{number + 3:0000}")]));
        Assert.Contains("behind 3", (await room.Technician.FollowAsync(opened)).One("[data-said]").TextContent, StringComparison.Ordinal);

        Assert.Equal($"Q{year}-{number + 4:0000}", await room.TagAsync());
        var loads = await room.Technician.GetPageAsync("/freezer-loads");
        ColdRoom.Sent(await room.Technician.SubmitAsync(loads, "form[action$='handler=Numbers']", [("highest", "")]));
        await room.BeginAsync();
        Assert.Empty(await Pile.VerifyAsync(server));
        Assert.Equal(
            HttpStatusCode.Conflict,
            (await room.Technician.SubmitAsync(loads, "form[action$='handler=Numbers']", [("highest", "7"), ("RequestKey", "again")])).Status);
    }

    [Fact]
    public async Task A_line_comes_off_the_list_before_the_lid_is_closed_with_the_sheets_that_lie_in_the_parcel()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var pile = await room.PileAsync();
        var tag = await room.TagAsync();
        await room.TieAsync(tag, pile);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);
        Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);
        var (first, second) = (await room.BeginAsync(), await room.BeginAsync());
        ColdRoom.Sent(await room.AddAsync(first, tag, withSheets: true));
        Assert.Equal(HttpStatusCode.Conflict, (await room.AddAsync(second, tag)).Status);

        var off = ColdRoom.Sent(await OffAsync(room, first));
        Assert.Contains("with 2 sheets in it", (await room.Technician.FollowAsync(off)).One("[data-said]").TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain(tag, (await room.PageAsync(first)).One("main table, .empty").TextContent, StringComparison.Ordinal);
        ColdRoom.Sent(await room.AddAsync(second, tag, withSheets: true));
        ColdRoom.Sent(await room.CloseAsync(second, 100));
        Assert.Empty((await room.PageAsync(second)).All("form[action$='handler=Off']"));
        ColdRoom.Sent(await room.TakeOutAsync(second, 1));
        ColdRoom.Sent(await room.UnderRuleAsync(second));

        // What came off the first list was cleared by the second alone.
        Assert.Equal(2, await server.InRegisterAsync(db => db.Parts.CountAsync(p => p.ClearedAt != null && db.Parcels.Any(q => q.Id == p.ParcelId && q.Tag == tag))));
        Assert.Equal(3, await server.InRegisterAsync(db => db.LoadItems.IgnoreQueryFilters().CountAsync(i => i.TakenOffActId != null && db.Loads.Any(l => l.Id == i.LoadId && l.Number == first))));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task The_last_move_together_is_taken_back_together()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var pile = await room.PileAsync();
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.NextAsync(pile.Gatherings[0]);
        await scanner.NextAsync(pile.Gatherings[0]);
        ColdRoom.Sent(await room.MoveAsync("Shelf", pile.Code(1), pile.Code(2)));

        var page = await room.Technician.GetPageAsync("/places");
        var back = ColdRoom.Sent(await room.Technician.SubmitAsync(page, "form[action$='handler=Back']"));

        Assert.Contains("2 sheets stand where they stood before", (await room.Technician.FollowAsync(back)).Text, StringComparison.Ordinal);
        Assert.Equal(2, await server.InRegisterAsync(db => db.Parts.CountAsync(
            p => (p.Code == pile.Code(1) || p.Code == pile.Code(2)) && p.PlaceId == null && p.Zone == Zone.Quarantine)));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private static async Task<Page> OffAsync(ColdRoom room, int load) =>
        await room.Technician.SubmitAsync(await room.PageAsync(load), "form[action$='handler=Off']");

    private static async Task<Page> MoveAsync(ColdRoom room, string tag, long place)
    {
        var page = await room.Technician.GetPageAsync($"/parcel/{tag}");
        var token = page.One("[data-sign-out] input[name=__RequestVerificationToken]").GetAttribute("value")!;
        using var content = new FormUrlEncodedContent([new("to", $"{place}"), new("__RequestVerificationToken", token)]);
        using var answer = await room.Technician.Http.PostAsync(new Uri(room.Server.Address, $"/parcel/{tag}?handler=Move"), content);
        return await Page.ReadAsync(answer);
    }

    private Task<long> PlaceAsync(ColdRoom room, string place) => server.InRegisterAsync(db => db.Places
        .Where(p => p.Name == $"{place} {room.Name}").Select(p => p.Id).SingleAsync());
}
