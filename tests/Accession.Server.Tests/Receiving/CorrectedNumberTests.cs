using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class CorrectedNumberOnSqlite(ServerOnSqlite server)
    : CorrectedNumberTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class CorrectedNumberOnPostgreSql(ServerOnPostgreSql server)
    : CorrectedNumberTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>
/// The slip was in what rows are known by: the number or the collector. What is in the register goes in only once.
/// People and places are invented.
/// </summary>
public abstract class CorrectedNumberTests(TestServer server)
{
    private static readonly string[] Rows =
    [
        "Ada Quill,104,2024-05-01,Poa annua L.,Mill lane",
        "Ada Quill,105,2024-05-02,Poa annua L.,North gate",
        "Ada Quill,106,2024-05-03,Bromus tectorum L.,Old quarry",
        "Ada Quill,107,2024-05-04,Carex hirta L.,Wet ditch",
        "Ada Quill,108,2024-05-05,Carex nigra (L.) Reichard,Fen edge",
    ];

    [Theory]
    [InlineData("Ada Quill,104,", "Ada Quill,140,", "104 is now 140")]
    [InlineData("Ada Quill,104,", "Ada Quilling,104,", "Ada Quill is now Ada Quilling")]
    public async Task It_shows_as_changed_and_waits_until_somebody_says_that_it_is_the_same(
        string before, string now, string shown)
    {
        var source = $"Corrected to {now}";
        using var curator = await server.SignInAsync(Role.Curator);
        var path = await TakenInAsync(curator, source);
        string[] corrected = [Rows[0].Replace(before, now), .. Rows[1..]];
        var again = await ReceiveAsync(curator, source, corrected);
        Assert.Equal(path, again.Address.AbsolutePath);
        Counts(again, unchanged: 4, changed: 1, added: 0, withdrawn: 0);
        var open = await curator.GetPageAsync($"{path}/rows?show=open");
        var row = Assert.Single(open.All("main form tbody tr"));
        Assert.Contains("A row like this one was taken into the register", row.TextContent, StringComparison.Ordinal);
        Assert.Contains($"Ada {InventedNames.FamilyOf(source)} 104", row.TextContent, StringComparison.Ordinal);
        var changed = await curator.GetPageAsync($"{path}/rows?show=changed");
        Assert.Contains(InventedNames.OfAnother(shown, source), changed.Text, StringComparison.Ordinal);

        // Neither all rows at once, nor the columns settled anew, nor the list once more lets it slip in.
        var every = await curator.SubmitAsync(open, "main form[method=post]", press: "button[name=every]");
        Assert.Contains("None of these rows is open", Assert.Single(every.Refusals), StringComparison.Ordinal);
        await curator.SubmitAsync(await curator.GetPageAsync($"{path}/columns"), "main form[method=post]");
        await server.WaitForWorkAsync();
        again = await ReceiveAsync(curator, source, [.. corrected.Reverse()]);
        Assert.Contains("1 open", again.Text, StringComparison.Ordinal);
        again = await ReceiveAsync(
            curator, source, [corrected[0].Replace("Mill lane", "Mill Lane, south side"), .. Rows[1..]]);
        Assert.Contains("1 open", again.Text, StringComparison.Ordinal);
        await NothingIsSettledAsync(curator, path);

        open = await curator.GetPageAsync($"{path}/rows?show=open");
        var id = Assert.Single(open.All("input[name=rowIds]")).GetAttribute("value")!;
        var said = await curator.SubmitAsync(
            open, "main form[method=post]", [("rowIds", id)], press: "button[name=corrects]");
        Assert.Empty(said.Refusals);
        Assert.Contains("None open", (await curator.FollowAsync(said)).Text, StringComparison.Ordinal);
        await NothingIsSettledAsync(curator, path);
        Assert.Equal(5, await GatheringsAsync(source));

        // And it stays so when the list comes once more.
        again = await ReceiveAsync(curator, source, [.. Rows[1..].Reverse(), corrected[0]]);
        Assert.Contains("None open", again.Text, StringComparison.Ordinal);
        await NothingIsSettledAsync(curator, path);
    }

