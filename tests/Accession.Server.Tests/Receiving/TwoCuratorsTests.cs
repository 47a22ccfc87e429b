using System.Globalization;
using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Receiving;
using Accession.Server.Tests.Ground;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class TwoCuratorsOnSqlite(ServerOnSqlite server)
    : TwoCuratorsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class TwoCuratorsOnPostgreSql(ServerOnPostgreSql server)
    : TwoCuratorsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Two people in one batch, one form sent twice, and a page that is left while something runs.</summary>
public abstract class TwoCuratorsTests(TestServer server)
{
    private const int Rounds = 4;

    // Invented people and places. Rows 3 and 6 are open.
    private static readonly string[] Rows =
    [
        "Ada Quill,1,2024-05-01,Poa annua L.,Mill lane",
        "Ada Quill,2,2024-05-02,Poa annua L.,North gate",
        "Ada Quill,3,31.02.2024,Bromus tectorum L.,Old quarry",
        "Ada Quill,4,2024-05-04,Carex hirta L.,Wet ditch",
        "Ada Quill,5,2024-05-05,Carex nigra (L.) Reichard,Fen edge",
        "Ada Quill,6,2024-13-05,Carex nigra (L.) Reichard,Fen edge",
    ];

    [Fact]
    public async Task One_matches_columns_while_the_other_takes_in_and_the_slower_repeats_it()
    {
        using var one = await server.SignInAsync(Role.Curator);
        using var other = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(one, "TC");
        for (var round = 0; round < Rounds; round++)
        {
            var batch = await ReceiveAsync(one, $"Matched {round}", Rows);
            var path = batch.Address.AbsolutePath;
            var columns = await one.GetPageAsync($"{path}/columns");
            var takeIn = await other.GetPageAsync($"{path}/take-in");
            async Task<Page> MatchAsync(Page page) => await one.SubmitAsync(
                page, "main form[method=post]", [("chosen[4]", "habitat")]);
            async Task<Page> TakeAsync(Page page) => await other.SubmitAsync(
                page, "main form", [("Terms", "Gift"), ("SheetsInPile", "4"), ("Hazards", "Smells of naphthalene.")]);

            var answers = await Task.WhenAll(MatchAsync(columns), TakeAsync(takeIn));
            Assert.Contains(answers, answer => answer.Status == HttpStatusCode.Found);
            Assert.All(answers, TellsWhatToDo);
            await server.WaitForWorkAsync();

            // What the slower one chose and wrote stands there again, and needs only to be sent.
            if (answers[0].Refusals.Count > 0)
            {
                Assert.Equal("habitat", answers[0].One("#c4 option[selected]").GetAttribute("value"));
                Assert.Empty((await one.SubmitAsync(answers[0], "main form[method=post]")).Refusals);
            }

            if (answers[1].Refusals.Count > 0)
            {
                Assert.Equal("Smells of naphthalene.", answers[1].One("#Hazards").TextContent.Trim());
                Assert.Empty((await other.SubmitAsync(answers[1], "main form")).Refusals);
            }

            await server.WaitForWorkAsync();
            Assert.Equal(4, await GatheringsAsync($"Matched {round}"));
            var match = await one.GetPageAsync($"{path}/columns");
            Assert.Equal("habitat", match.One("#c4 option[selected]").GetAttribute("value"));
            Assert.Contains("2 open", (await one.GetPageAsync(path)).Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task One_settles_rows_while_the_other_takes_in_and_every_row_goes_in_once()
    {
        using var one = await server.SignInAsync(Role.Curator);
        using var other = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(one, "TC");
        for (var round = 0; round < Rounds; round++)
        {
            var batch = await ReceiveAsync(one, $"Settled {round}", Rows);
            var path = batch.Address.AbsolutePath;
            var open = await one.GetPageAsync($"{path}/rows?show=open");
            var takeIn = await other.GetPageAsync($"{path}/take-in");
            var row = open.All("main input[name=rowIds]")[0].GetAttribute("value")!;
            var rowId = long.Parse(row, CultureInfo.InvariantCulture);
            async Task<Page> SettleAsync(Page page) => await one.SubmitAsync(
                page, "main form[method=post]", [("rowIds", row), ("reason", "The label says no more.")]);
            async Task<Page> TakeAsync(Page page) => await other.SubmitAsync(
                page, "main form", [("Terms", "Gift"), ("SheetsInPile", "4")]);

            var answers = await Task.WhenAll(SettleAsync(open), TakeAsync(takeIn));
            Assert.All(answers, TellsWhatToDo);
            await server.WaitForWorkAsync();
            if (answers[0].Refusals.Count > 0)
            {
                Assert.True(answers[0].One($"input[name=rowIds][value='{row}']").HasAttribute("checked"));
                Assert.Equal("The label says no more.", answers[0].One("#reason").GetAttribute("value"));
                Assert.Empty((await one.SubmitAsync(answers[0], "main form[method=post]")).Refusals);
            }

            await TakeWhatIsLeftAsync(other, path, 5);
            Assert.Equal(5, await GatheringsAsync($"Settled {round}"));

            // Who settled it, when and why stands with the row.
            var inside = await other.GetPageAsync($"{path}/rows?show=in");
            Assert.Contains("Taken as written by Test Curator", inside.Text, StringComparison.Ordinal);
            Assert.Contains("The label says no more.", inside.Text, StringComparison.Ordinal);
            Assert.Equal("The label says no more.", await server.InRegisterAsync(db => db.Acts
                .Where(act => db.Rows.Any(r => r.Id == rowId && r.TakenAsWrittenActId == act.Id))
                .Select(act => act.Reason).SingleAsync()));
        }
    }

    [Fact]
    public async Task A_form_sent_twice_is_one_act_with_one_answer()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "TC");
        var receiving = await curator.GetPageAsync("/batches");
        string[] rows =
        [
            .. Rows[..2], "Ada Quill,7,12/05/24,Poa annua L.,Weir", "Ada Quill,8,25/05/24,Poa annua L.,Weir",
        ];
        var received = await TwiceAsync(() => curator.SubmitAsync(
            receiving, "main form", [("SourceName", "Doubled")], [new Upload("List", "d.csv", Bytes("Doubled", rows))]));
        await server.WaitForWorkAsync();
        var path = received.Location!;
        Assert.Equal(1, await server.InRegisterAsync(db => db.Lists.CountAsync(l => l.Batch.Source.Name == "Doubled")));

        var batch = await curator.GetPageAsync(path);
        await TwiceAsync(() => curator.SubmitAsync(batch, "form[action$='handler=Order']", [("order", "DayFirst")]));
        await server.WaitForWorkAsync();

        var takeIn = await curator.GetPageAsync($"{path}/take-in");
        await TwiceAsync(() => curator.SubmitAsync(
            takeIn, "main form", [("Terms", "Exchange"), ("SheetsInPile", "4")]));
        await server.WaitForWorkAsync();
        Assert.Equal(4, await GatheringsAsync("Doubled"));
        var id = long.Parse(path.Split('/')[^1], CultureInfo.InvariantCulture);
        Assert.Equal(1, await server.InRegisterAsync(db => db.Work.CountAsync(
            work => work.Kind == RereadRowsWork.Kind && work.Subject == id)));
        Assert.Equal(1, await server.InRegisterAsync(db => db.Work.CountAsync(work => work.Kind == TakeInRowsWork.Kind
            && db.Accessions.Any(lot => lot.Id == work.Subject && lot.BatchId == id))));
    }

    [Fact]
    public async Task A_page_is_left_while_work_runs_and_found_again_by_another()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await ReceiveAsync(curator, "Left", Rows);
        var path = batch.Address.AbsolutePath;
        var id = long.Parse(path.Split('/')[^1], CultureInfo.InvariantCulture);

        // Another process of this register reads the rows again, and is not done.
        const string Elsewhere = "another process";
        var work = await server.InRegisterAsync(async db =>
        {
            var act = await db.Lists.Where(list => list.BatchId == id).Select(list => list.Act).SingleAsync();
            var row = WorkRow.Wanted(RereadRowsWork.Kind, id, act);
            db.Add(row);
            await db.SaveChangesAsync();
            return row.Id;
        });
        await ElsewhereAsync(claims => claims.ClaimAsync(work, Elsewhere, CancellationToken.None));
        await ElsewhereAsync(async claims =>
        {
            await claims.ReportAsync(work, Elsewhere, 2, 6, CancellationToken.None);
            return true;
        });
        using var other = await server.SignInAsync(Role.Curator);
        var found = await other.GetPageAsync(path);
        Assert.Contains("2 of 6", found.One(".progress").TextContent, StringComparison.Ordinal);
        Assert.Contains("You may leave this page", found.Text, StringComparison.Ordinal);
        Assert.Empty(found.All("a[href$='take-in']"));
        var told = await other.SubmitAsync(
            await other.GetPageAsync($"{path}/take-in"), "main form", [("Terms", "Gift"), ("SheetsInPile", "4")]);
        TellsWhatToDo(told);
        Assert.Equal(HttpStatusCode.Conflict, told.Status);

        await ElsewhereAsync(async claims =>
        {
            await claims.ReportAsync(work, Elsewhere, 4, 6, CancellationToken.None);
            return true;
        });
        Assert.Contains("4 of 6", (await other.GetPageAsync($"/progress/{work}")).Source, StringComparison.Ordinal);
        await ElsewhereAsync(async claims =>
        {
            await claims.FinishAsync(work, Elsewhere, null, CancellationToken.None);
            return true;
        });
        Assert.True((await other.GetPageAsync($"/progress/{work}")).Headers.Contains("HX-Refresh"));
        found = await other.GetPageAsync(path);
        Assert.Empty(found.All(".progress"));
        Assert.NotEmpty(found.All("a[href$='take-in']"));
    }

