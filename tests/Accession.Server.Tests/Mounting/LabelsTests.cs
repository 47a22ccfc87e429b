using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Mounting;

[Trait("Store", "sqlite")]
public sealed class LabelsOnSqlite(ServerOnSqlite server) : LabelsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class LabelsOnPostgreSql(ServerOnPostgreSql server)
    : LabelsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// Labels, slips and barcodes for the printer. The order of facts on a label is common practice, no published source.
/// </summary>
public abstract class LabelsTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Lat,Long,Habitat,Family,Species,Sheets
        Ada Quill,31,2024-06-14,United States,Oregon,Harney,Dry wash below Coyote Rim,43.51,-118.91,Sandy flat,Poaceae,Poa secunda J.Presl,2
        Ada Quill,32,2024-06-14,United States,Oregon,Harney,Spring under Hidden Butte,43.61,-118.81,Seep,Orchidaceae,Platanthera dilatata (Pursh) Lindl. ex L.C.Beck,1
        """;

    [Fact]
    public async Task An_accessions_labels_are_counted_first_and_bear_what_the_sheet_page_shows()
    {
        var pile = await NumberedAsync("label", protect: false);
        using var technician = await server.SignInAsync(Role.Technician);

        var check = await technician.GetPageAsync($"/labels?accession={pile.Accession}");
        Assert.Contains("3 labels on 1 page of A4, 8 on a page, each 105 by 70 mm", check.Text, StringComparison.Ordinal);
        var printed = await technician.SubmitAsync(check, "form[method=post][action='/labels']");

        var labels = printed.All(".print-label");
        Assert.Equal(Enumerable.Range(1, 3).Select(n => pile.Code(n)), labels.Select(l => Symbols.Read(l.QuerySelector("svg")!)));
        var text = string.Join(' ', labels[0].TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        string[] inOrder =
        [
            "Herbarium of the Test Bench", "Harney, Oregon, United States", "Poaceae", "Poa secunda J.Presl",
            "Dry wash below Coyote Rim", "43.51, -118.91", "Sandy flat", "31", pile.Code(1), pile.Accession,
        ];
        Assert.Equal(inOrder, inOrder.OrderBy(fact => text.IndexOf(fact, StringComparison.Ordinal)));
        Assert.All(inOrder, fact => Assert.Contains(fact, text, StringComparison.Ordinal));
        // Printing is no act.
        Assert.False(await server.InRegisterAsync(db => db.Acts.AnyAsync(
            a => a.ActorName == TestServer.DisplayName(Role.Technician) && a.What.Contains("label"))));
    }

    [Fact]
    public async Task A_protected_place_is_on_the_label_for_those_who_may_see_it_and_nowhere_for_others()
    {
        var pile = await NumberedAsync("hidden", protect: true);
        using var technician = await server.SignInAsync(Role.Technician);
        var check = await technician.GetPageAsync($"/labels?accession={pile.Accession}");
        Assert.Contains("2 labels on 1 page", check.Text, StringComparison.Ordinal);
        Assert.Contains("1 left out: their place is protected", check.Text, StringComparison.Ordinal);
        var printed = await technician.SubmitAsync(check, "form[method=post][action='/labels']");
        Assert.Equal([pile.Code(1), pile.Code(2)], printed.All(".print-label").Select(l => l.GetAttribute("aria-label")));
        Assert.DoesNotContain("Hidden Butte", printed.Source + check.Source, StringComparison.Ordinal);
        Assert.DoesNotContain("43.61", printed.Source + check.Source, StringComparison.Ordinal);
        var before = await LooksAsync();

        using var curator = await server.SignInAsync(Role.Curator);
        check = await curator.GetPageAsync($"/labels?accession={pile.Accession}");
        Assert.DoesNotContain("Hidden Butte", check.Source, StringComparison.Ordinal);
        Assert.Equal(before, await LooksAsync());   // counting is no look
        printed = await curator.SubmitAsync(check, "form[method=post][action='/labels']");

        Assert.Contains("Spring under Hidden Butte", printed.All(".print-label")[2].TextContent, StringComparison.Ordinal);
        Assert.Equal(before + 1, await LooksAsync());
        // A barcode gives no place away.
        var bare = await technician.GetPageAsync($"/labels?kind=Barcodes&accession={pile.Accession}");
        Assert.Equal(3, (await technician.SubmitAsync(bare, "form[method=post][action='/labels']")).All(".print-label").Count);
    }

    [Fact]
    public async Task A_slip_is_for_a_name_that_was_given_later()
    {
        var pile = await NumberedAsync("slip", protect: false);
        using var curator = await server.SignInAsync(Role.Curator);
        var none = await curator.GetPageAsync($"/labels?kind=Slips&accession={pile.Accession}");
        Assert.Contains("0 determination slips", none.Text, StringComparison.Ordinal);
        Assert.Empty(none.All("form[method=post][action='/labels']"));
        var named = await curator.SubmitAsync(
            await curator.GetPageAsync($"/specimen/{pile.Code(2)}/name"), "main form",
            [("Name", "Poa cusickii Vasey"), ("IdentifiedBy", "Ivo Larch"), ("Date", "Mar 2026"), ("Counts", "true")]);
        Assert.Empty(named.Refusals);

        var check = await curator.GetPageAsync($"/labels?kind=Slips&accession={pile.Accession}");
        Assert.Contains("2 without a slip", check.Text, StringComparison.Ordinal);
        var slips = (await curator.SubmitAsync(check, "form[method=post][action='/labels']")).All(".print-label");

        var slip = Assert.Single(slips);
        Assert.Contains("Poa cusickii Vasey", slip.TextContent, StringComparison.Ordinal);
        Assert.Contains("det. Ivo Larch, Mar 2026", slip.TextContent, StringComparison.Ordinal);
        Assert.Equal(pile.Code(2), Symbols.Read(slip.QuerySelector("svg")!));
    }

    [Fact]
    public async Task Of_a_roll_only_what_is_unused_is_printed()
    {
        var pile = await NumberedAsync("roll", protect: false);
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 11, 14);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.ExtraAsync(pile.Gatherings[0]);
        Assert.Equal(HttpStatusCode.OK, (await scanner.ScanAsync(pile.Code(12), pile.Gatherings[0])).Status);
        var roll = await server.InRegisterAsync(db => db.Rolls.Where(r => r.Name == $"Roll {pile.Prefix} 11").Select(r => r.Id).SingleAsync());

        var check = await curator.GetPageAsync($"/labels?roll={roll}");
        var printed = await curator.SubmitAsync(check, "form[method=post][action='/labels']");

        Assert.Equal(
            [pile.Code(11), pile.Code(13), pile.Code(14)], printed.All(".print-label svg").Select(Symbols.Read));
        Assert.Equal(HttpStatusCode.NotFound, (await curator.GetPageAsync("/labels?roll=987654321")).Status);
    }

    [Theory]
    [InlineData("?sheets=NO-SUCH-1", HttpStatusCode.NotFound, "There is no sheet NO-SUCH-1.")]
    [InlineData("?accession=1066.0001", HttpStatusCode.NotFound, "There is no accession 1066.0001.")]
    [InlineData("?accession=1066.0001&waiting=true", HttpStatusCode.UnprocessableEntity, "Choose one")]
    public async Task What_cannot_be_printed_is_said(string query, HttpStatusCode status, string reason)
    {
        using var technician = await server.SignInAsync(Role.Technician);

        var page = await technician.GetPageAsync("/labels" + query);

        Assert.Equal(status, page.Status);
        Assert.Contains(reason, Assert.Single(page.Refusals), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("labels", "margin: 8mm 0mm", "--columns: 2; --label-width: 105mm; --label-height: 70mm")]
    [InlineData("slips", "margin: 8mm 0mm", "--columns: 2; --label-width: 105mm; --label-height: 35mm")]
    [InlineData("barcodes", "margin: 1mm 1mm", "--columns: 4; --label-width: 52mm; --label-height: 21mm")]
    public async Task The_paper_is_as_the_settings_have_it(string kind, string margin, string sizes)
    {
        using var technician = await server.SignInAsync(Role.Technician);

        var style = await technician.Http.GetStringAsync(new Uri(server.Address, $"/labels/{kind}.css"));

        Assert.Contains("size: A4", style, StringComparison.Ordinal);
        Assert.Contains(margin, style, StringComparison.Ordinal);
        Assert.Contains(sizes, style, StringComparison.Ordinal);
    }

    private Task<int> LooksAsync() => server.InRegisterAsync(db => db.Acts.CountAsync(a => a.What == "look at exact places to print labels"));

    private async Task<Pile> NumberedAsync(string text, bool protect)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, $"labels {text}"));
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        foreach (var gathering in new[] { pile.Gatherings[0], pile.Gatherings[0], pile.Gatherings[1] })
        {
            Assert.Empty((await scanner.NextAsync(gathering)).Refusals);
        }

        if (protect)
        {
            var answer = await curator.SubmitAsync(
                await curator.GetPageAsync($"/gathering/{pile.Gatherings[1]}/protection"), "main form",
                [("Category", "High"), ("ReviewOn", "2036-01-01"), ("Reason", "Orchids are dug up.")]);
            Assert.Empty(answer.Refusals);
        }

        return pile;
    }
}
