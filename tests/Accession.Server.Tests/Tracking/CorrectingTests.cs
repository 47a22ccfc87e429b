using System.Net;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class CorrectingOnSqlite(ServerOnSqlite server) : CorrectingTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class CorrectingOnPostgreSql(ServerOnPostgreSql server)
    : CorrectingTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A curator corrects an accepted record: nothing is lost, and everything that follows from it follows.</summary>
public abstract class CorrectingTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Habitat,Lat,Long,Elev (ft),Species,Sheets
        Orla Finch,801,2024-06-14,United States,Oregon,Harny,Dry wash below the corral,Sagebrush,43.5864,-119.0542,4123,Poa secunda J.Presl,2
        Orla Finch,802,2024-06-14,United States,Oregon,Harny,Rim of the canyon,Talus,43.6,-119.1,4200,Bromus tectorum L.,1
        """;

    [Fact]
    public async Task What_is_corrected_stands_and_what_was_written_stays_beside_it()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, list) = await NumberedAsync(curator, "stands");
        var address = $"/specimen/{pile.Code(1)}";
        var form = await curator.GetPageAsync($"{address}/correct");
        Assert.Contains($"{pile.Code(1)}, {pile.Code(2)}", form.Text, StringComparison.Ordinal);
        Assert.Equal("Harny", form.One("#County").GetAttribute("value"));

        // What will stand is shown before it is done, read from what was typed, and nothing is done.
        (string, string)[] typed =
            [("County", "Harney"), ("Elevation", "4,130 ft"), ("Date", $"15 Jun {list.Year}"), ("Reason", "label read again")];
        var preview = await curator.SubmitAsync(form, "#record", typed, press: "button[formaction$='Preview']");
        Assert.Empty(preview.Refusals);
        var will = preview.One("#will-stand").TextContent;
        Assert.Contains($"15 Jun {list.Year}", will, StringComparison.Ordinal);
        Assert.Contains("1258.8 m", will, StringComparison.Ordinal);
        Assert.Equal("Harney", preview.One("#County").GetAttribute("value"));
        Assert.DoesNotContain("Harney", (await curator.GetPageAsync(address)).Text, StringComparison.Ordinal);

        var done = await curator.SubmitAsync(preview, "#record");
        Assert.Equal(HttpStatusCode.Found, done.Status);
        foreach (var number in new[] { 1, 2 })
        {
            var page = await curator.GetPageAsync($"/specimen/{pile.Code(number)}");
            Assert.Contains("Harney, Oregon", page.One("article.label").TextContent, StringComparison.Ordinal);
            Assert.Contains($"15 Jun {list.Year}", page.One("article.label").TextContent, StringComparison.Ordinal);
            Assert.Contains("4123", page.Text, StringComparison.Ordinal);        // elevation, to the letter
            Assert.Contains($"{list.Year}-06-14", page.Text, StringComparison.Ordinal);  // date, to the letter
            Assert.Contains("County corrected from “Harny” to “Harney”: label read again", page.Text, StringComparison.Ordinal);
        }

        // Found by the new words, not by the old; the key of the county, the archive's columns and verify follow.
        Assert.Contains(pile.Code(1), (await curator.GetPageAsync($"/specimens?q={list.Family}+harney")).Text, StringComparison.Ordinal);
        Assert.DoesNotContain(pile.Code(1), (await curator.GetPageAsync($"/specimens?q={list.Family}+secunda+harny")).Text, StringComparison.Ordinal);
        Assert.Contains(pile.Code(1), (await curator.GetPageAsync($"/specimens?q={list.Family}&county=Harney,+OR")).Text, StringComparison.Ordinal);
        Assert.Equal("oregon/harney", await server.InRegisterAsync(db =>
            db.Gatherings.Where(g => g.Id == pile.Gatherings[0]).Select(g => g.CountyKey).SingleAsync()));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task What_cannot_be_meant_is_said_at_its_field_and_nothing_typed_is_lost()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, _) = await NumberedAsync(curator, "errors");
        var form = await curator.GetPageAsync($"/specimen/{pile.Code(1)}/correct");
        var refused = await curator.SubmitAsync(
            form, "#record", [("Elevation", "4130"), ("Date", "3/4/2024"), ("Locality", "By the gate"), ("Reason", "x")]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Equal(2, refused.Refusals.Count);
        Assert.All(["#Elevation", "#Date"], field => Assert.Equal("true", refused.One(field).GetAttribute("aria-invalid")));
        Assert.Equal("4130", refused.One("#Elevation").GetAttribute("value"));
        Assert.Equal("By the gate", refused.One("#Locality").TextContent);
        Assert.Single(refused.All("a[href='#Elevation']"));

        var unexplained = await curator.SubmitAsync(form, "#record", [("Locality", "By the gate")]);
        Assert.Contains("Write why", unexplained.Refusals[0], StringComparison.Ordinal);
        var nothing = await curator.SubmitAsync(form, "#record", [("Reason", "x")]);
        Assert.Contains("stands so already", nothing.Refusals[0], StringComparison.Ordinal);
        var alone = await curator.SubmitAsync(
            form, "#record", [("Coordinates", ""), ("Uncertainty", "30 m"), ("Reason", "x")]);
        Assert.Contains("A radius needs the point", alone.Refusals[0], StringComparison.Ordinal);
        Assert.Equal("", alone.One("#Coordinates").GetAttribute("value"));
        Assert.Empty(await server.InRegisterAsync(
            db => db.Corrections.Where(c => c.GatheringId == pile.Gatherings[0]).ToListAsync()));
    }

    [Fact]
    public async Task Of_two_curators_at_once_the_second_is_told_and_undoes_nothing()
    {
        using var first = await server.SignInAsync(Role.Curator);
        using var second = (await Newcomers.LetInAsync(server, "Other Curator", Role.Curator)).Visitor;
        var (pile, _) = await NumberedAsync(first, "two");
        var path = $"/specimen/{pile.Code(1)}/correct";
        var (one, other) = (await first.GetPageAsync(path), await second.GetPageAsync(path));
        Assert.Empty((await first.SubmitAsync(one, "#record", [("County", "Harney"), ("Reason", "one letter")])).Refusals);

        var told = await second.SubmitAsync(other, "#record", [("Habitat", "Greasewood flat"), ("Reason", "field book")]);
        Assert.Equal(HttpStatusCode.PreconditionFailed, told.Status);
        Assert.Contains("Test Curator corrected this record", told.Refusals[0], StringComparison.Ordinal);
        Assert.Equal("Greasewood flat", told.One("#Habitat").TextContent);
        Assert.Equal("Harney", told.One("#County").GetAttribute("value"));
        Assert.Empty((await second.SubmitAsync(told, "#record")).Refusals);
        var page = await first.GetPageAsync($"/specimen/{pile.Code(1)}");
        Assert.Contains("Harney, Oregon", page.Text, StringComparison.Ordinal);
        Assert.Contains("Greasewood flat", page.Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task The_same_form_posted_twice_corrects_once()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, _) = await NumberedAsync(curator, "twice");
        var form = await curator.GetPageAsync($"/specimen/{pile.Code(1)}/correct");
        for (var i = 0; i < 2; i++)
        {
            Assert.Empty((await curator.SubmitAsync(form, "#record", [("County", "Harney"), ("Reason", "one letter")])).Refusals);
        }

        Assert.Equal(1, await server.InRegisterAsync(
            db => db.Corrections.CountAsync(c => c.GatheringId == pile.Gatherings[0])));
    }

    [Fact]
    public async Task Records_of_one_gathering_from_two_lists_change_together()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, _) = await NumberedAsync(curator, "together");
        var (first, later) = (pile.Gatherings[0], pile.Gatherings[1]);
        await server.InRegisterAsync(db => db.Gatherings.Where(g => g.Id == later)
            .ExecuteUpdateAsync(row => row.SetProperty(g => g.DuplicateOfId, first)));
        var form = await curator.GetPageAsync($"/specimen/{pile.Code(3)}/correct");
        Assert.Contains(pile.Code(1), form.One(".said.waiting").TextContent, StringComparison.Ordinal);
        var done = await curator.FollowAsync(
            await curator.SubmitAsync(form, "#record", [("County", "Harney"), ("Reason", "one letter")]));
        Assert.Contains("2 records of this gathering", done.Text, StringComparison.Ordinal);
        Assert.Contains("Harney, Oregon", (await curator.GetPageAsync($"/specimen/{pile.Code(1)}")).Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_list_that_comes_again_undoes_no_correction_and_meets_what_was_corrected()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, list) = await NumberedAsync(curator, "again");
        var form = await curator.GetPageAsync($"/specimen/{pile.Code(1)}/correct");
        var other = InventedNames.FamilyOf(list.Family + " as it should be");
        Assert.Empty((await curator.SubmitAsync(
            form, "#record", [("Collectors", $"Orla {other}"), ("Number", "8010"), ("Reason", "field book")])).Refusals);
        await server.WaitForWorkAsync();

        // The same list once more changes nothing.
        await Bench.ReceiveAsync(
            server, curator, $"Source {pile.Prefix}", "again.csv", Encoding.UTF8.GetBytes(list.Text + "\n"));
        var page = await curator.GetPageAsync($"/specimen/{pile.Code(1)}");
        Assert.Contains($"Orla {other} 8010", page.Text.Replace("  ", " ", StringComparison.Ordinal), StringComparison.Ordinal);

        // Another list that has it as it should be is found to be of that gathering.
        var batch = await Bench.ReceiveAsync(
            server, curator, $"Other source {pile.Prefix}", "right.csv",
            Encoding.UTF8.GetBytes(list.Text.Split('\n')[0] + "\n"
                + list.Text.Split('\n')[1].Replace($"Orla {list.Family},801", $"Orla {other},8010", StringComparison.Ordinal)));
        var batchId = long.Parse(batch.Address.AbsolutePath.Split('/')[2], null);
        Assert.Equal([pile.Gatherings[0]], await server.InRegisterAsync(db => db.FoundMembers
            .Where(m => db.Rows.Any(r => r.Id == m.RowId && r.BatchId == batchId) && m.GatheringId != null)
            .Select(m => m.GatheringId!.Value).ToListAsync()));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_record_that_was_tampered_with_is_noticed()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var (pile, _) = await NumberedAsync(curator, "tampered");
        var form = await curator.GetPageAsync($"/specimen/{pile.Code(1)}/correct");
        await curator.SubmitAsync(
            form, "#record", [("County", "Harney"), ("Locality", "By the gate"), ("Reason", "one letter")]);
        Assert.Empty(await Pile.VerifyAsync(server));
        var id = pile.Gatherings[0];
        await server.InRegisterAsync(db => db.Database.ExecuteSqlAsync(
            $"UPDATE gathering SET locality = 'elsewhere', county_key = 'oregon/lake' WHERE id = {id}"));
        Assert.Equal(
            [$"gathering {id}, CountyKey", $"gathering {id}, Locality"],
            (await Pile.VerifyAsync(server)).Where(one => one.Check == "What was corrected stands")
                .Select(one => one.Subject).Order());
        await server.InRegisterAsync(db => db.Database.ExecuteSqlAsync(
            $"UPDATE gathering SET locality = 'By the gate', county_key = 'oregon/harney' WHERE id = {id}"));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private async Task<(Pile Pile, (string Text, string Family, string Year) List)> NumberedAsync(Visitor curator, string of)
    {
        var text = InventedNames.OfAnother(List, $"{GetType().Name} {of}");
        var pile = await Pile.TakeInAsync(server, curator, text);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 1, 10);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        foreach (var (number, gathering) in new[] { (1, 0), (2, 0), (3, 1) })
        {
            await scanner.ScanAsync(pile.Code(number), pile.Gatherings[gathering]);
        }

        return (pile, (text, text.Split('\n')[1].Split(',')[0].Split(' ')[^1],
            text.Split('\n')[1].Split(',')[2][..4]));
    }
}