    [Fact]
    public async Task Another_gathering_that_only_looks_alike_is_taken_as_written_and_goes_in()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var path = await TakenInAsync(curator, "Alike");
        await ReceiveAsync(curator, "Alike", [Rows[0].Replace("104", "99"), .. Rows[1..]]);
        var open = await curator.GetPageAsync($"{path}/rows?show=open");
        var id = Assert.Single(open.All("input[name=rowIds]")).GetAttribute("value")!;
        Assert.Empty((await curator.SubmitAsync(
            open, "main form[method=post]", [("rowIds", id), ("reason", "Two numbers of one day.")])).Refusals);
        await server.WaitForWorkAsync();
        var takeIn = await curator.GetPageAsync($"{path}/take-in");
        Assert.Empty((await curator.SubmitAsync(takeIn, "main form", [("SheetsInPile", "6")])).Refusals);
        await server.WaitForWorkAsync();
        Assert.Equal(6, await GatheringsAsync("Alike"));

        // The other is missing from the list, and says so beside its record.
        var withdrawn = await curator.GetPageAsync($"{path}/rows?show=withdrawn");
        Assert.Contains($"Ada {InventedNames.FamilyOf("Alike")} 104", withdrawn.Text, StringComparison.Ordinal);
        var again = await ReceiveAsync(curator, "Alike", [.. Rows[1..].Reverse(), Rows[0].Replace("104", "99")]);
        Assert.Contains("None open", again.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Before_anything_is_taken_in_it_is_simply_changed()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await ReceiveAsync(curator, "Early", Rows);
        var again = await ReceiveAsync(curator, "Early", [Rows[0].Replace("104", "140"), .. Rows[1..]]);
        Counts(again, unchanged: 4, changed: 1, added: 0, withdrawn: 0);
        Assert.Contains("None open", again.Text, StringComparison.Ordinal);
    }

    private static async Task NothingIsSettledAsync(Visitor curator, string path)
    {
        var page = await curator.GetPageAsync($"{path}/take-in");
        Assert.Contains("0 settled rows", page.Text, StringComparison.Ordinal);
    }

    private async Task<string> TakenInAsync(Visitor curator, string source)
    {
        await Bench.BeginSeriesAsync(curator, "CN");
        var batch = await ReceiveAsync(curator, source, Rows);
        var page = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-in");
        var taken = await curator.SubmitAsync(page, "main form", [("Terms", "Gift"), ("SheetsInPile", "5")]);
        Assert.Empty(taken.Refusals);
        await server.WaitForWorkAsync();
        return batch.Address.AbsolutePath;
    }

    private Task<Page> ReceiveAsync(Visitor curator, string source, string[] rows) => Bench.ReceiveAsync(
        server, curator, source, "list.csv",
        Encoding.UTF8.GetBytes(
            "Collector,Number,Date,Species,Locality\n"
            + InventedNames.OfAnother(string.Join('\n', rows), source)));

    private Task<int> GatheringsAsync(string source) => server.InRegisterAsync(db => db.Gatherings.CountAsync(
        g => db.Rows.Any(row => row.Id == g.BatchRowId
            && db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name == source))));

    private static string Fact(Page page, string name) =>
        page.All("dl.facts dt").Single(dt => dt.TextContent == name).NextElementSibling!.TextContent;

    private static void Counts(Page page, int unchanged, int changed, int added, int withdrawn) => Assert.Equal(
        ($"{unchanged}", $"{changed}", $"{added}", $"{withdrawn}"),
        (Fact(page, "Unchanged"), Fact(page, "Changed"), Fact(page, "Added"), Fact(page, "Withdrawn")));
}
