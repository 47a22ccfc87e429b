using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class CorrectingManyOnSqlite(ServerOnSqlite server)
    : CorrectingManyTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class CorrectingManyOnPostgreSql(ServerOnPostgreSql server)
    : CorrectingManyTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Many records are corrected after a preview of each: all of them or none, and taken back in one act.</summary>
public abstract class CorrectingManyTests(TestServer server)
{
    private const string Head = "Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets\n";

    [Fact]
    public async Task A_text_is_replaced_in_those_that_were_ticked_and_put_back_in_one_act()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, family) = await NumberedAsync(curator, "replace", 12, row => row % 4 == 0 ? "Lake" : "Harny");
        var found = await curator.GetPageAsync($"/specimens?q={family}");
        var path = found.One("a[href^='/specimens/correct']").GetAttribute("href")!;
        var page = await curator.GetPageAsync(path);
        Assert.Contains("12 sheets of 12 gatherings", page.Text, StringComparison.Ordinal);
        var preview = await curator.SubmitAsync(
            page, "form.form", [("Field", "County"), ("Find", "Harny"), ("With", "Harney")], press: "button[formaction*='Preview']");
        Assert.Contains("9 of 12 records", preview.One("#preview h2").TextContent, StringComparison.Ordinal);
        Assert.Equal(9, preview.All("input[name=Ticked]").Count);
        Assert.Contains("“Harny”", preview.Text, StringComparison.Ordinal);
        Assert.Equal(0, await HarneyAsync(pile));

        var unexplained = await curator.SubmitAsync(preview, "form.form", press: "#preview .acts button");
        Assert.Contains("Write why", unexplained.Refusals[0], StringComparison.Ordinal);
        var corrected = await curator.FollowAsync(await curator.SubmitAsync(
            unexplained, "form.form", [("Reason", "one letter was missing")], press: "#preview .acts button"));
        Assert.StartsWith("/correction/", corrected.Address.AbsolutePath, StringComparison.Ordinal);
        Assert.Equal(9, corrected.All("tbody tr").Count);
        Assert.Equal(9, await HarneyAsync(pile));
        Assert.Contains("one letter was missing", corrected.Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));

        // One of them is corrected again: then the act is not taken back, and nothing of it.
        var single = await curator.GetPageAsync($"/specimen/{pile.Code(2)}/correct");
        Assert.Empty((await curator.SubmitAsync(single, "#record", [("County", "Malheur"), ("Reason", "map")])).Refusals);
        var kept = await curator.SubmitAsync(corrected, "form.form", [("Reason", "wrong")]);
        Assert.Equal(HttpStatusCode.Conflict, kept.Status);
        Assert.Equal(8, await HarneyAsync(pile));
        var once = (await curator.GetPageAsync($"/specimen/{pile.Code(2)}")).All(".trail a")[^1].GetAttribute("href")!;
        Assert.Equal(HttpStatusCode.Found, (await curator.SubmitAsync(
            await curator.GetPageAsync(once), "form.form", [("Reason", "no, it was right")])).Status);
        var back = await curator.FollowAsync(await curator.SubmitAsync(corrected, "form.form", [("Reason", "wrong")]));
        Assert.Equal(0, await HarneyAsync(pile));
        Assert.Contains("It takes back", back.Text, StringComparison.Ordinal);
        Assert.Contains("It was taken back by", (await curator.GetPageAsync(corrected.Address.AbsolutePath)).Text, StringComparison.Ordinal);
        Assert.Contains("County put back from “Harney” to “Harny”: wrong", (await curator.GetPageAsync($"/specimen/{pile.Code(2)}")).Text, StringComparison.Ordinal);
        Assert.Contains("taken back already", (await curator.SubmitAsync(corrected, "form.form", [("Reason", "again")])).Refusals[0], StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Whoever_changed_one_meanwhile_keeps_all_from_being_done()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, family) = await NumberedAsync(curator, "meanwhile", 3, _ => "Harny");
        var preview = await curator.SubmitAsync(
            await curator.GetPageAsync($"/specimens/correct?q={family}"), "form.form",
            [("Field", "County"), ("Way", "set"), ("With", "Harney")], press: "button[formaction*='Preview']");
        var single = await curator.GetPageAsync($"/specimen/{pile.Code(2)}/correct");
        Assert.Empty((await curator.SubmitAsync(single, "#record", [("County", "Lake"), ("Reason", "map")])).Refusals);
        var told = await curator.SubmitAsync(preview, "form.form", [("Reason", "all")], press: "#preview .acts button");
        Assert.Equal(HttpStatusCode.PreconditionFailed, told.Status);
        Assert.Equal(0, await HarneyAsync(pile));
        Assert.Empty((await curator.SubmitAsync(told, "form.form", [("Reason", "all")], press: "#preview .acts button")).Refusals);
        Assert.Equal(3, await HarneyAsync(pile));
    }

    [Fact]
    public async Task What_cannot_be_corrected_so_is_said_beforehand_and_nothing_unclear_is_tried()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (_, family) = await NumberedAsync(curator, "cannot", 2, _ => "Harny");
        var page = await curator.GetPageAsync($"/specimens/correct?q={family}");
        foreach (var (fields, says) in new[]
        {
            (new[] { ("Field", "County") }, "Write the text"),
            (new[] { ("Field", "Elevation"), ("Find", "1") }, "No text is replaced"),
        })
        {
            var refused = await curator.SubmitAsync(page, "form.form", fields, press: "button[formaction*='Preview']");
            Assert.Contains(says, refused.Refusals[0], StringComparison.Ordinal);
        }

        var impossible = await curator.SubmitAsync(
            page, "form.form", [("Field", "Elevation"), ("Way", "set"), ("With", "4120")], press: "button[formaction*='Preview']");
        Assert.Equal(2, impossible.All("tr.stop").Count);
        Assert.Empty(impossible.All("input[name=Ticked]"));
        Assert.Contains("200 sheets at most", (await curator.GetPageAsync("/specimens/correct")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Programs_correct_under_the_version_they_saw_and_the_key_they_sent()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, _) = await NumberedAsync(curator, "json", 3, _ => "Harny");
        using var program = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.Settle, Right.ReadRegister);
        var gathering = $"/api/v1/gatherings/{pile.Gatherings[0]}";
        var seen = (await program.GetAsync(gathering)).Tag;
        var body = new { facts = new Dictionary<string, string> { ["county"] = "Harney", ["date"] = "1931-05" }, reason = "label" };
        Assert.Equal(428, (int)(await program.PostAsync($"{gathering}/corrections", body)).Status);
        var key = JsonProgram.Key();
        var done = await program.PostAsync($"{gathering}/corrections", body, key, seen);
        Assert.Equal(HttpStatusCode.OK, done.Status);
        Assert.Equal(done.Text, (await program.PostAsync($"{gathering}/corrections", body, key, seen)).Text);
        Assert.Equal(412, (int)(await program.PostAsync($"{gathering}/corrections", body, null, seen)).Status);
        var wrong = await program.PostAsync(
            $"{gathering}/corrections", new { facts = new { elevation = "4120" }, reason = "x" }, null, (await program.GetAsync(gathering)).Tag);
        Assert.Equal(422, (int)wrong.Status);
        Assert.Equal("/elevation", wrong.Body.GetProperty("errors")[0].GetProperty("pointer").GetString());
        var entries = (await program.GetAsync($"{gathering}/corrections")).Items;
        Assert.Equal(["date", "county"], entries.Select(one => one.GetProperty("field").GetString()));
        Assert.Equal("Harny", entries[1].GetProperty("before").GetString());

        var preview = await program.PostAsync(
            "/api/v1/correction-previews", new { gatheringIds = pile.Gatherings, field = "county", find = "Harny", with = "Harney" });
        var changing = preview.Body.GetProperty("gatherings").EnumerateArray().Where(one => one.GetProperty("isChanged").GetBoolean()).ToList();
        Assert.Equal(2, changing.Count);
        var many = await program.PostAsync("/api/v1/corrections", new
        {
            gatherings = changing.Select(one => new { gatheringId = one.GetProperty("gatheringId"), version = one.GetProperty("version") }),
            field = "county",
            find = "Harny",
            with = "Harney",
            reason = "one letter",
        });
        Assert.Equal(2, many.Body.GetProperty("gatherings").GetInt32());
        var back = await program.PostAsync(
            $"/api/v1/corrections/{many.Body.GetProperty("actId").GetInt64()}/reversals", new { reason = "no" });
        Assert.Equal(2, back.Body.GetProperty("gatherings").GetInt32());
        Assert.Equal(1, await HarneyAsync(pile));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private Task<int> HarneyAsync(Pile pile) => server.InRegisterAsync(db => db.Gatherings
        .CountAsync(g => pile.Gatherings.Contains(g.Id) && g.Place.County == "Harney"));

    private async Task<(Pile Pile, string Family)> NumberedAsync(
        Visitor curator, string of, int rows, Func<int, string> county)
    {
        var list = new StringBuilder(Head);
        for (var row = 1; row <= rows; row++)
        {
            list.Append(null, $"Orla Finch,{8100 + row},2024-06-14,United States,Oregon,{county(row)},Wash {row},Poa secunda J.Presl,1\n");
        }

        var text = InventedNames.OfAnother(list.ToString(), $"{GetType().Name} {of}");
        var pile = await Pile.TakeInAsync(server, curator, text);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 1, 20);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        for (var row = 0; row < rows; row++)
        {
            await scanner.ScanAsync(pile.Code(row + 1), pile.Gatherings[row]);
        }

        return (pile, text.Split('\n')[1].Split(',')[0].Split(' ')[^1]);
    }
}
