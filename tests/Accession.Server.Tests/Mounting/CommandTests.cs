using System.Net;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Server.Tests.Treating;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Mounting;

[Trait("Store", "sqlite")]
public sealed class CommandsOnSqlite(ServerOnSqlite server) : CommandTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class CommandsOnPostgreSql(ServerOnPostgreSql server)
    : CommandTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// Steps, places and freezers are words at the scan line, which print on a card; each holds for the scans behind it.
/// </summary>
public abstract class CommandTests(TestServer server)
{
    [Fact]
    public async Task A_step_is_changed_by_its_word()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var pile = await NumberedAsync(room, 1);
        using var technician = await server.SignInAsync(Role.Technician);
        var line = new ScanLine(technician, "/bench/labelled");

        var changed = await line.DoAsync("Mounted");
        Assert.Equal("Mount sheets", changed.One("h1").TextContent);
        Assert.Equal(HttpStatusCode.OK, (await line.ScanAsync(pile.Code(1))).Status);
        Assert.Equal(HttpStatusCode.OK, (await line.ScanAsync("same as last")).Status);
        Assert.Equal(["Mounted"], await StepsAsync(pile.Code(1), Step.Mounted));
        await line.ScanAsync("undo");
        Assert.Equal(["Mounted", "NeededAgain"], await StepsAsync(pile.Code(1), Step.Mounted));
    }

    [Fact]
    public async Task A_place_takes_sheets_through_the_gate_files_what_only_waits_for_that_and_gives_back()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var pile = await NumberedAsync(room, 2);
        using var technician = await Newcomers.LetInAsync(server, $"Place {room.Name}", Role.Technician);
        var line = new ScanLine(technician.Visitor, "/bench/mounted");
        var code = pile.Code(1);
        foreach (var step in new[] { "mounted", "labelled", "photographed" })
        {
            await line.DoAsync(step);
            Assert.Equal(HttpStatusCode.OK, (await line.ScanAsync(code)).Status);
        }

        Assert.Equal(HttpStatusCode.OK, (await line.DoAsync($"place room {room.Name}")).Status);
        var untreated = await line.ScanAsync(code);
        Assert.Equal(HttpStatusCode.Forbidden, untreated.Status);
        Assert.Contains("untreated", untreated.One(".scan.stop").TextContent, StringComparison.Ordinal);

        await WaiveAsync(room, code);
        var filed = await line.ScanAsync(code);
        Assert.Equal("Filed", filed.One(".scan.done .state").TextContent);
        Assert.Null(await NextAsync(code));
        Assert.Equal((Zone.CollectionRoom, true), await StandsAsync(code));

        var undone = await line.ScanAsync("undo");
        Assert.Equal(HttpStatusCode.OK, undone.Status);
        Assert.Equal((Zone.Quarantine, false), await StandsAsync(code));
        Assert.Equal(Step.Filed, await NextAsync(code));
        Assert.Equal(HttpStatusCode.Conflict, (await line.ScanAsync("undo")).Status);

        // Nothing is wiped out: the move stands on the trail, with what became of it.
        Assert.Contains(
            "it never went there", (await technician.Visitor.GetPageAsync($"/specimen/{code}")).Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Going_outside_is_taken_back_at_once_or_not_at_all()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var pile = await NumberedAsync(room, 2);
        await WaiveAsync(room, pile.Code(1));
        await WaiveAsync(room, pile.Code(2));
        using var technician = await Newcomers.LetInAsync(server, $"Outside {room.Name}", Role.Technician);
        var line = new ScanLine(technician.Visitor, "/bench/mounted");
        await line.DoAsync($"place Room {room.Name}");
        await line.ScanAsync(pile.Code(1));
        await line.ScanAsync(pile.Code(2));
        var before = await TreatedAsync(pile.Code(1));

        await line.DoAsync($"place Office {room.Name}");
        await line.ScanAsync(pile.Code(1));
        Assert.Equal((Zone.Outside, true), await StandsAsync(pile.Code(1)));
        Assert.Equal(HttpStatusCode.OK, (await line.ScanAsync("undo")).Status);
        Assert.Equal((Zone.CollectionRoom, true), await StandsAsync(pile.Code(1)));
        Assert.Equal(before, await TreatedAsync(pile.Code(1)));

        await line.ScanAsync(pile.Code(2));
        await ShiftAsync(pile.Code(2), -11);
        var late = await line.ScanAsync("undo");
        await ShiftAsync(pile.Code(2), 11);
        Assert.Equal(HttpStatusCode.Forbidden, late.Status);
        Assert.Equal((Zone.Outside, true), await StandsAsync(pile.Code(2)));
    }

    [Fact]
    public async Task A_freezer_takes_what_is_scanned_on_the_list_that_is_being_made_and_gives_it_back()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var pile = await NumberedAsync(room, 1);
        var tag = await room.TagAsync();
        using var technician = await Newcomers.LetInAsync(server, $"Freezer {room.Name}", Role.Technician);
        var line = new ScanLine(technician.Visitor, "/bench/mounted");

        var none = await line.DoAsync($"freezer {room.Name}");
        Assert.Equal(HttpStatusCode.Conflict, none.Status);   // no list is being made
        var load = await room.BeginAsync();
        Assert.Equal(HttpStatusCode.OK, (await line.DoAsync($"FREEZER {room.Name}")).Status);
        Assert.Equal(HttpStatusCode.OK, (await line.ScanAsync(tag.ToLowerInvariant())).Status);
        Assert.Equal(HttpStatusCode.OK, (await line.ScanAsync(pile.Code(1))).Status);
        Assert.Equal(HttpStatusCode.Conflict, (await line.ScanAsync(pile.Code(1))).Status);

        var undone = await line.ScanAsync("undo");
        Assert.Contains(pile.Code(1), undone.One(".scan.waiting").TextContent, StringComparison.Ordinal);
        var page = await room.PageAsync(load);
        Assert.Contains(tag, page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(pile.Code(1), page.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await line.ScanAsync(pile.Code(1))).Status);

        // What is in the cold stays on its list.
        ColdRoom.Sent(await room.CloseAsync(load, 0));
        Assert.Equal(HttpStatusCode.Conflict, (await line.ScanAsync("undo")).Status);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task After_a_place_that_is_none_nothing_is_moved()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var pile = await NumberedAsync(room, 1);
        using var technician = await server.SignInAsync(Role.Technician);
        var line = new ScanLine(technician, "/bench/mounted");

        Assert.Equal(HttpStatusCode.NotFound, (await line.DoAsync("place Nowhere at all")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await line.ScanAsync(pile.Code(1))).Status);
        Assert.Equal((Zone.Quarantine, false), await StandsAsync(pile.Code(1)));
    }

    [Fact]
    public async Task Every_symbol_of_the_card_says_its_word()
    {
        using var room = await ColdRoom.OpenAsync(server);
        using var curator = await server.SignInAsync(Role.Curator);
        var name = $"Höhle {room.Name}, " + new string('x', 60);   // no Code 128 symbol holds it
        ColdRoom.Sent(await curator.SubmitAsync(
            await curator.GetPageAsync("/places"), "form[action$='handler=Place']", [("name", name), ("zone", "Quarantine")]));
        using var technician = await server.SignInAsync(Role.Technician);

        var cells = (await technician.GetPageAsync("/bench-card")).All(".command-card > li");

        var words = cells.Select(cell => Symbols.Read(cell.QuerySelector("svg")!)).ToList();
        Assert.Equal(cells.Select(cell => cell.QuerySelector(".word")!.TextContent), words);
        Assert.Contains("undo", words);
        Assert.Contains("mounted", words);
        Assert.Contains($"place {name}", words);
        Assert.Contains($"freezer {room.Name}", words);
    }

    private async Task<Pile> NumberedAsync(ColdRoom room, int sheets)
    {
        var pile = await room.PileAsync();
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        for (var sheet = 1; sheet <= sheets; sheet++)
        {
            Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);
            await scanner.ScanAsync(pile.Code(sheet), pile.Gatherings[0]);
        }

        return pile;
    }

    private async Task WaiveAsync(ColdRoom room, string code)
    {
        var part = await server.InRegisterAsync(db => db.Parts.Where(p => p.Code == code).Select(p => p.Id).SingleAsync());
        ColdRoom.Sent(await room.Curator.SubmitAsync(
            await room.Curator.GetPageAsync($"/part/{part}/waiver"), "main form", [("Reason", "Paper only.")]));
    }

    // As if the move had been made so many minutes later.
    private Task<int> ShiftAsync(string code, int minutes) => server.InRegisterAsync(async db =>
    {
        var act = await db.Acts.SingleAsync(a => db.Parts.Where(p => p.Code == code).SelectMany(p => p.Places)
            .Any(e => e.ActId == a.Id && e.CrossedOutside));
        var at = act.At.AddMinutes(minutes);
        return await db.Acts.Where(a => a.Id == act.Id).ExecuteUpdateAsync(row => row.SetProperty(a => a.At, at));
    });

    private Task<List<string>> StepsAsync(string code, Step step) => server.InRegisterAsync(db => db.Parts
        .Where(p => p.Code == code).SelectMany(p => p.Steps).Where(s => s.Step == step).OrderBy(s => s.Id)
        .Select(s => s.Mark == StepMark.Done ? s.Step.ToString() : s.Mark.ToString()).ToListAsync());

    private Task<Step?> NextAsync(string code) =>
        server.InRegisterAsync(db => db.Parts.Where(p => p.Code == code).Select(p => p.NextStep).SingleAsync());

    private Task<(Zone, bool)> StandsAsync(string code) => server.InRegisterAsync(async db =>
    {
        var part = await db.Parts.Where(p => p.Code == code).Select(p => new { p.Zone, p.PlaceId }).SingleAsync();
        return (part.Zone, part.PlaceId is not null);
    });

    private Task<(DateTime?, bool)> TreatedAsync(string code) => server.InRegisterAsync(async db =>
    {
        var part = await db.Parts.AsNoTracking().SingleAsync(p => p.Code == code);
        return (part.CameFromOutsideAt, part.IsCleared && part.HasSettled(Step.Treated));
    });
}
