using System.Globalization;
using System.Net;
using System.Text;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Server.Receiving;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Treating;
using Accession.Tests;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class KeyingOnSqlite(ServerOnSqlite server) : KeyingTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class KeyingOnPostgreSql(ServerOnPostgreSql server)
    : KeyingTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A pile without a list, typed label by label. People and places are invented.</summary>
public abstract class KeyingTests(TestServer server)
{
    private const string Form = "form.keying";

    private static (string, string)[] Label(string collector, string number, string date = "2024-05-01") =>
    [
        ("Typed[Collector]", $"O. {collector}"), ("Typed[Number]", number), ("Typed[Date]", date),
        ("Typed[Name]", "Poa secunda J.Presl"), ("Typed[State]", "Oregon"), ("Typed[County]", "Harney"),
        ("Typed[Place]", $"\"Mill\" lane, {number} m north"),
    ];

    private static async Task<Page> BeginAsync(Visitor who, string source)
    {
        var answer = await who.SubmitAsync(
            await who.GetPageAsync("/batches/key"), "main form", [("SourceName", source)]);
        Assert.Empty(answer.Refusals);
        return await who.FollowAsync(answer);
    }

    private static async Task<Page> KeepAsync(Visitor who, Page page, params (string, string)[] fields)
    {
        var answer = await who.SubmitAsync(page, Form, fields);
        Assert.True(answer.Location is not null, string.Join(' ', answer.Refusals));
        return await who.FollowAsync(answer);
    }

    private static string BatchOf(Page keying) =>
        keying.Address.AbsolutePath.Replace("/keying", "", StringComparison.Ordinal);

