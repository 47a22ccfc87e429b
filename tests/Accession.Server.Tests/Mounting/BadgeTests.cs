using System.Net;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Mounting;

[Trait("Store", "sqlite")]
public sealed class BadgesOnSqlite(ServerOnSqlite server) : BadgeTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class BadgesOnPostgreSql(ServerOnPostgreSql server)
    : BadgeTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// A badge says at a bench who works. It signs nobody in, gives no more than its holder has, and ends when it should.
/// </summary>
public abstract class BadgeTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Species,Sheets
        Ada Quill,3,2024-06-14,Oregon,Harney,Poa secunda J.Presl,4
        """;

    [Fact]
    public async Task Scans_after_a_badge_bear_its_holders_name_until_hands_change()
    {
        var pile = await NumberedAsync("names", 3);
        using var one = await Newcomers.LetInAsync(server, "Badge One", Role.Technician);
        using var two = await Newcomers.LetInAsync(server, "Badge Two", Role.Curator);
        var (first, second) = (await MakeAsync(one.Visitor), await MakeAsync(two.Visitor));
        using var host = await Newcomers.LetInAsync(server, "Badge Host", Role.Technician);
        var line = new ScanLine(host.Visitor, "/bench/mounted");

        var taken = await line.BadgeAsync(first.ToLowerInvariant());   // capitals locked
        Assert.Contains("Badge One", taken.One("[data-swap=hands] strong").TextContent, StringComparison.Ordinal);
        await DoneAsync(line, pile.Code(1));
        await line.BadgeAsync(second);
        await DoneAsync(line, pile.Code(2));
        line.Hands = "";
        var back = await line.ScanAsync("Hand Back");
        Assert.Equal("Badge Host", back.One("[data-swap=hands] strong").TextContent);
        await DoneAsync(line, pile.Code(3));

        Assert.Equal(["Badge One", "Badge Two", "Badge Host"], await ActorsAsync(pile, 3));
        var acts = await server.InRegisterAsync(db => db.Acts.Where(a => a.What == "take up work by badge" && a.Reason!.Contains("Badge Host")).OrderBy(a => a.Id)
            .Select(a => new { a.ActorId, a.Answer, a.Reason }).ToListAsync());
        Assert.Equal([one.Id, two.Id], acts.Select(act => act.ActorId));
    }

    [Fact]
    public async Task The_code_is_on_the_card_once_and_nowhere_else()
    {
        using var one = await Newcomers.LetInAsync(server, "Badge Card", Role.Technician);
        var page = await one.Visitor.SubmitAsync(await one.Visitor.GetPageAsync("/account/badge"), "main form");
        var code = Symbols.Read(page.One(".badge-card .bar-symbol"));

        Assert.Equal(code, Symbols.Read(page.One(".badge-card .qr-symbol")));
        Assert.True(Badge.IsCode(code));
        Assert.DoesNotContain(code, page.Source, StringComparison.OrdinalIgnoreCase);
        Assert.Empty((await one.Visitor.GetPageAsync("/account/badge")).All(".badge-card"));
        Assert.Equal(
            Badge.Hash(code), await server.InRegisterAsync(db => db.Badges.Where(b => b.AccountId == one.Id).Select(b => b.CodeHash).SingleAsync()));

        // At the bench it is not repeated, neither when it counts nor when it does not.
        var line = new ScanLine(one.Visitor, "/bench/mounted");
        Assert.DoesNotContain(code, (await line.BadgeAsync(code)).Source, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(code, (await line.ScanAsync("nothing")).Source, StringComparison.OrdinalIgnoreCase);
        var unknown = Badge.NewCode();
        Assert.DoesNotContain(unknown, (await line.BadgeAsync(unknown)).Source, StringComparison.OrdinalIgnoreCase);
        Assert.False(await server.InRegisterAsync(db => db.Acts.AnyAsync(
            a => a.Reason!.Contains(code) || a.Answer!.Contains(code) || a.RequestKey == code)));
    }

    [Fact]
    public async Task After_a_badge_that_does_not_count_nothing_is_done_in_anybodys_name()
    {
        var pile = await NumberedAsync("unknown", 1);
        using var technician = await server.SignInAsync(Role.Technician);
        var line = new ScanLine(technician, "/bench/mounted");

        var refused = await line.BadgeAsync(Badge.NewCode());
        var after = await line.ScanAsync(pile.Code(1));

        Assert.Equal(HttpStatusCode.NotFound, refused.Status);
        Assert.Equal("nobody", refused.One("[data-swap=hands] strong").TextContent);
        Assert.Equal(HttpStatusCode.Forbidden, after.Status);
        after.One(".scan.stop");
        Assert.Empty(await ActorsAsync(pile, 1));
    }

    [Fact]
    public async Task A_badge_counts_no_longer_than_its_holder_works_here()
    {
        var pile = await NumberedAsync("gone", 4);
        using var host = await Newcomers.LetInAsync(server, "Gone Host", Role.Technician);
        using var administrator = await server.SignInAsync(Role.Administrator);
        foreach (var (handler, sheet) in new[] { ("Close", 1), ("Work", 2), ("Badge", 3) })
        {
            using var holder = await Newcomers.LetInAsync(server, $"Gone {handler}", Role.Technician);
            var line = new ScanLine(host.Visitor, "/bench/mounted");
            var code = await MakeAsync(holder.Visitor);
            Assert.Equal(HttpStatusCode.OK, (await line.BadgeAsync(code)).Status);

            var page = await administrator.GetPageAsync($"/accounts/{holder.Id}");
            ColdRoomSent(await administrator.SubmitAsync(
                page, $"form[action$='handler={handler}']", handler == "Work" ? [("Roles", "Determiner")] : []));

            Assert.Equal(HttpStatusCode.Forbidden, (await line.ScanAsync(pile.Code(sheet))).Status);
            Assert.Equal(HttpStatusCode.NotFound, (await line.BadgeAsync(code)).Status);
            if (handler == "Close")
            {
                ColdRoomSent(await administrator.SubmitAsync(
                    await administrator.GetPageAsync($"/accounts/{holder.Id}"), "form[action$='handler=Open']"));
                Assert.Equal(HttpStatusCode.NotFound, (await line.BadgeAsync(code)).Status);
            }
        }

        Assert.Empty(await ActorsAsync(pile, 4));
    }

    [Fact]
    public async Task Another_badge_of_the_same_person_withdraws_the_one_before()
    {
        using var one = await Newcomers.LetInAsync(server, "Badge Again", Role.Technician);
        var (first, second) = (await MakeAsync(one.Visitor), await MakeAsync(one.Visitor));
        var line = new ScanLine(one.Visitor, "/bench/mounted");

        Assert.Equal(HttpStatusCode.NotFound, (await line.BadgeAsync(first)).Status);
        Assert.Equal(HttpStatusCode.OK, (await line.BadgeAsync(second)).Status);
    }

    [Fact]
    public async Task A_badge_opens_no_page_and_an_administrators_gives_no_work_at_a_bench()
    {
        using var curator = await Newcomers.LetInAsync(server, "Badge Curator", Role.Curator);
        using var technician = await Newcomers.LetInAsync(server, "Badge Guest", Role.Technician);
        var line = new ScanLine(technician.Visitor, "/bench/mounted");
        await line.BadgeAsync(await MakeAsync(curator.Visitor));

        Assert.Contains(
            "/not-yours", (await technician.Visitor.GetPageAsync("/batches")).Location, StringComparison.Ordinal);
        using var administrator = await server.SignInAsync(Role.Administrator);
        Assert.NotNull((await administrator.GetPageAsync("/account/badge")).Location);
    }

    [Fact]
    public async Task A_shift_is_of_one_session_and_ends_with_it_and_with_time()
    {
        var pile = await NumberedAsync("ends", 4);
        using var holder = await Newcomers.LetInAsync(server, "Ends Holder", Role.Technician);
        using var host = await Newcomers.LetInAsync(server, "Ends Host", Role.Technician);
        using var other = await Newcomers.LetInAsync(server, "Ends Other", Role.Technician);
        var code = await MakeAsync(holder.Visitor);
        var line = new ScanLine(host.Visitor, "/bench/mounted");
        await line.BadgeAsync(code);

        // In somebody else's session its key says nothing.
        var elsewhere = new ScanLine(other.Visitor, "/bench/mounted") { Hands = line.Hands };
        Assert.Equal(HttpStatusCode.Forbidden, (await elsewhere.ScanAsync(pile.Code(1))).Status);

        // Twenty minutes without a scan; a scan that was made before and waited for the network still counts.
        var before = TimeProvider.System.GetUtcNow().UtcDateTime.AddMinutes(-20);
        await server.InRegisterAsync(db => db.BenchShifts.Where(s => s.Key == line.Hands)
            .ExecuteUpdateAsync(row => row.SetProperty(s => s.LastScanAt, before)));
        Assert.Equal(HttpStatusCode.Forbidden, (await line.ScanAsync(pile.Code(1))).Status);
        Assert.Equal("Ends Host", (await host.Visitor.GetPageAsync("/bench/mounted")).One("[data-swap=hands] strong").TextContent);
        var late = await line.ScanAsync(pile.Code(1), age: TimeSpan.FromMinutes(19));
        Assert.True(late.Status == HttpStatusCode.OK, late.Source);

        await line.BadgeAsync(code);
        Assert.Equal("Ends Holder", (await host.Visitor.GetPageAsync("/bench/labelled")).One("[data-swap=hands] strong").TextContent);
        await host.Visitor.SubmitAsync(await host.Visitor.GetPageAsync("/sign-out"), "form[action='/sign-out']");
        await host.ComeBackAsync(server);
        line = new ScanLine(host.Visitor, "/bench/mounted") { Hands = line.Hands };
        Assert.Equal(HttpStatusCode.Forbidden, (await line.ScanAsync(pile.Code(2))).Status);
        Assert.Equal(["Ends Holder"], await ActorsAsync(pile, 4));
    }

    [Fact]
    public async Task A_scan_sent_again_after_hands_changed_is_answered_as_before_and_done_once()
    {
        var pile = await NumberedAsync("twice", 1);
        using var holder = await Newcomers.LetInAsync(server, "Twice Holder", Role.Technician);
        using var next = await Newcomers.LetInAsync(server, "Twice Next", Role.Technician);
        using var host = await Newcomers.LetInAsync(server, "Twice Host", Role.Technician);
        var line = new ScanLine(host.Visitor, "/bench/mounted");
        await line.BadgeAsync(await MakeAsync(holder.Visitor));
        var (key, hands) = (Guid.NewGuid().ToString(), line.Hands);
        var first = await line.ScanAsync(pile.Code(1), key);
        await line.BadgeAsync(await MakeAsync(next.Visitor));

        // As the queue sends it: with the fields it was made with, and its age.
        line.Hands = hands;
        var again = await line.ScanAsync(pile.Code(1), key, TimeSpan.FromMinutes(1));

        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.OK), (first.Status, again.Status));
        Assert.Equal(["Twice Holder"], await ActorsAsync(pile, 1));
    }

    [Fact]
    public async Task Both_benches_take_a_badge_and_same_as_last_goes_on_with_the_gathering_before()
    {
        var pile = await NumberedAsync("numbering", 3);
        using var holder = await Newcomers.LetInAsync(server, "Number Holder", Role.Technician);
        using var technician = await server.SignInAsync(Role.Technician);
        var line = new ScanLine(technician, $"/accession/{pile.Accession}/numbering")
        {
            Fields = [("gathering", $"{pile.Gatherings[0]}")],
        };

        Assert.Equal(HttpStatusCode.Conflict, (await line.ScanAsync("undo")).Status);
        await line.BadgeAsync(await MakeAsync(holder.Visitor));
        var early = await line.ScanAsync("same as last");
        Assert.True(early.Status == HttpStatusCode.Conflict, early.Source);   // none of this person's yet
        Assert.Equal(HttpStatusCode.OK, (await NextAsync(technician, pile, line.Hands)).Status);
        var more = await line.ScanAsync("Same  as last");

        // All four sheets of the list had their numbers, so it is one more than the list promised.
        Assert.Equal(HttpStatusCode.OK, more.Status);
        Assert.Contains("counts 5 sheets", more.Text, StringComparison.Ordinal);
        var name = await server.InRegisterAsync(db => db.Specimens.Where(s => s.CatalogNumber == pile.Code(4)).Select(s => s.Act.ActorName).SingleAsync());
        Assert.Equal("Number Holder", name);
    }

    [Fact]
    public async Task Without_script_the_form_carries_the_badge_on()
    {
        var pile = await NumberedAsync("plain", 1);
        using var holder = await Newcomers.LetInAsync(server, "Plain Holder", Role.Technician);
        using var host = await Newcomers.LetInAsync(server, "Plain Host", Role.Technician);
        var code = await MakeAsync(holder.Visitor);

        var taken = await host.Visitor.SubmitAsync(
            await host.Visitor.GetPageAsync("/bench/mounted"), "form.scan-line", [("code", code)]);
        var done = await host.Visitor.SubmitAsync(taken, "form.scan-line", [("code", pile.Code(1))]);

        Assert.Equal(HttpStatusCode.OK, done.Status);
        Assert.Equal(["Plain Holder"], await ActorsAsync(pile, 1));
    }

    private async Task<Pile> NumberedAsync(string text, int sheets)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"badge {text}"));
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        for (var sheet = 0; sheet < sheets; sheet++)
        {
            Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);
        }

        return pile;
    }

    private static async Task<Page> NextAsync(Visitor visitor, Pile pile, string hands)
    {
        var page = await visitor.GetPageAsync($"/accession/{pile.Accession}/numbering");
        return await visitor.SubmitAsync(page, "form[action$='handler=Next']",
            [("hands", hands), ("series", $"{pile.SeriesId}"), ("gathering", $"{pile.Gatherings[0]}")]);
    }

    private async Task<List<string>> ActorsAsync(Pile pile, int sheets)
    {
        var codes = Enumerable.Range(1, sheets).Select(n => pile.Code(n)).ToList();
        return await server.InRegisterAsync(db => db.Parts.Where(p => codes.Contains(p.Code)).SelectMany(p => p.Steps)
            .Where(s => s.Step == Step.Mounted).OrderBy(s => s.Id).Select(s => s.Act.ActorName).ToListAsync());
    }

    private static async Task<string> MakeAsync(Visitor visitor)
    {
        var page = await visitor.SubmitAsync(await visitor.GetPageAsync("/account/badge"), "main form");
        return Symbols.Read(page.One(".badge-card .bar-symbol"));
    }

    private static async Task DoneAsync(ScanLine line, string code)
    {
        var answer = await line.ScanAsync(code);
        Assert.True(answer.Status == HttpStatusCode.OK, answer.Source);
        answer.One(".scan.done");
    }

    private static void ColdRoomSent(Page answer) => Treating.ColdRoom.Sent(answer);
}
