using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class ListAgainOnSqlite(ServerOnSqlite server) : ListAgainTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ListAgainOnPostgreSql(ServerOnPostgreSql server)
    : ListAgainTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>The same list comes again: as it was, re-sorted, corrected, or with columns moved.</summary>
public abstract class ListAgainTests(TestServer server)
{
    private const string Header = "Collector,Number,Date,Species,Locality";

    // Invented people and places.
    private static readonly string[] Rows =
    [
        "Ada Quill,1,2024-05-01,Poa annua L.,Mill lane",
        "Ada Quill,2,2024-05-02,Poa annua L.,North gate",
        "Ada Quill,3,2024-05-03,Bromus tectorum L.,Old quarry",
        "Ada Quill,4,2024-05-04,Carex hirta L.,Wet ditch",
        "Ada Quill,s.n.,2024-05-05,Carex nigra (L.) Reichard,Fen edge",
    ];

    [Fact]
    public async Task The_same_file_under_another_name_changes_nothing_and_says_so()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await ReceiveAsync(curator, "Same", Rows);
        var answer = await SendAsync(curator, "Same", "other name.csv", Rows);
        var again = await curator.FollowAsync(answer);
        Assert.Equal(batch.Address.AbsolutePath, again.Address.AbsolutePath);
        Assert.Contains("received before: nothing was changed", again.Text, StringComparison.Ordinal);
        Assert.Equal("5", Fact(again, "Rows"));
        Assert.DoesNotContain("Lists that came", again.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Re_sorted_or_with_columns_moved_every_row_is_unchanged()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await ReceiveAsync(curator, "Sorted", Rows);
        var sorted = await ReceiveAsync(curator, "Sorted", [.. Rows.Reverse()]);
        Assert.Equal(first.Address.AbsolutePath, sorted.Address.AbsolutePath);
        Counts(sorted, unchanged: 5, changed: 0, added: 0, withdrawn: 0);

        // The locality moves to the front and an empty column is added.
        var moved = Rows.Select(row => row.Split(',')).Select(cells => $"{cells[4]},{string.Join(',', cells[..4])},");
        var text = "Locality,Collector,Number,Date,Species,Remarks\n" + string.Join('\n', moved);
        var answer = await SendAsync(curator, "Sorted", "moved.csv", Encoding.UTF8.GetBytes(text));
        var again = await SettledAsync(curator, answer);
        Assert.Equal(first.Address.AbsolutePath, again.Address.AbsolutePath);
        Counts(again, unchanged: 5, changed: 0, added: 0, withdrawn: 0);
        var columns = await curator.GetPageAsync($"{again.Address.AbsolutePath}/columns");
        Assert.Equal("Mill lane", columns.All("tbody tr")[0].QuerySelectorAll("td")[0].TextContent);
    }

    [Fact]
    public async Task Corrected_rows_stand_beside_what_they_said_and_the_original_brings_them_back()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await ReceiveAsync(curator, "Corrected", Rows);
        string[] corrected = [.. Rows[..2], Rows[2].Replace("Old quarry", "New quarry"), Rows[4],
            "Ada Quill,6,2024-05-06,Poa trivialis L.,Pond"];
        var batch = await ReceiveAsync(curator, "Corrected", corrected);
        Counts(batch, unchanged: 3, changed: 1, added: 1, withdrawn: 1);
        var path = batch.Address.AbsolutePath;
        var changed = await curator.GetPageAsync($"{path}/rows?show=changed");
        Assert.Contains("Old quarry is now New quarry", changed.Text, StringComparison.Ordinal);
        Assert.Single(changed.All("tbody tr"));
        Assert.Contains("Wet ditch", (await curator.GetPageAsync($"{path}/rows?show=withdrawn")).Text, StringComparison.Ordinal);

        // A re-sorted one after it has changed nothing, so no row is shown as changed by it.
        var sorted = await ReceiveAsync(curator, "Corrected", [.. corrected.Reverse()]);
        Counts(sorted, unchanged: 5, changed: 0, added: 0, withdrawn: 0);
        Assert.Contains("changed no row", (await curator.GetPageAsync($"{path}/rows?show=changed")).Text, StringComparison.Ordinal);

