using System.Net;
using Accession.Core.FreezerLoads;
using Accession.Core.Specimens;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Treating;

[Trait("Store", "sqlite")]
public sealed class TreatmentOnSqlite(ServerOnSqlite server) : TreatmentTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class TreatmentOnPostgreSql(ServerOnPostgreSql server)
    : TreatmentTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>From the door to the collection room, and everything that must not get there.</summary>
public abstract class TreatmentTests(TestServer server)
{
    [Fact]
    public async Task A_parcel_comes_from_the_door_to_sheets_in_the_collection_room()
    {
        using var cold = await ColdRoom.OpenAsync(server);
        var pile = await cold.PileAsync();
        var tag = await cold.TagAsync();
        Assert.Contains(tag, (await cold.Technician.GetPageAsync("/parcels")).Text, StringComparison.Ordinal);
        Assert.Contains(tag, (await cold.Technician.GetPageAsync($"/parcel/{tag}/receipt")).Text, StringComparison.Ordinal);
        await cold.TieAsync(tag, pile);
        using var scanner = new Scanner(await server.SignInAsync(Core.Outcomes.Role.Technician), pile);
        await scanner.NextAsync(pile.Gatherings[0]);   // in the parcel again, and on the list
        Assert.Equal(HttpStatusCode.Forbidden, (await cold.MoveAsync("Room", pile.Code(1))).Status);

        var load = await cold.BeginAsync();
        ColdRoom.Sent(await cold.AddAsync(load, tag.ToLowerInvariant(), withSheets: true));
        ColdRoom.Sent(await cold.CloseAsync(load, hoursAgo: 100));
        await scanner.NextAsync(pile.Gatherings[0]);   // not in the freezer
        Assert.Equal(HttpStatusCode.Conflict, (await cold.MoveAsync("Room", pile.Code(1))).Status);
        ColdRoom.Sent(await cold.TakeOutAsync(load, hoursAgo: 1));
        ColdRoom.Sent(await cold.UnderRuleAsync(load));
        await scanner.NextAsync(pile.Gatherings[0]);   // out of the treated parcel

        ColdRoom.Sent(await cold.MoveAsync("Room", pile.Code(1), pile.Code(3)));
        var later = await cold.MoveAsync("Room", pile.Code(2));
        Assert.Contains($"{pile.Code(2)} is untreated", Assert.Single(later.Refusals), StringComparison.Ordinal);
        var trail = await cold.Technician.GetPageAsync($"/specimen/{pile.Code(3)}");
        Assert.Contains($"Let in under a house rule, not proved, load {load}, in parcel {tag}", trail.Text, StringComparison.Ordinal);
        foreach (var page in new[] { $"/parcel/{tag}", $"/freezer-load/{load}", "/freezer-loads", "/parcels" })
        {
            var shown = await cold.Technician.GetPageAsync(page);
            Assert.DoesNotContain("passed", shown.Source, StringComparison.OrdinalIgnoreCase);
        }

        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task What_is_added_after_the_lid_was_closed_begins_the_clock_again()
    {
        using var cold = await ColdRoom.OpenAsync(server);
        var (first, second) = (await cold.TagAsync(), await cold.TagAsync());
        var load = await cold.BeginAsync();
        ColdRoom.Sent(await cold.AddAsync(load, first));
        ColdRoom.Sent(await cold.CloseAsync(load, hoursAgo: 100));

        var refused = await cold.AddAsync(load, second);
        Assert.Contains("the clock begins again", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        ColdRoom.Sent(await cold.AddAsync(load, second, beginAgain: true));
        ColdRoom.Sent(await cold.TakeOutAsync(load, hoursAgo: 0));

        var tooShort = await cold.UnderRuleAsync(load);
        Assert.Contains("it was 0 h", Assert.Single(tooShort.Refusals), StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_waiver_needs_a_curator_and_a_reason()
    {
        using var cold = await ColdRoom.OpenAsync(server);
        var pile = await cold.PileAsync();
        using var scanner = new Scanner(await server.SignInAsync(Core.Outcomes.Role.Technician), pile);
        await scanner.NextAsync(pile.Gatherings[0]);
        var load = await cold.BeginAsync();
        ColdRoom.Sent(await cold.AddAsync(load, pile.Code(1)));
        ColdRoom.Sent(await cold.CloseAsync(load, hoursAgo: 0));
        ColdRoom.Sent(await cold.TakeOutAsync(load, hoursAgo: 0));

        Assert.Empty((await cold.PageAsync(load)).All("button[formaction$='handler=Waive']"));
        var token = (await cold.PageAsync(load)).All("input[name=__RequestVerificationToken]")[0].GetAttribute("value")!;
        using var forced = await cold.Technician.Http.PostAsync(
            new Uri(server.Address, $"/freezer-load/{load}?handler=Waive"),
            new FormUrlEncodedContent([new("Reason", "In a hurry."), new("__RequestVerificationToken", token)]),
            TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Forbidden, forced.StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await cold.RecordAsync(load, "Waive", " ", cold.Curator)).Status);
        Assert.Equal(LoadStanding.TakenOut, await StandingAsync(load));

        ColdRoom.Sent(await cold.RecordAsync(load, "Waive", "Paper only.", cold.Curator));

        Assert.Equal(LoadStanding.Waived, await StandingAsync(load));
        ColdRoom.Sent(await cold.MoveAsync("Room", pile.Code(1)));
        Assert.Contains("Paper only.", (await cold.Technician.GetPageAsync($"/specimen/{pile.Code(1)}")).Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_sheet_that_was_outside_is_treated_again_or_let_in_by_a_curator()
    {
        using var cold = await ColdRoom.OpenAsync(server);
        var pile = await cold.PileAsync();
        using var scanner = new Scanner(await server.SignInAsync(Core.Outcomes.Role.Technician), pile);
        await scanner.NextAsync(pile.Gatherings[0]);
        var part = await server.InRegisterAsync(db => db.Parts
            .Where(p => p.Code == pile.Code(1)).Select(p => p.Id).SingleAsync());
        await WaiveAsync("Comes from a clean room.");
        ColdRoom.Sent(await cold.MoveAsync("Room", pile.Code(1)));
        ColdRoom.Sent(await cold.MoveAsync("Office", pile.Code(1)));
        Assert.Equal(HttpStatusCode.Forbidden, (await cold.MoveAsync("Room", pile.Code(1))).Status);
        ColdRoom.Sent(await cold.MoveAsync("Shelf", pile.Code(1)));
        Assert.Equal(HttpStatusCode.Forbidden, (await cold.MoveAsync("Room", pile.Code(1))).Status);
        Assert.Contains(pile.Code(1), (await cold.Technician.GetPageAsync("/step/treated")).Text, StringComparison.Ordinal);
        await WaiveAsync("Was in a sealed bag.");
        ColdRoom.Sent(await cold.MoveAsync("Room", pile.Code(1)));
        Assert.Empty(await Pile.VerifyAsync(server));

        async Task WaiveAsync(string reason) => ColdRoom.Sent(await cold.Curator.SubmitAsync(
            await cold.Curator.GetPageAsync($"/part/{part}/waiver"), "main form", [("Reason", reason)]));
    }

    [Fact]
    public async Task A_failed_load_is_repeated_with_all_that_was_in_it()
    {
        using var cold = await ColdRoom.OpenAsync(server);
        var pile = await cold.PileAsync();
        var tag = await cold.TagAsync();
        using var scanner = new Scanner(await server.SignInAsync(Core.Outcomes.Role.Technician), pile);
        await scanner.NextAsync(pile.Gatherings[0]);
        var load = await cold.BeginAsync();
        ColdRoom.Sent(await cold.AddAsync(load, tag));
        ColdRoom.Sent(await cold.AddAsync(load, pile.Code(1)));
        ColdRoom.Sent(await cold.CloseAsync(load, hoursAgo: 90));
        ColdRoom.Sent(await cold.TakeOutAsync(load, hoursAgo: 1));
        ColdRoom.Sent(await cold.RecordAsync(load, "Failed", "The power was off for a night."));
        Assert.Equal(HttpStatusCode.Forbidden, (await cold.MoveAsync("Room", pile.Code(1))).Status);
        Assert.Contains($"Repeat load {load}", (await cold.Technician.GetPageAsync("/")).Text, StringComparison.Ordinal);

        var again = ColdRoom.Sent(await cold.Technician.SubmitAsync(
            await cold.PageAsync(load), "form[action$='handler=Repeat']"));
        var page = await cold.Technician.GetPageAsync(again.Location!);

        Assert.Contains(tag, page.Text, StringComparison.Ordinal);
        Assert.Contains(pile.Code(1), page.Text, StringComparison.Ordinal);
        Assert.Empty((await cold.PageAsync(load)).All("form[action$='handler=Repeat']"));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Of_two_technicians_who_close_one_lid_at_once_one_is_told()
    {
        using var cold = await ColdRoom.OpenAsync(server);
        var load = await cold.BeginAsync();
        ColdRoom.Sent(await cold.AddAsync(load, await cold.TagAsync()));
        using var other = await server.SignInAsync(Core.Outcomes.Role.Technician);
        var (here, there) = (await cold.PageAsync(load), await other.GetPageAsync($"/freezer-load/{load}"));

        var answers = await Task.WhenAll(
            cold.Technician.SubmitAsync(here, "form[action$='handler=Close']"),
            other.SubmitAsync(there, "form[action$='handler=Close']"));

        Assert.Equal(
            [HttpStatusCode.Found, HttpStatusCode.Conflict], answers.Select(answer => answer.Status).Order());
        Assert.Equal(1, await server.InRegisterAsync(db => db.Loads.Where(l => l.Number == load)
            .SelectMany(l => l.Entries).CountAsync(e => e.What == LoadEvent.LidClosed)));
    }

    [Fact]
    public async Task A_form_that_is_sent_twice_tags_one_parcel()
    {
        using var cold = await ColdRoom.OpenAsync(server);
        var page = await cold.Technician.GetPageAsync("/parcels");

        var first = await cold.Technician.SubmitAsync(page, "form[action='/parcels']", cold.Door());
        var second = await cold.Technician.SubmitAsync(page, "form[action='/parcels']", cold.Door());

        Assert.Equal(ColdRoom.Sent(first).Location, ColdRoom.Sent(second).Location);
    }

    [Fact]
    public async Task Tags_have_no_gaps_when_many_parcels_come_at_once()
    {
        using var cold = await ColdRoom.OpenAsync(server);
        var page = await cold.Technician.GetPageAsync("/parcels");
        var tags = await Task.WhenAll(Enumerable.Range(0, 8).Select(async _ =>
        {
            using var visitor = await server.SignInAsync(Core.Outcomes.Role.Technician);
            return ColdRoom.Sent(await visitor.SubmitAsync(
                await visitor.GetPageAsync("/parcels"), "form[action='/parcels']", cold.Door())).Location!;
        }));

        var numbers = tags.Select(tag => int.Parse(tag.Split('-')[^1], null)).Order().ToList();
        Assert.Equal(numbers, numbers.Distinct());
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Where_a_batch_came_in_several_parcels_numbering_asks_which()
    {
        using var cold = await ColdRoom.OpenAsync(server);
        var pile = await cold.PileAsync();
        var (one, two) = (await cold.TagAsync(), await cold.TagAsync());
        await cold.TieAsync(one, pile);
        await cold.TieAsync(two, pile);
        var address = $"/accession/{pile.Accession}/numbering";
        var bench = await cold.Technician.GetPageAsync(address);
        var next = $"form[action$='handler=Next']:has(input[name=series][value='{pile.SeriesId}'])";

        var asked = await cold.Technician.SubmitAsync(bench, next, [("parcel", "")]);
        Assert.Contains($"{one}, {two}", asked.Text, StringComparison.Ordinal);
        Assert.Empty(await ParcelsOfSheetsAsync());

        var second = await server.InRegisterAsync(db => db.Parcels.Where(p => p.Tag == two).Select(p => p.Id).SingleAsync());
        await cold.Technician.SubmitAsync(bench, next, [("parcel", $"{second}")]);
        Assert.Equal([second], await ParcelsOfSheetsAsync());

        Task<List<long?>> ParcelsOfSheetsAsync() => server.InRegisterAsync(db => db.Specimens
            .Where(s => s.GatheringId == pile.Gatherings[0]).SelectMany(s => s.Parts).Select(p => p.ParcelId).ToListAsync());
    }

    private Task<LoadStanding> StandingAsync(int load) => server.InRegisterAsync(
        db => db.Loads.Where(l => l.Number == load).Select(l => l.Standing).SingleAsync());
}
