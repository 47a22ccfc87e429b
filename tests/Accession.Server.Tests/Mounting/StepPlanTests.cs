using System.Net;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Mounting;

[Trait("Store", "sqlite")]
public sealed class StepPlansOnSqlite(ServerOnSqlite server) : StepPlanTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class StepPlansOnPostgreSql(ServerOnPostgreSql server)
    : StepPlanTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>The step plan is data: whoever writes another edition changes what the sheets numbered after it wait for.</summary>
public abstract class StepPlanTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Species,Sheets
        Ada Quill,3,2024-06-14,Oregon,Harney,Poa secunda J.Presl,5
        """;

    [Fact]
    public async Task Another_edition_for_a_series_changes_what_its_new_sheets_wait_for()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, "step plan"));
        var other = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, "step plan of others"));
        await NextAsync(pile);

        var written = Treating.ColdRoom.Sent(await WriteAsync(curator, pile.SeriesId,
            ("Numbered", "1"), ("Labelled", "2"), ("Treated", "3"), ("Mounted", ""), ("Imaged", ""), ("Filed", "4")));
        await NextAsync(pile);
        await NextAsync(other);

        Assert.Equal([Step.Treated, Step.Numbered, Step.Treated], await WaitingAsync([pile.Code(1), pile.Code(2), other.Code(1)]));
        Assert.Contains("follow it", (await curator.FollowAsync(written)).One("[data-said]").TextContent, StringComparison.Ordinal);
        // What the plan does not ask for is not done at the bench.
        using var technician = await server.SignInAsync(Role.Technician);
        var mounted = await new ScanLine(technician, "/bench/mounted").ScanAsync(pile.Code(2));
        Assert.Equal(HttpStatusCode.Conflict, mounted.Status);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Theory]
    [InlineData("1", "2", "", "Everything here is numbered and treated")]
    [InlineData("1", "1", "2", "each once")]
    [InlineData("1", "x", "2", "each once")]
    [InlineData("2", "3", "1", "Numbered must precede Labelled")]
    public async Task A_plan_that_cannot_be_followed_is_refused_and_stays_in_the_form(
        string numbered, string labelled, string treated, string reason)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var wanted = reason.StartsWith("Numbered must", StringComparison.Ordinal)
            ? (Numbered: "3", Labelled: "2", Treated: "1")
            : (Numbered: numbered, Labelled: labelled, Treated: treated);

        var refused = await WriteAsync(curator, null,
            ("Numbered", wanted.Numbered), ("Labelled", wanted.Labelled), ("Treated", wanted.Treated), ("Mounted", ""),
            ("Imaged", ""), ("Filed", ""));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains(reason, Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.Equal(wanted.Labelled, refused.One("input[name='Position[Labelled]']").GetAttribute("value"));
    }

    [Fact]
    public async Task A_technician_reads_the_plan_and_writes_none()
    {
        using var technician = await server.SignInAsync(Role.Technician);
        var page = await technician.GetPageAsync("/step-plans");

        Assert.Contains("came with the program", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.All("form[action='/step-plans']"));
    }

    private static async Task<Page> WriteAsync(Visitor visitor, long? series, params (string Step, string At)[] order)
    {
        var page = await visitor.GetPageAsync("/step-plans");
        return await visitor.SubmitAsync(page, "form[action='/step-plans']",
            [("For", $"{series}"), .. order.Select(one => ($"Position[{one.Step}]", one.At))]);
    }

    private async Task NextAsync(Pile pile)
    {
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);
    }

    private async Task<List<Step?>> WaitingAsync(string[] codes)
    {
        List<Step?> waiting = [];
        foreach (var code in codes)
        {
            waiting.Add(await server.InRegisterAsync(db => db.Parts.Where(p => p.Code == code).Select(p => p.NextStep).SingleAsync()));
        }

        return waiting;
    }
}
