using System.Net;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Mounting;

[Trait("Store", "sqlite")]
public sealed class StepBenchOnSqlite(ServerOnSqlite server) : StepBenchTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class StepBenchOnPostgreSql(ServerOnPostgreSql server)
    : StepBenchTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// Sheets are mounted, labelled, photographed and filed by scanning them. What precedes what is common practice, no
/// published source.
/// </summary>
public abstract class StepBenchTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Species,Sheets
        Ada Quill,3,2024-06-14,Oregon,Harney,Poa secunda J.Presl,5
        """;

    [Fact]
    public async Task A_sheet_goes_from_its_number_to_its_cabinet_by_scans()
    {
        var pile = await NumberedAsync("whole way", 1);
        using var technician = await server.SignInAsync(Role.Technician);
        var code = pile.Code(1);

        await DoneAsync(technician, "mounted", code);
        await RefusedAsync(technician, "labelled", code, HttpStatusCode.Forbidden, "not scanned back yet");
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.ScanAsync(code, pile.Gatherings[0]);
        await DoneAsync(technician, "labelled", code);
        await DoneAsync(technician, "imaged", code);
        await RefusedAsync(technician, "filed", code, HttpStatusCode.Forbidden, "not treated yet");

        await WaiveAsync(code);
        var filed = await DoneAsync(technician, "filed", code.ToLowerInvariant());

        Assert.Contains("nothing waits", filed.One("[data-answer]").TextContent, StringComparison.Ordinal);
        Assert.Null(await server.InRegisterAsync(db => db.Parts.Where(p => p.Code == code).Select(p => p.NextStep).SingleAsync()));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_sheet_that_came_from_outside_again_is_not_filed_before_it_was_treated_again()
    {
        var pile = await NumberedAsync("outside", 1);
        using var technician = await server.SignInAsync(Role.Technician);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        var code = pile.Code(1);
        await scanner.ScanAsync(code, pile.Gatherings[0]);
        await DoneAsync(technician, "mounted", code);
        await DoneAsync(technician, "labelled", code);
        await WaiveAsync(code);
        using var cold = await Treating.ColdRoom.OpenAsync(server);
        Treating.ColdRoom.Sent(await cold.MoveAsync("Office", code));

        await RefusedAsync(technician, "filed", code, HttpStatusCode.Forbidden, "not treated yet");
    }

    [Fact]
    public async Task The_same_sheet_twice_is_said_loudly_and_undo_takes_one_back_at_a_time()
    {
        var pile = await NumberedAsync("undo", 3);
        using var technician = await LetInAsync("Undo One");
        await DoneAsync(technician.Visitor, "mounted", pile.Code(1));
        await DoneAsync(technician.Visitor, "mounted", pile.Code(2));
        await RefusedAsync(technician.Visitor, "mounted", pile.Code(2), HttpStatusCode.Conflict, "is mounted already");

        var first = await ScanAsync(technician.Visitor, "mounted", "undo");
        var second = await ScanAsync(technician.Visitor, "mounted", "UNDO");
        var third = await ScanAsync(technician.Visitor, "mounted", "undo");

        Assert.Contains(pile.Code(2), first.One(".scan.waiting").TextContent, StringComparison.Ordinal);
        Assert.Contains(pile.Code(1), second.One(".scan.waiting").TextContent, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Conflict, third.Status);
        // What was taken back is done again, and the entries of all of it remain.
        await DoneAsync(technician.Visitor, "mounted", pile.Code(1));
        var page = await technician.Visitor.GetPageAsync("/bench/mounted");
        Assert.Equal(
            [pile.Code(1), pile.Code(1), pile.Code(2), pile.Code(2), pile.Code(1)],
            page.All(".scans .code").Select(c => c.TextContent));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Nobody_takes_back_what_somebody_else_scanned()
    {
        var pile = await NumberedAsync("others", 1);
        using var one = await LetInAsync("Undo Two");
        using var other = await LetInAsync("Undo Three");
        await DoneAsync(one.Visitor, "mounted", pile.Code(1));

        Assert.Equal(HttpStatusCode.Conflict, (await ScanAsync(other.Visitor, "mounted", "undo")).Status);

        Assert.True(await server.InRegisterAsync(db => db.Parts.Where(p => p.Code == pile.Code(1))
            .AnyAsync(p => p.Steps.Any(s => s.Step == Step.Mounted && s.Mark == StepMark.Done))));
    }

    [Fact]
    public async Task A_scan_sent_again_is_answered_as_before_and_done_once()
    {
        var pile = await NumberedAsync("again", 1);
        using var technician = await server.SignInAsync(Role.Technician);
        var key = Guid.NewGuid().ToString();

        var first = await ScanAsync(technician, "mounted", pile.Code(1), key);
        var again = await ScanAsync(technician, "mounted", pile.Code(1), key);

        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.OK), (first.Status, again.Status));
        Assert.Equal(1, await server.InRegisterAsync(db => db.Parts.Where(p => p.Code == pile.Code(1))
            .SelectMany(p => p.Steps).CountAsync(s => s.Step == Step.Mounted)));
    }

    [Theory]
    [InlineData("OTHER-H0000001", HttpStatusCode.NotFound)]
    [InlineData("", HttpStatusCode.UnprocessableEntity)]
    [InlineData("💥", HttpStatusCode.NotFound)]
    public async Task What_is_no_sheet_here_is_loud(string code, HttpStatusCode status)
    {
        using var technician = await server.SignInAsync(Role.Technician);

        var answer = await ScanAsync(technician, "mounted", code);

        Assert.Equal(status, answer.Status);
        answer.One(".scan.stop");
    }

    [Theory]
    [InlineData("numbered")]
    [InlineData("treated")]
    [InlineData("eaten")]
    [InlineData("3")]
    public async Task There_is_a_bench_only_for_what_is_done_by_hand(string step)
    {
        using var technician = await server.SignInAsync(Role.Technician);

        Assert.Equal(HttpStatusCode.NotFound, (await technician.GetPageAsync($"/bench/{step}")).Status);
    }

    private Task<Newcomer> LetInAsync(string name) => Newcomers.LetInAsync(server, name, Role.Technician);

    private async Task<Pile> NumberedAsync(string text, int sheets)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"step bench {text}"));
        using var technician = await server.SignInAsync(Role.Technician);
        using var scanner = new Scanner(technician, pile);
        for (var sheet = 0; sheet < sheets; sheet++)
        {
            Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);
        }

        return pile;
    }

    private async Task WaiveAsync(string code)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var part = await server.InRegisterAsync(db => db.Parts.Where(p => p.Code == code).Select(p => p.Id).SingleAsync());
        var answer = await curator.SubmitAsync(
            await curator.GetPageAsync($"/part/{part}/waiver"), "main form", [("Reason", "Paper only.")]);
        Assert.Empty(answer.Refusals);
    }

    private static async Task<Page> DoneAsync(Visitor visitor, string step, string code)
    {
        var answer = await ScanAsync(visitor, step, code);
        Assert.True(answer.Status == HttpStatusCode.OK, answer.Source);
        answer.One(".scan.done");
        return answer;
    }

    private static async Task RefusedAsync(
        Visitor visitor, string step, string code, HttpStatusCode status, string reason)
    {
        var answer = await ScanAsync(visitor, step, code);
        Assert.Equal(status, answer.Status);
        Assert.Contains(reason, answer.One(".scan.stop").TextContent, StringComparison.Ordinal);
    }

    // As the script does.
    private static async Task<Page> ScanAsync(Visitor visitor, string step, string code, string? key = null)
    {
        var page = await visitor.GetPageAsync($"/bench/{step}");
        var token = page.One("form.scan-line input[name=__RequestVerificationToken]").GetAttribute("value")!;
        using var request = new HttpRequestMessage(HttpMethod.Post, page.Address)
        {
            Content = new FormUrlEncodedContent([new("code", code), new("__RequestVerificationToken", token)]),
        };
        request.Headers.Add("X-Scan", "1");
        request.Headers.Add("X-Request-Key", key ?? Guid.NewGuid().ToString());
        using var answer = await visitor.Http.SendAsync(request);
        return await Page.ReadAsync(answer);
    }
}
