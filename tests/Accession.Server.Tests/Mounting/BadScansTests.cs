using System.Net;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Administering;
using Accession.Server.Hosting;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Server.Tests.Mounting;

[Trait("Store", "sqlite")]
public sealed class BadScansOnSqlite(ServerOnSqlite server) : BadScansTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class BadScansOnPostgreSql(ServerOnPostgreSql server)
    : BadScansTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// What goes wrong at the bench of steps: barcodes that are on no sheet, two hands at once, scans that come again after
/// the program was started anew, and after signing out. Each is told with what to do, and nothing is done twice or lost.
/// </summary>
public abstract class BadScansTests(TestServer server)
{
    private const string Address = "/bench/mounted";

    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Species,Sheets
        Ada Quill,3,2024-06-14,Oregon,Harney,Poa secunda J.Presl,4
        """;

    [Fact]
    public async Task A_void_barcode_and_one_that_was_never_used_are_told_apart()
    {
        var pile = await NumberedAsync("void", 1);
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 501, 520);
        var made = await curator.SubmitAsync(await curator.GetPageAsync("/numbers"), "form[action$='handler=Void']",
            [("first", pile.Code(510)), ("last", ""), ("reason", "printed askew")]);
        Assert.Empty(made.Refusals);
        var line = new ScanLine(await server.SignInAsync(Role.Technician), Address);

        var isVoid = await line.ScanAsync(pile.Code(510).ToLowerInvariant());
        var unused = await line.ScanAsync(pile.Code(511));

        Assert.Equal(HttpStatusCode.Conflict, isVoid.Status);
        Assert.Matches(
            $"{pile.Code(510)} is void since [0-9]{{1,2}} [A-Z][a-z]{{2}} 20[0-9]{{2}}: printed askew\\. No sheet.*numbered again",
            isVoid.One(".scan.stop").TextContent);
        Assert.Equal(HttpStatusCode.NotFound, unused.Status);
        Assert.Contains("on no sheet of the register yet", unused.One(".scan.stop").TextContent, StringComparison.Ordinal);

        // The same where sheets are put away, and as JSON's bench would say it: by one operation.
        await ColdPlaceAsync(curator, $"Shelf {pile.Prefix}");
        await line.DoAsync($"place Shelf {pile.Prefix}");
        Assert.Contains("is void since", (await line.ScanAsync(pile.Code(510))).One(".scan.stop").TextContent, StringComparison.Ordinal);
        Assert.Equal(1, await server.InRegisterAsync(db => db.Parts.CountAsync(p => p.Code.StartsWith(pile.Prefix))));
    }

    [Fact]
    public async Task Two_parts_of_one_specimen_at_once_are_both_done_and_the_number_they_share_is_neither()
    {
        var pile = await NumberedAsync("parts", 3);
        using var one = await server.SignInAsync(Role.Technician);
        using var other = await server.SignInAsync(Role.Curator);
        var (first, second) = (new ScanLine(one, Address), new ScanLine(other, Address));
        foreach (var sheet in new[] { 1, 2, 3 })
        {
            var (a, b) = await InTwoPartsAsync(pile.Code(sheet));

            var answers = await Task.WhenAll(first.ScanAsync(a), second.ScanAsync(b));

            Assert.All(answers, answer => Assert.True(answer.Status == HttpStatusCode.OK, answer.Source));
            Assert.Equal((1, 1), (await MountedAsync(a), await MountedAsync(b)));
            var both = await first.ScanAsync(pile.Code(sheet));
            Assert.Equal(HttpStatusCode.Conflict, both.Status);
            Assert.Contains($"is in 2 parts: {a}, {b}. Scan", both.One(".scan.stop").TextContent, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task One_sheet_in_two_hands_at_once_is_done_once_and_the_other_is_told()
    {
        var pile = await NumberedAsync("hands", 4);
        using var one = await server.SignInAsync(Role.Technician);
        using var other = await server.SignInAsync(Role.Curator);
        var (first, second) = (new ScanLine(one, Address), new ScanLine(other, Address));
        await first.ScanAsync("nothing");
        await second.ScanAsync("nothing");
        for (var sheet = 1; sheet <= 4; sheet++)
        {
            var code = pile.Code(sheet);

            var answers = await Task.WhenAll(first.ScanAsync(code), second.ScanAsync(code));

            Assert.Equal(1, await MountedAsync(code));
            Assert.Single(answers, answer => answer.Status == HttpStatusCode.OK);
            var refused = Assert.Single(answers, answer => answer.Status == HttpStatusCode.Conflict);
            Assert.Matches("mounted already|Somebody else changed this", refused.One(".scan.stop").TextContent);
        }

        // Another test of this class puts parts into the register that no act brought about.
        Assert.DoesNotContain(
            await Pile.VerifyAsync(server), wrong => wrong.Subject.Contains(pile.Prefix, StringComparison.Ordinal));
    }

    [Fact]
    public async Task After_a_restart_the_page_that_is_open_goes_on_and_a_scan_that_comes_again_is_done_once()
    {
        var pile = await NumberedAsync("restart", 2);
        using var technician = await server.SignInAsync(Role.Technician);
        var page = await technician.GetPageAsync(Address);
        var line = new ScanLine(technician, Address);
        var key = Guid.NewGuid().ToString();
        var before = await line.ScanAsync(pile.Code(1), key);

        await using var after = Node();
        await FirstStart.PrepareAsync(after, CancellationToken.None);
        await after.StartAsync(TestContext.Current.CancellationToken);
        var address = new Uri(after.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single());
        using var there = new Visitor(address, technician.SessionCookie, FormCookie(technician));
        var token = page.One("form.scan-line input[name=__RequestVerificationToken]").GetAttribute("value")!;
        var again = await SendAsync(there, token, pile.Code(1), key);
        var next = await SendAsync(there, token, pile.Code(2), Guid.NewGuid().ToString());
        // Without script, the whole form as it stood on the screen.
        var twice = await SendAsync(there, token, pile.Code(2), key: null);

        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.OK), (before.Status, again.Status));
        Assert.Equal(before.One(".scan").TextContent, again.One(".scan").TextContent);
        Assert.Equal(HttpStatusCode.OK, next.Status);
        Assert.Equal(HttpStatusCode.Conflict, twice.Status);
        Assert.Contains("mounted already. Nothing was changed", twice.Text, StringComparison.Ordinal);
        Assert.Equal((1, 1), (await MountedAsync(pile.Code(1)), await MountedAsync(pile.Code(2))));
        await after.StopAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task After_signing_out_nothing_is_done_and_the_scan_counts_once_when_its_maker_is_back()
    {
        var pile = await NumberedAsync("signed out", 2);
        using var somebody = await Newcomers.LetInAsync(server, "Signed Out", Role.Technician);
        var line = new ScanLine(somebody.Visitor, Address);
        await line.ScanAsync(pile.Code(2));
        var key = Guid.NewGuid().ToString();
        var open = await somebody.Visitor.GetPageAsync(Address);
        // In another window.
        await somebody.Visitor.SubmitAsync(await somebody.Visitor.GetPageAsync("/sign-out"), "form[action='/sign-out']");

        var scanned = await line.ScanAsync(pile.Code(1), key);
        var plain = await somebody.Visitor.SubmitAsync(open, "form.scan-line", [("code", pile.Code(1))]);

        // By this the script knows that the queue has to wait; the page itself leads back to the bench.
        Assert.All(new[] { scanned, plain }, answer => Assert.Equal(HttpStatusCode.Found, answer.Status));
        Assert.Contains($"/sign-in?ReturnUrl={Uri.EscapeDataString(Address)}", plain.Location, StringComparison.Ordinal);
        Assert.Equal(0, await MountedAsync(pile.Code(1)));

        await somebody.ComeBackAsync(server);
        var back = new ScanLine(somebody.Visitor, Address);
        var sent = await back.ScanAsync(pile.Code(1), key, TimeSpan.FromMinutes(3));
        var twice = await back.ScanAsync(pile.Code(1), key, TimeSpan.FromMinutes(4));
        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.OK), (sent.Status, twice.Status));
        Assert.Equal(1, await MountedAsync(pile.Code(1)));
    }

    private static async Task ColdPlaceAsync(Visitor curator, string name) => Treating.ColdRoom.Sent(
        await curator.SubmitAsync(
            await curator.GetPageAsync("/places"), "form[action$='handler=Place']",
            [("name", name), ("zone", "Quarantine")]));

    // No door divides a sheet yet; what a part is, is in the register all the same.
    private async Task<(string One, string Other)> InTwoPartsAsync(string code)
    {
        var (one, other) = ($"{code}-1", $"{code}-2");
        await server.InRegisterAsync(async db =>
        {
            var part = await db.Parts.SingleAsync(p => p.Code == code);
            db.Entry(part).Property(p => p.Code).CurrentValue = one;
            await db.SaveChangesAsync();
            db.ChangeTracker.Clear();
            var copy = await db.Parts.AsNoTracking().IgnoreAutoIncludes().SingleAsync(p => p.Code == one);
            var entry = db.Entry(copy);
            entry.Property(p => p.Id).CurrentValue = 0;
            entry.Property(p => p.Code).CurrentValue = other;
            entry.State = EntityState.Added;
            return await db.SaveChangesAsync();
        });
        return (one, other);
    }

    private Task<int> MountedAsync(string code) => server.InRegisterAsync(db => db.Parts.Where(p => p.Code == code)
        .SelectMany(p => p.Steps).CountAsync(s => s.Step == Step.Mounted && s.Mark == StepMark.Done));

    private async Task<Pile> NumberedAsync(string text, int sheets)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"bad scan {text}"));
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        for (var sheet = 0; sheet < sheets; sheet++)
        {
            Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);
        }

        return pile;
    }

    private static async Task<Page> SendAsync(Visitor visitor, string token, string code, string? key)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(visitor.Http.BaseAddress!, Address))
        {
            Content = new FormUrlEncodedContent(
                [new("code", code), new("doing", "mounted"), new("__RequestVerificationToken", token)]),
        };
        if (key is not null)
        {
            request.Headers.Add("X-Scan", "1");
            request.Headers.Add("X-Request-Key", key);
        }

        using var answer = await visitor.Http.SendAsync(request);
        return await Page.ReadAsync(answer);
    }

    private static Cookie FormCookie(Visitor visitor) => visitor.Cookie("accession-form")
        ?? throw new InvalidOperationException("The page with a form brought no cookie for it.");

    private WebApplication Node() => AccessionServer.Build(new Settings
    {
        DataFolder = server.Store.Folder,
        Urls = "http://127.0.0.1:0",
        Set = [.. server.Store.Settings],
    });
}