    private Task<List<BatchRow>> RowsAsync(string source) => server.InRegisterAsync(db => db.Rows.AsNoTracking()
        .Where(row => db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name == source))
        .OrderBy(row => row.Id).ToListAsync());

    [Fact]
    public async Task Labels_become_rows_as_they_are_typed_and_go_into_the_register()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "KY");
        var name = InventedNames.FamilyOf("keying");
        var page = await BeginAsync(curator, $"Pile {name}");
        page = await KeepAsync(curator, page, Label(name, "1"));
        Assert.Contains("Line 1 is kept", page.Text, StringComparison.Ordinal);
        page = await KeepAsync(curator, page, Label(name, "2", "2024-05-09"));
        await server.WaitForWorkAsync();

        Assert.Contains("2 in the last hour, 2 today, 2 in the pile", page.Text, StringComparison.Ordinal);
        Assert.Equal(["2", "1"], page.All("tbody .num").Select(cell => cell.TextContent));
        var row = (await RowsAsync($"Pile {name}"))[0];
        // To the letter, quotation marks and all.
        Assert.Equal("\"Mill\" lane, 1 m north", RowCells.FromJson(row.Cells).Cells[9]);

        var batch = BatchOf(page);
        var taken = await curator.SubmitAsync(
            await curator.GetPageAsync($"{batch}/take-in"), "main form", [("Terms", "Gift"), ("SheetsInPile", "2")]);
        Assert.Empty(taken.Refusals);
        await server.WaitForWorkAsync();
        Assert.Equal(2, await server.InRegisterAsync(db => db.Gatherings.CountAsync(
            g => g.Notes.CollectorsVerbatim == $"O. {name}")));

        // It may grow on, and what is in the register is not corrected here.
        page = await curator.GetPageAsync($"{batch}/keying");
        Assert.Contains("In the register", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.All("tbody a"));
        page = await KeepAsync(curator, page, Label(name, "3", "2024-06-11"));
        Assert.Contains("3 in the pile", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_as_last_is_one_sign_in_a_field_or_a_tick_for_all_that_follow()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("keying-same");
        var page = await BeginAsync(curator, $"Same {name}");
        page = await KeepAsync(curator, page, [.. Label(name, "1"), ("Again", "Collector")]);
        Assert.Equal($"O. {name}", page.One("input[name='Typed[Collector]']").GetAttribute("value"));
        Assert.Equal("Number", Focused(page));
        Assert.True(page.One("input[name=Again][value=Collector]").HasAttribute("checked"));

        page = await KeepAsync(
            curator, page, ("Typed[Number]", "2"), ("Typed[Date]", "\""), ("Typed[Place]", "\u3003"),
            ("Typed[Habitat]", "\"Old\" field"));
        var typed = RowCells.FromJson((await RowsAsync($"Same {name}"))[1].Cells).Cells;
        Assert.Equal(
            ($"O. {name}", "2", "2024-05-01", "\"Mill\" lane, 1 m north", "\"Old\" field"),
            (typed[0], typed[1], typed[2], typed[9], typed[12]));

        var whole = await curator.GetPageAsync($"{page.Address.AbsolutePath}?same=all");
        Assert.Equal("\"Old\" field", whole.One("input[name='Typed[Habitat]']").GetAttribute("value"));
    }

    private static string? Focused(Page page) =>
        page.One("form.keying input[autofocus]").GetAttribute("name")?["Typed[".Length..^1];

    [Fact]
    public async Task A_label_is_corrected_and_what_stood_there_stays_on_record()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("keying-corrected");
        var page = await BeginAsync(curator, $"Corrected {name}");
        page = await KeepAsync(curator, page, Label(name, "1", "31.02.2024"));
        Assert.Contains("Date: ", page.Text, StringComparison.Ordinal);   // why the day cannot be read, at once
        page = await KeepAsync(curator, page, Label(name, "2"));

        var correcting = await curator.GetPageAsync(page.All("tbody a")[1].GetAttribute("href")!);
        Assert.Equal("31.02.2024", correcting.One("input[name='Typed[Date]']").GetAttribute("value"));
        page = await KeepAsync(curator, correcting, ("Typed[Date]", "28.02.2024"));
        Assert.Contains("Line 1 is corrected", page.Text, StringComparison.Ordinal);
        Assert.Contains("2 in the pile", page.Text, StringComparison.Ordinal);
        await server.WaitForWorkAsync();

        var rows = await RowsAsync($"Corrected {name}");
        Assert.Equal(3, rows.Count);
        Assert.Equal((rows[2].Id, 1, 1), (rows[0].SupersededById, rows[2].Line, rows[0].Line));
        Assert.Contains("0 open", (await curator.GetPageAsync(BatchOf(page))).Text.Replace(
            "None open", "0 open", StringComparison.Ordinal), StringComparison.Ordinal);

        // Sent once more after somebody was faster, it does not stand twice.
        var late = await curator.SubmitAsync(correcting, Form, [("Typed[Date]", "27.02.2024"), ("RequestKey", "late")]);
        Assert.Contains("stands no longer", Assert.Single(late.Refusals), StringComparison.Ordinal);
        Assert.Equal("27.02.2024", late.One("input[name='Typed[Date]']").GetAttribute("value"));
    }

    [Fact]
    public async Task A_label_that_was_typed_twice_is_taken_out()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("keying-twice");
        var page = await BeginAsync(curator, $"Twice {name}");
        page = await KeepAsync(curator, page, Label(name, "1"));
        page = await KeepAsync(curator, page, Label(name, "1"));
        await server.WaitForWorkAsync();
        page = await curator.GetPageAsync(page.Address.AbsolutePath);
        Assert.Contains("Repeat", page.One("tbody tr:first-child .mark").TextContent, StringComparison.Ordinal);

        var answer = await curator.SubmitAsync(page, "tbody tr:first-child form");
        page = await curator.FollowAsync(answer);
        Assert.Contains("Line 2 is taken out", page.Text, StringComparison.Ordinal);
        Assert.Contains("1 in the pile", page.Text, StringComparison.Ordinal);
        Assert.Equal(2, (await RowsAsync($"Twice {name}")).Count);
    }

    [Fact]
    public async Task Nothing_typed_is_lost_when_it_is_refused_and_a_form_sent_twice_is_one_label()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("keying-refused");
        var page = await BeginAsync(curator, $"Refused {name}");
        var empty = await curator.SubmitAsync(page, Form);
        Assert.Equal("Nothing was typed from this label.", Assert.Single(empty.Refusals));

        var wide = await curator.SubmitAsync(
            page, Form, [.. Label(name, "1"), ("Typed[Notes]", new string('x', 2_001)), ("RequestKey", "wide")]);
        Assert.Contains("2,001 characters", Assert.Single(wide.Refusals), StringComparison.Ordinal);
        Assert.Equal($"O. {name}", wide.One("input[name='Typed[Collector]']").GetAttribute("value"));

        var answers = await Task.WhenAll(
            curator.SubmitAsync(page, Form, Label(name, "1")), curator.SubmitAsync(page, Form, Label(name, "1")));
        Assert.All(answers, answer => Assert.Empty(answer.Refusals));
        Assert.Single(await RowsAsync($"Refused {name}"));
    }

    [Fact]
    public async Task Two_people_type_into_one_pile_and_each_label_has_its_line()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var technician = await server.SignInAsync(Role.Technician);
        var name = InventedNames.FamilyOf("keying-two");
        var begun = await BeginAsync(curator, $"Two {name}");
        async Task TypeAsync(Visitor who, int first)
        {
            for (var i = first; i < first + 5; i++)
            {
                await KeepAsync(who, await who.GetPageAsync(begun.Address.AbsolutePath), Label(name, $"{i}"));
            }
        }

        await Task.WhenAll(TypeAsync(curator, 1), TypeAsync(technician, 101));
        await server.WaitForWorkAsync();
        var rows = await RowsAsync($"Two {name}");
        Assert.Equal(Enumerable.Range(1, 10), rows.Select(row => row.Line).Order());
        Assert.All(rows, row => Assert.NotNull(row.Finding));
        Assert.Equal(10, await server.InRegisterAsync(db => db.Lists
            .Where(list => list.Batch.Source.Name == $"Two {name}").Select(list => list.Counts.Rows).SingleAsync()));
        Assert.Contains(
            "5 in the last hour", (await technician.GetPageAsync(begun.Address.AbsolutePath)).Text,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_does_not_take_the_place_of_what_was_typed_and_its_rows_are_found()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("keying-file");
        var page = await BeginAsync(curator, $"File {name}");
        page = await KeepAsync(curator, page, Label(name, "1"));
        await server.WaitForWorkAsync();
        Assert.Empty((await curator.GetPageAsync(BatchOf(page))).All("#again"));
        var id = long.Parse(BatchOf(page).Split('/')[^1], CultureInfo.InvariantCulture);
        var refused = await server.RunAsync<ReceiveList, Outcome<ReceiveList.Receipt>>(receive => receive.RunAsync(
            new(null, id, new("a.csv", "a", "b", 1)), Door.System, CancellationToken.None));
        Assert.Contains("are typed here", refused.Refusals[0].Reason, StringComparison.Ordinal);

        var list = $"Collector,Number,Date,State,County,Locality,Species\nO. {name},1,2024-05-01,Oregon,Harney,"
            + "\"\"\"Mill\"\" lane, 1 m north\",Poa secunda J.Presl\n";
        var batch = await Bench.ReceiveAsync(
            server, curator, $"File {name}", "list.csv", Encoding.UTF8.GetBytes(list));
        Assert.NotEqual(BatchOf(page), batch.Address.AbsolutePath);
    }

    [Fact]
    public async Task A_pile_that_came_as_a_parcel_is_tied_to_it()
    {
        using var room = await ColdRoom.OpenAsync(server);
        var tag = await room.TagAsync();
        var form = await room.Curator.GetPageAsync("/batches/key");
        var unknown = await room.Curator.SubmitAsync(
            form, "main form", [("SourceName", $"Parcel {room.Name}"), ("ParcelTag", "Q1999-0001")]);
        Assert.Contains("No parcel has the tag", Assert.Single(unknown.Refusals), StringComparison.Ordinal);
        Assert.Equal($"Parcel {room.Name}", unknown.One("#SourceName").GetAttribute("value"));

        var begun = await room.Curator.FollowAsync(await room.Curator.SubmitAsync(
            unknown, "main form", [("ParcelTag", tag)]));
        var batch = await room.Curator.GetPageAsync(BatchOf(begun));
        Assert.Contains(tag, batch.One("#parcels").TextContent, StringComparison.Ordinal);
        Assert.Empty((await room.Technician.GetPageAsync("/batches/key")).All("#ParcelTag"));
    }

    [Fact]
    public async Task A_backup_misses_no_file_of_a_pile_that_has_none_and_the_register_agrees_with_its_entries()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("keying-backup");
        await KeepAsync(curator, await BeginAsync(curator, $"Backup {name}"), Label(name, "1"));
        await server.WaitForWorkAsync();
        var file = Path.Combine(server.Store.Folder, $"{Guid.NewGuid():N}.backup");

        var (exit, told, remarks) = await RunAsync("backup", file, "--json");
        Assert.True(exit == 0, remarks);
        Assert.Contains("\"missing\":[]", string.Concat(told), StringComparison.Ordinal);
        (exit, _, remarks) = await RunAsync("verify");
        Assert.True(exit == 0, remarks);
    }

    private Task<(int Exit, string[] Told, string Remarks)> RunAsync(params string[] command) =>
        ServerProcess.RunApartAsync(
        [
            .. command, "--data", server.Store.Folder,
            .. server.Store.Settings.SelectMany(setting => new[] { "--set", setting }),
            "--set", "Institution:InstitutionCode=TB", "--set", "Institution:CollectionCode=TB-H",
        ]);

    [Fact]
    public async Task What_is_no_typed_batch_is_not_keyed_and_rows_of_another_are_not_corrected()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("keying-list");
        var received = await Bench.ReceiveAsync(
            server, curator, $"Listed {name}", "list.csv",
            Encoding.UTF8.GetBytes($"Collector,Number\nO. {name},1\n"));
        Assert.Equal(
            HttpStatusCode.NotFound, (await curator.GetPageAsync($"{received.Address.AbsolutePath}/keying")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await curator.GetPageAsync("/batch/987654/keying")).Status);

        var page = await BeginAsync(curator, $"Elsewhere {name}");
        var row = (await RowsAsync($"Listed {name}"))[0];
        Assert.Equal(
            HttpStatusCode.NotFound, (await curator.GetPageAsync($"{page.Address.AbsolutePath}?row={row.Id}")).Status);
    }
}