        // The original, re-sorted: what it said stands again.
        var original = await ReceiveAsync(curator, "Corrected", [.. Rows.Reverse()]);
        Counts(original, unchanged: 3, changed: 1, added: 1, withdrawn: 1);
        var all = await curator.GetPageAsync($"{path}/rows?show=all");
        Assert.Contains("Old quarry", all.Text, StringComparison.Ordinal);
        Assert.Equal(5, all.All("tbody tr").Count);
    }

    [Fact]
    public async Task A_row_corrected_after_it_was_taken_in_is_shown_and_never_taken_in_twice()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "AG");
        var batch = await ReceiveAsync(curator, "Taken", Rows);
        await TakeInAsync(curator, batch, 5);
        string[] corrected = [.. Rows[..3], Rows[3].Replace("Wet ditch", "Dry ditch"), Rows[4].Replace("Fen edge", "Fen")];
        var again = await ReceiveAsync(curator, "Taken", corrected);
        Counts(again, unchanged: 3, changed: 2, added: 0, withdrawn: 0);
        var path = again.Address.AbsolutePath;
        Assert.Contains("5 in the register", again.Text, StringComparison.Ordinal);
        var changed = await curator.GetPageAsync($"{path}/rows?show=changed");
        Assert.Contains("changed after it was taken in", changed.Text, StringComparison.Ordinal);

        // Missing for a while, then back in another form: still the same gathering.
        await AgainAsync(curator, path, corrected[..4]);
        string[] back = [.. corrected[..4], corrected[4].Replace("Fen", "Fen, north side")];
        var last = await AgainAsync(curator, path, back);
        Assert.Contains("5 in the register", last.Text, StringComparison.Ordinal);
        var takeIn = await curator.GetPageAsync($"{path}/take-in");
        Assert.Contains("0 settled rows", takeIn.Text, StringComparison.Ordinal);
        Assert.Equal(5, await server.InRegisterAsync(db => db.Gatherings.CountAsync(
            g => db.Rows.Any(row => row.Id == g.BatchRowId && db.Batches.Any(
                b => b.Id == row.BatchId && b.Source.Name == "Taken")))));
    }

    [Fact]
    public async Task Three_equal_rows_and_then_two_withdraw_one()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var first = await ReceiveAsync(curator, "Equal", [Rows[0], Rows[0], Rows[0], Rows[1]]);
        Assert.Equal("4", Fact(first, "Rows"));
        var batch = await ReceiveAsync(curator, "Equal", [Rows[1], Rows[0], Rows[0]]);
        Counts(batch, unchanged: 3, changed: 0, added: 0, withdrawn: 1);
    }

    [Fact]
    public async Task A_small_part_of_a_list_is_a_list_of_its_own_unless_a_person_says_it_is_that_list()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var whole = await ReceiveAsync(curator, "Part", Rows);
        var part = await ReceiveAsync(curator, "Part", Rows[..2]);
        Assert.NotEqual(whole.Address.AbsolutePath, part.Address.AbsolutePath);
        Assert.Equal("2", Fact(part, "Rows"));
        var again = await AgainAsync(curator, whole.Address.AbsolutePath, [Rows[4], Rows[3]]);
        Assert.Equal(whole.Address.AbsolutePath, again.Address.AbsolutePath);
        Counts(again, unchanged: 2, changed: 0, added: 0, withdrawn: 3);
    }

    [Fact]
    public async Task A_wrong_file_takes_nothing_from_the_batch()
    {
        // Gatherings of their own: those of the other tests may be in the register by now, and would be found again.
        var rows = Rows.Select(row => InventedNames.OfAnother(row, "a wrong file")).ToArray();
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await ReceiveAsync(curator, "Wrong", rows);
        var path = batch.Address.AbsolutePath;
        var answer = await curator.SubmitAsync(
            batch, "form[action$='handler=Again']", [], [new Upload("File", "label.pdf", "%PDF-1.7 nothing"u8.ToArray())]);
        var page = await SettledAsync(curator, answer);
        Assert.Contains("it looks like a PDF", page.Text, StringComparison.Ordinal);
        Assert.Contains("5 settled", page.Text, StringComparison.Ordinal);
        Counts(await AgainAsync(curator, path, [.. rows.Reverse()]), unchanged: 5, changed: 0, added: 0, withdrawn: 0);
    }

    [Fact]
    public async Task Two_lists_of_a_source_sent_one_upon_the_other_are_one_batch()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var many = Enumerable.Range(1, 3000).Select(n => $"Ada Quill,{n},2023-05-01,Poa annua L.,Field {n}").ToArray();
        Assert.Empty((await SendAsync(curator, "Both", "a.csv", many)).Refusals);
        Assert.Empty((await SendAsync(curator, "Both", "b.csv", [.. many.Reverse()])).Refusals);
        await server.WaitForWorkAsync();
        Assert.Equal(1, await server.InRegisterAsync(db => db.Batches.CountAsync(
            b => b.Source.Name == "Both" && b.JoinedToBatchId == null)));
        Assert.Equal(3000, await server.InRegisterAsync(db => db.Rows.CountAsync(
            row => db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name == "Both"))));
    }

    private static Task<Page> SendAsync(Visitor curator, string source, string name, string[] rows) =>
        SendAsync(curator, source, name, Encoding.UTF8.GetBytes(Header + "\n" + string.Join('\n', rows)));

    private static async Task<Page> SendAsync(Visitor curator, string source, string name, byte[] bytes) =>
        await curator.SubmitAsync(await curator.GetPageAsync("/batches"), "main form",
            [("SourceName", source)], [new Upload("List", name, bytes)]);

    private async Task<Page> ReceiveAsync(Visitor curator, string source, string[] rows) =>
        await SettledAsync(curator, await SendAsync(curator, source, "list.csv", rows));

    private async Task<Page> AgainAsync(Visitor curator, string path, string[] rows)
    {
        var bytes = Encoding.UTF8.GetBytes(Header + "\n" + string.Join('\n', rows));
        return await SettledAsync(curator, await curator.SubmitAsync(await curator.GetPageAsync(path),
            "form[action$='handler=Again']", [], [new Upload("File", "again.csv", bytes)]));
    }

    private async Task<Page> SettledAsync(Visitor curator, Page answer)
    {
        Assert.Empty(answer.Refusals);
        await server.WaitForWorkAsync();
        return await curator.FollowAsync(answer);
    }

    private async Task TakeInAsync(Visitor curator, Page batch, int sheets)
    {
        var page = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-in");
        var answer = await curator.SubmitAsync(page, "main form", [("Terms", "Gift"), ("SheetsInPile", $"{sheets}")]);
        await SettledAsync(curator, answer);
    }

    private static string Fact(Page page, string name) =>
        page.All("dl.facts dt").Single(dt => dt.TextContent == name).NextElementSibling!.TextContent;

    private static void Counts(Page page, int unchanged, int changed, int added, int withdrawn) => Assert.Equal(
        ($"{unchanged}", $"{changed}", $"{added}", $"{withdrawn}"),
        (Fact(page, "Unchanged"), Fact(page, "Changed"), Fact(page, "Added"), Fact(page, "Withdrawn")));
}
