using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class CorrectingProtectedOnSqlite(ServerOnSqlite server)
    : CorrectingProtectedTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class CorrectingProtectedOnPostgreSql(ServerOnPostgreSql server)
    : CorrectingProtectedTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>The place of a protected plant is corrected like any other, and nobody learns it by that.</summary>
public abstract class CorrectingProtectedTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Habitat,Lat,Long,Elev (ft),Species,Sheets
        Orla Finch,821,2024-06-14,United States,Oregon,Harny,Zephyrine Gulch,Xanthic talus,43.58642,-119.05417,4123,Poa secunda J.Presl,1
        """;

    private static readonly string[] Secrets =
        ["Zephyrine", "Xanthic", "Quillwater", "58642", "05417", "61234", "4123", "1256.7", "spring mouth"];

    [Fact]
    public async Task A_corrected_protected_place_is_withheld_in_trail_act_preview_and_JSON()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(
            server, curator, InventedNames.OfAnother(List, $"{GetType().Name} secret"));
        await Bench.RegisterRollAsync(curator, pile.Prefix, 1, 10);
        using var technician = await server.SignInAsync(Role.Technician);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.ScanAsync(pile.Code(1), pile.Gatherings[0]);
        var (address, id) = ($"/specimen/{pile.Code(1)}", pile.Gatherings[0]);

        // A correction from before the protection, with the place in its reason, is withheld from then on as well.
        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync($"{address}/correct"), "#record",
            [("Habitat", "Xanthic talus slope"), ("Reason", "seen at the spring mouth")])).Refusals);
        Assert.Contains("spring mouth", (await technician.GetPageAsync(address)).Text, StringComparison.Ordinal);
        await DecideAsync(curator, id, "Medium");
        Silent(await technician.GetPageAsync(address));

        // The form has the exact place only after a look that is on record.
        var form = await curator.GetPageAsync($"{address}/correct");
        Silent(form);
        Assert.Empty(form.All("#Locality"));
        var looks = await LooksAsync(id);
        var exact = await curator.SubmitAsync(form, "form[action$='handler=Look']");
        Assert.Equal("Zephyrine Gulch", exact.One("#Locality").TextContent);
        Assert.Equal(looks + 1, await LooksAsync(id));
        // What is typed of it is not kept in the browser either.
        Assert.All(["#Locality", "#Coordinates", "#Habitat", "#Reason"], field => Assert.True(exact.One(field).HasAttribute("data-not-kept")));
        Assert.False(exact.One("#County").HasAttribute("data-not-kept"));
        (string, string)[] typed =
            [("Locality", "Quillwater Gulch"), ("Coordinates", "43.61234, -119.20001"), ("County", "Harney"), ("Reason", "map")];
        var will = await curator.SubmitAsync(exact, "#record", typed, press: "button[formaction$='Preview']");
        Assert.Contains("Quillwater Gulch", will.One("#will-stand").TextContent, StringComparison.Ordinal);
        Assert.Equal(looks + 3, await LooksAsync(id));
        Assert.Empty((await curator.SubmitAsync(will, "#record")).Refusals);

        // What everyone may know was made anew of the new place: 43.61 lies in another cell of 0.01 degrees.
        var page = await technician.GetPageAsync(address);
        Silent(page);
        Assert.Contains("43.615, -119.205", page.Text, StringComparison.Ordinal);
        Assert.Contains("Harney, Oregon", page.Text, StringComparison.Ordinal);
        Assert.Contains("Locality corrected: withheld with the place", page.Text, StringComparison.Ordinal);
        Assert.Contains("County corrected from “Harny” to “Harney”", page.Text, StringComparison.Ordinal);
        var act = await server.InRegisterAsync(db => db.Corrections.Where(c => c.GatheringId == id).MaxAsync(c => c.ActId));
        var all = await curator.GetPageAsync($"/correction/{act}");
        Silent(all);
        Assert.Contains("withheld", all.Text, StringComparison.Ordinal);

        // Neither many at once nor a program learns it.
        var preview = await curator.SubmitAsync(
            await curator.GetPageAsync($"/specimens/correct?q={pile.Code(1)}"), "form.form",
            [("Field", "Locality"), ("Find", "Gulch"), ("With", "Draw")], press: "button[formaction*='Preview']");
        Silent(preview);
        Assert.Contains("Its place is protected", preview.Text, StringComparison.Ordinal);
        using var program = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.Settle, Right.ReadRegister);
        var entries = await program.GetAsync($"/api/v1/gatherings/{id}/corrections");
        var blind = await program.PostAsync("/api/v1/correction-previews", new { gatheringIds = new[] { id }, field = "locality", find = "Gulch", with = "Draw" });
        var version = blind.Body.GetProperty("gatherings")[0].GetProperty("version").GetString();
        var tried = await program.PostAsync("/api/v1/corrections", new
        {
            gatherings = new[] { new { gatheringId = id, version } },
            field = "locality",
            find = "Gulch",
            with = "Draw",
            reason = "x",
        });
        Assert.Equal(HttpStatusCode.Forbidden, tried.Status);
        var read = await program.GetAsync($"/api/v1/gatherings/{id}");
        Assert.All(
            Secrets, secret => Assert.All([entries, blind, tried, read], one => Assert.DoesNotContain(secret, one.Text, StringComparison.Ordinal)));
        var acts = await server.InRegisterAsync(db => db.Acts.Select(a => a.What + a.Answer).ToListAsync());
        var open = await server.InRegisterAsync(db => db.Corrections.Select(c => c.Before + c.After).ToListAsync());
        Assert.All(Secrets, secret => Assert.DoesNotContain(acts.Concat(open), one => one.Contains(secret, StringComparison.Ordinal)));
        Assert.Empty(await Pile.VerifyAsync(server));

        // Lifted, the corrected place is what everyone knows, and all of the trail can be read.
        await DecideAsync(curator, id, "NotSensitive");
        var lifted = (await technician.GetPageAsync(address)).Text;
        Assert.Contains("Locality corrected from “Zephyrine Gulch” to “Quillwater Gulch”: map", lifted, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync($"/correction/{act}"), "form.form", [("Reason", "the label was right")])).Refusals);
        Assert.Contains("Zephyrine Gulch", (await technician.GetPageAsync(address)).One("article.label").TextContent, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private static async Task DecideAsync(Visitor curator, long gathering, string category)
    {
        var answer = await curator.SubmitAsync(
            await curator.GetPageAsync($"/gathering/{gathering}/protection"), "form.form",
            [("Category", category), ("ReviewOn", "2030-01-01"), ("Reason", "collectors dig it up")]);
        Assert.Empty(answer.Refusals);
    }

    private Task<int> LooksAsync(long gathering) => server.InRegisterAsync(db => db.Acts.CountAsync(
        act => act.What == "look at an exact place" && act.Reason == $"gathering {gathering}"));

    private static void Silent(Page page) => Assert.All(
        Secrets, secret => Assert.DoesNotContain(secret, page.Html.Body!.TextContent + Values(page), StringComparison.Ordinal));

    private static string Values(Page page) => string.Concat(
        page.All("input:not([type=hidden])").Select(input => input.GetAttribute("value")));
}