    private static void TellsWhatToDo(Page answer)
    {
        if (answer.Status == HttpStatusCode.Found)
        {
            return;
        }

        Assert.Equal(HttpStatusCode.Conflict, answer.Status);
        var refusal = Assert.Single(answer.Refusals);
        Assert.True(
            refusal.Contains("Wait until that is done, then do it again", StringComparison.Ordinal)
            || refusal.Contains("look again and repeat it", StringComparison.Ordinal), refusal);
    }

    // Both at once, and once more afterwards: a browser that sends again, and a person who presses twice.
    private static async Task<Page> TwiceAsync(Func<Task<Page>> send)
    {
        var answers = await Task.WhenAll(send(), send());
        Page[] all = [.. answers, await send()];
        Assert.All(all, answer => Assert.Equal(
            (HttpStatusCode.Found, all[0].Location), (answer.Status, answer.Location)));
        return all[0];
    }

    private async Task TakeWhatIsLeftAsync(Visitor curator, string path, int sheets)
    {
        var page = await curator.GetPageAsync($"{path}/take-in");
        if (page.Text.Contains("0 settled rows", StringComparison.Ordinal))
        {
            return;
        }

        (string, string)[] terms = page.All("input[name=Terms]").Count > 0 ? [("Terms", "Gift")] : [];
        (string, string)[] fields = [.. terms, ("SheetsInPile", $"{sheets}")];
        Assert.Empty((await curator.SubmitAsync(page, "main form", fields)).Refusals);
        await server.WaitForWorkAsync();
    }

    private Task<T> ElsewhereAsync<T>(Func<WorkClaims, Task<T>> step) => server.RunAsync(step);

    private Task<int> GatheringsAsync(string source) => server.InRegisterAsync(db => db.Gatherings.CountAsync(
        g => db.Rows.Any(row => row.Id == g.BatchRowId
            && db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name == source))));

    private static byte[] Bytes(string source, string[] rows) => Encoding.UTF8.GetBytes(
        "Collector,Number,Date,Species,Locality\n" + InventedNames.OfAnother(string.Join('\n', rows), source));

    private Task<Page> ReceiveAsync(Visitor curator, string source, string[] rows) =>
        Bench.ReceiveAsync(server, curator, source, "list.csv", Bytes(source, rows));
}
