using System.Net;
using System.Text;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class TakeOverOnSqlite(ServerOnSqlite server) : TakeOverTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class TakeOverOnPostgreSql(ServerOnPostgreSql server)
    : TakeOverTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Sheets that bear their numbers come in with them, as they are, and nothing is left to do with them.</summary>
public abstract class TakeOverTests(TestServer server)
{
    [Fact]
    public async Task Numbers_of_every_shape_are_kept_to_the_letter_and_found()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, TakenOver.Prefix());
        string[] numbers = ["R-4313", "145732a", "2008.1334", "01234", "1234", "K/1234", "Herb. Q #7", "Ö-12"];
        await TakenOver.TakeAsync(
            server, curator, "Of every shape", numbers.Select((number, i) => TakenOver.Row(number, i + 1)));

        Assert.Equal(numbers, await TakenOver.SheetsAsync(server, "Of every shape"));
        foreach (var number in numbers)
        {
            var page = await curator.GetPageAsync($"/specimen/{Uri.EscapeDataString(number)}");
            Assert.Equal((HttpStatusCode.OK, number), (page.Status, page.Heading));
            Assert.Contains("In the collection From before", page.Text, StringComparison.Ordinal);
            Assert.Contains("Taken over from Of every shape with the number it bore", page.Text, StringComparison.Ordinal);
            Assert.DoesNotContain("Not treated", page.Text, StringComparison.Ordinal);
        }

        // Nobody minds how its letters are typed, and in the find box what is no digits alone leads to the sheet.
        Assert.Equal("/specimen/R-4313", (await curator.GetPageAsync("/specimen/r-4313")).Location);
        Assert.Equal("/specimen/145732a", (await curator.GetPageAsync("/specimens?q=145732A")).Location);
        Assert.Contains("1234", (await curator.GetPageAsync("/specimens?q=1234")).Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_record_that_was_published_before_keeps_its_identifier_unless_another_sheet_has_it()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var prefix = TakenOver.Prefix();
        await Bench.BeginSeriesAsync(curator, prefix);
        string Published(int n) => $"https://records.example/{prefix}/{n}";
        string[] identifiers = [Published(1), Published(2), "", Published(2), "spoken of", $"urn:catalog:{prefix}:6"];
        var list = "occurrenceID," + TakenOver.Headings + string.Join('\n', identifiers.Select(
            (identifier, i) => $"{identifier},{TakenOver.Row($"{prefix}{i + 1:0000000}", i + 1)}"));
        var batch = await Bench.ReceiveAsync(
            server, curator, $"Published {prefix}", "published.csv", Encoding.UTF8.GetBytes(list), carriesNumbers: true);
        await TakenOver.TakeAsync(server, curator, batch);

        var kept = await server.InRegisterAsync(db => db.Specimens.Where(s => s.CatalogNumber.StartsWith(prefix))
            .OrderBy(s => s.Number).Select(s => s.OccurrenceId).ToListAsync());
        Assert.Equal([Published(1), Published(2)], kept[..2]);
        Assert.Equal($"urn:catalog:{prefix}:6", kept[5]);
        // One without, one whose identifier is another's, and one whose is none that would tell it apart elsewhere.
        Assert.All(kept[2..5], own => Assert.StartsWith("urn:uuid:", own, StringComparison.Ordinal));
        Assert.Equal(6, kept.Distinct().Count());
    }

    [Fact]
    public async Task Three_hundred_numbers_borne_twice_come_in_as_they_are()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var prefix = TakenOver.Prefix();
        await Bench.BeginSeriesAsync(curator, prefix);
        // Every third number of 900 stands on two sheets, and one on three.
        List<string> numbers = [.. Enumerable.Range(1, 900).Select(n => $"{prefix}{n:0000000}")];
        numbers.AddRange(Enumerable.Range(1, 300).Select(n => $"{prefix}{n * 3:0000000}"));
        numbers.Add($"{prefix}0000003");
        var batch = await TakenOver.ReceiveAsync(
            server, curator, $"Twice {prefix}", numbers.Select((number, i) => TakenOver.Row(number, i + 1)));
        var check = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-over");
        Assert.Contains("300 numbers stand on more than one row", check.Text, StringComparison.Ordinal);
        var before = await RepeatedAsync();
        await TakenOver.TakeAsync(server, curator, batch);

        Assert.Equal(before + 300, await RepeatedAsync());
        Assert.Empty(await Pile.VerifyAsync(server));
        Assert.Contains("900 numbers on sheets, 0 unused", (await curator.GetPageAsync("/numbers")).Text, StringComparison.Ordinal);

        // All of them can be read, page by page.
        List<string> listed = [];
        for (var next = "/numbers/repeated"; next is not null;)
        {
            var page = await curator.GetPageAsync(next);
            listed.AddRange(page.All("tbody th a.code").Select(link => link.TextContent));
            next = page.All("nav.pager[aria-label=Pages] a").SingleOrDefault()?.GetAttribute("href");
        }

        Assert.Equal(
            Enumerable.Range(1, 300).Select(n => $"{prefix}{n * 3:0000000}"),
            listed.Where(number => number.StartsWith(prefix, StringComparison.Ordinal)));

        // The number asks which sheet; each sheet has an address of its own.
        var third = await curator.GetPageAsync($"/specimen/{prefix}0000003");
        Assert.Contains("3 sheets bear this number", third.Text, StringComparison.Ordinal);
        var addresses = third.All("tbody th a").Select(link => link.GetAttribute("href")!).ToList();
        Assert.Equal(Enumerable.Range(1, 3).Select(n => $"/specimen/{prefix}0000003/sheet/{n}"), addresses);
        foreach (var (address, field) in addresses.Zip(["Field 3", "Field 901", "Field 1201"]))
        {
            Assert.Contains(field, (await curator.GetPageAsync(address)).Text, StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.NotFound, (await curator.GetPageAsync($"/specimen/{prefix}0000003/sheet/4")).Status);
        Assert.Equal(HttpStatusCode.OK, (await curator.GetPageAsync($"/specimen/{prefix}0000001/sheet/1")).Status);
        var identifiers = await server.InRegisterAsync(db => db.Specimens
            .Where(s => s.CatalogNumber == $"{prefix}0000003").Select(s => s.OccurrenceId).ToListAsync());
        Assert.Equal(3, identifiers.Distinct().Count());
    }

    [Fact]
    public async Task A_series_goes_on_behind_what_the_sheets_bear_and_nothing_between_is_lost()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(
            server, curator, "Collector,Number,Date,Species,Sheets\nOrla Finch,1,2024-05-01,Poa annua L.,9");
        using var scanner = await new Scanner(await server.SignInAsync(Role.Technician), pile).OpenAsync();
        await scanner.NextAsync(pile.Gatherings[0]);
        // Number 1 is on a sheet here; 20 lies ready for the next one; 500 is far ahead.
        var batch = await TakenOver.ReceiveAsync(server, curator, $"Ahead {pile.Prefix}",
            [TakenOver.Row(pile.Code(1), 1), TakenOver.Row(pile.Code(20), 2), TakenOver.Row($"{pile.Prefix.ToLowerInvariant()} 500", 3)]);
        var check = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-over");
        Assert.Contains($"goes on behind {pile.Code(500)}", check.Text, StringComparison.Ordinal);
        Assert.Contains("1 row bears a number that a sheet of the register bears already", check.Text, StringComparison.Ordinal);
        await TakenOver.TakeAsync(server, curator, batch);

        Assert.Equal(
            [$"{pile.Code(1)}/1", pile.Code(20), $"{pile.Prefix.ToLowerInvariant()} 500"],
            await TakenOver.SheetsAsync(server, $"Ahead {pile.Prefix}"));
        Assert.Empty(await Pile.VerifyAsync(server));
        for (var i = 0; i < 2; i++)
        {
            Assert.Contains(pile.Code(501 + i), (await scanner.NextAsync(pile.Gatherings[0])).Source, StringComparison.Ordinal);
        }

        // What lay between is unused on a roll, and used when a sheet that bears it is scanned.
        Assert.Contains("is on the sheet", (await scanner.ScanAsync(pile.Code(7), pile.Gatherings[0])).Text, StringComparison.Ordinal);
        var again = await scanner.ScanAsync(pile.Code(1), pile.Gatherings[0]);
        Assert.Contains("is on more than one sheet. Which is in your hand?", again.Source, StringComparison.Ordinal);
        Assert.Contains($"/specimen/{pile.Code(1)}", again.Source, StringComparison.Ordinal);
        var taken = await scanner.ScanAsync(pile.Code(20), pile.Gatherings[0]);
        Assert.Contains("two sheets bear one number", taken.Source, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
        Assert.Equal(1, await server.InRegisterAsync(db => db.Set<SeriesEntry>()
            .CountAsync(e => e.SeriesId == pile.SeriesId && e.Kind == SeriesEntryKind.WentBehindTakenOver)));

        // A slip of the pen does not use the series up.
        var slip = await TakenOver.ReceiveAsync(
            server, curator, $"Slip {pile.Prefix}", [TakenOver.Row(pile.Code(9_999_999), 1)]);
        var refused = await curator.SubmitAsync(
            await curator.GetPageAsync($"{slip.Address.AbsolutePath}/take-over"), "main form");
        Assert.Contains("more than a million numbers ahead", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.Empty(await TakenOver.SheetsAsync(server, $"Slip {pile.Prefix}"));
    }

    [Fact]
    public async Task A_scan_that_may_be_a_number_from_before_or_one_of_ours_is_asked_about()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(
            server, curator, "Collector,Number,Date,Species,Sheets\nTam Brandt,7,2021-06-03,Carex hirta L.,9");
        await Bench.RegisterRollAsync(curator, pile.Prefix, 7_654_300, 7_654_399);
        await TakenOver.TakeAsync(server, curator, $"Digits {pile.Prefix}",
            [TakenOver.Row("7654321", 1), TakenOver.Row($"{pile.Prefix[..4]}.a", 2), TakenOver.Row($"{pile.Prefix[..4]}.a", 3)]);
        using var scanner = await new Scanner(await server.SignInAsync(Role.Technician), pile).OpenAsync();

        var digits = await scanner.ScanAsync("7654321", pile.Gatherings[0]);
        // Where just one series has numbers of that width it asks for the letters; otherwise it is no number of ours.
        Assert.Contains("taken over", digits.Source, StringComparison.Ordinal);
        Assert.Equal(0, await server.InRegisterAsync(
            db => db.Specimens.CountAsync(s => s.GatheringId == pile.Gatherings[0])));
        Assert.Contains("is on the sheet", (await scanner.ScanAsync(pile.Code(7_654_321), pile.Gatherings[0])).Text, StringComparison.Ordinal);
        // Where several sheets bear what was scanned, they are named.
        var both = await scanner.ScanAsync($"{pile.Prefix[..4]}.a", pile.Gatherings[0]);
        Assert.Equal(HttpStatusCode.Conflict, both.Status);
        Assert.Matches("sheet 1: Ada Quill.* 2 Poa annua L\\.; sheet 2: Ada Quill.* 3 Poa annua L\\.", both.Text);
        Assert.Contains($"/specimen/{pile.Prefix[..4]}.a", both.Source, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_series_that_begins_later_issues_none_of_the_numbers_that_came()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, TakenOver.Prefix());
        var prefix = TakenOver.Prefix();
        await TakenOver.TakeAsync(server, curator, $"Before {prefix}",
            [TakenOver.Row($"{prefix}0000002", 1), TakenOver.Row($"{prefix}0000002", 2), TakenOver.Row($"{prefix}0000009", 3)]);
        await Bench.BeginSeriesAsync(curator, prefix);

        var next = await server.InRegisterAsync(db => db.Series.Where(s => s.PatternText == prefix + "0000000")
            .Select(s => s.Next).SingleAsync());
        Assert.Equal(10, next);
        Assert.Equal([$"{prefix}0000002", $"{prefix}0000002/1", $"{prefix}0000009"],
            await TakenOver.SheetsAsync(server, $"Before {prefix}"));
        Assert.Empty(await Pile.VerifyAsync(server));
        Assert.Equal(HttpStatusCode.OK, (await curator.GetPageAsync($"/specimen/{prefix}0000002/sheet/2")).Status);
    }

    [Fact]
    public async Task A_number_that_is_void_here_holds_up_its_own_sheet_only()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var prefix = TakenOver.Prefix();
        await Bench.BeginSeriesAsync(curator, prefix);
        await Bench.RegisterRollAsync(curator, prefix, 1, 10);
        await curator.SubmitAsync(await curator.GetPageAsync("/numbers"), "form[action$='handler=Void']",
            [("first", $"{prefix}0000004"), ("reason", "torn")]);
        var batch = await TakenOver.TakeAsync(server, curator, $"Void {prefix}",
            [TakenOver.Row($"{prefix}0000003", 1), TakenOver.Row($"{prefix}0000004", 2)]);

        Assert.Equal([$"{prefix}0000003"], await TakenOver.SheetsAsync(server, $"Void {prefix}"));
        var open = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/rows?show=open");
        Assert.Contains($"{prefix}0000004 is void here (torn", open.Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));

        // Taken as written while it is void, it stays open; once the void is taken back, it goes in.
        await curator.SubmitAsync(open, "main form[method=post]", press: "button[name=every]");
        await TakenOver.TakeAsync(server, curator, batch);
        Assert.Single(await TakenOver.SheetsAsync(server, $"Void {prefix}"));
        await curator.SubmitAsync(
            await curator.GetPageAsync("/numbers"), "form[action$='handler=Back']", [("why", "the sheet was found")]);
        await curator.SubmitAsync(
            await curator.GetPageAsync($"{batch.Address.AbsolutePath}/rows?show=open"), "main form[method=post]",
            press: "button[name=every]");
        await TakenOver.TakeAsync(server, curator, batch);
        Assert.Equal([$"{prefix}0000003", $"{prefix}0000004"], await TakenOver.SheetsAsync(server, $"Void {prefix}"));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Theory]
    [InlineData("", "has no number in this list")]
    [InlineData("LONG", "has 300 characters, and 40 are the most")]
    [InlineData("Q-1\nQ-2", "There is a line break in the number")]
    [InlineData("Q-\t1", "There is a character in the number that cannot be seen")]
    [InlineData("Q\u200b12", "There is a character in the number that cannot be seen")]
    [InlineData("--", "There is no letter and no digit in the number")]
    public async Task A_number_that_cannot_be_kept_leaves_its_row_open_and_the_sheet_can_be_numbered_by_hand(
        string number, string reason)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, TakenOver.Prefix());
        var source = $"Odd {Guid.NewGuid():N}";
        var good = $"Good {source[^6..]}";
        var batch = await TakenOver.ReceiveAsync(server, curator, source,
            [TakenOver.Row(number == "LONG" ? new('9', 300) : number, 1), TakenOver.Row(good, 2)]);
        var open = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/rows?show=open");
        Assert.Contains(reason, open.Text, StringComparison.Ordinal);
        batch = await TakenOver.TakeAsync(server, curator, batch);
        Assert.Equal([good], await TakenOver.SheetsAsync(server, source));

        await curator.SubmitAsync(open, "main form[method=post]", press: "button[name=every]");
        var check = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-over");
        Assert.Contains("1 sheet has no number in the list, and waits to be numbered by hand", check.Text, StringComparison.Ordinal);
        batch = await TakenOver.TakeAsync(server, curator, batch);
        Assert.Equal([good], await TakenOver.SheetsAsync(server, source));
        Assert.Contains("1 sheets wait", batch.Text, StringComparison.Ordinal);
        var bench = await curator.GetPageAsync(batch.One(".page-head a.act:not(.second)").GetAttribute("href")!);
        Assert.Contains("Field 1", bench.Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task The_list_sent_again_or_corrected_takes_nothing_over_twice()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, TakenOver.Prefix());
        var source = $"Again {Guid.NewGuid():N}";
        string[] rows = [.. Enumerable.Range(1, 6).Select(n => TakenOver.Row($"{source[^5..]}.{(n == 6 ? 5 : n)}", n))];
        var batch = await TakenOver.TakeAsync(server, curator, source, rows);
        var sheets = await TakenOver.SheetsAsync(server, source);
        Assert.Equal(6, sheets.Count);

        // Re-sorted; then with one place and one collector's number corrected, one row gone and one added.
        await TakenOver.ReceiveAsync(server, curator, source, rows.Reverse());
        batch = await curator.GetPageAsync(batch.Address.AbsolutePath);
        Assert.Equal(("6", "0", "0", "0"), Compared(batch));
        Assert.DoesNotContain("take-over", batch.Source, StringComparison.Ordinal);
        string[] corrected =
        [
            rows[0].Replace("Field 1", "Field One", StringComparison.Ordinal),
            rows[1].Replace(",2,", ",22,", StringComparison.Ordinal), rows[2], rows[4], rows[5],
            TakenOver.Row($"{source[^5..]}.7", 7),
        ];
        var page = await curator.GetPageAsync(batch.Address.AbsolutePath);
        Assert.Empty((await curator.SubmitAsync(page, "form[action$='handler=Again']", [],
            [new Upload("File", "corrected.csv", Encoding.UTF8.GetBytes(TakenOver.Headings + string.Join('\n', corrected)))])).Refusals);
        await server.WaitForWorkAsync();
        batch = await curator.GetPageAsync(batch.Address.AbsolutePath);
        Assert.Equal(("3", "2", "1", "1"), Compared(batch));
        await TakenOver.TakeAsync(server, curator, batch);
        Assert.Equal([.. sheets, $"{source[^5..]}.7"], await TakenOver.SheetsAsync(server, source));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task What_was_said_of_the_sheets_can_be_said_otherwise_before_any_is_in()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, TakenOver.Prefix());
        var source = $"Said {Guid.NewGuid():N}";
        var batch = await Bench.ReceiveAsync(server, curator, source, "list.csv",
            Encoding.UTF8.GetBytes(TakenOver.Headings + TakenOver.Row($"{source[^6..]}-1", 1)));
        var path = batch.Address.AbsolutePath;
        Assert.Contains("get their numbers here", batch.Text, StringComparison.Ordinal);
        Assert.Equal("otherCatalogNumbers", await MeaningAsync());
        await curator.SubmitAsync(batch, "form[action$='handler=Numbers']");
        await server.WaitForWorkAsync();
        Assert.Equal("catalogNumber", await MeaningAsync());
        Assert.EndsWith("/take-over", (await curator.GetPageAsync($"{path}/take-in")).Location, StringComparison.Ordinal);
        batch = await TakenOver.TakeAsync(server, curator, await curator.GetPageAsync(path));
        Assert.Empty(batch.All("form[action$='handler=Numbers']"));
        Assert.Equal([$"{source[^6..]}-1"], await TakenOver.SheetsAsync(server, source));

        async Task<string?> MeaningAsync() =>
            (await curator.GetPageAsync($"{path}/columns")).One("#c0 option[selected]").GetAttribute("value");
    }

    [Fact]
    public async Task The_acronym_of_another_herbarium_stays_with_the_number()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, TakenOver.Prefix());
        var mark = Guid.NewGuid().ToString("N")[..6];
        var batch = await Bench.ReceiveAsync(server, curator, $"Acronyms {mark}", "old.csv", Encoding.UTF8.GetBytes(
            $"institutionCode,catalogNumber,otherCatalogNumbers,recordedBy,recordNumber\nOLD,{mark}1,B-7,Ada Quill,1\n"
            + $"TB,{mark}2,,Ada Quill,2\n"), carriesNumbers: true);
        await TakenOver.TakeAsync(server, curator, batch);
        Assert.Contains($"OLD:{mark}1 | B-7", (await curator.GetPageAsync($"/specimen/{mark}1")).Text, StringComparison.Ordinal);
        Assert.DoesNotContain("TB:", (await curator.GetPageAsync($"/specimen/{mark}2")).Text, StringComparison.Ordinal);
    }

    private static (string Unchanged, string Changed, string Added, string Withdrawn) Compared(Page batch)
    {
        string Of(string term) => batch.All("dl.facts dt").Single(dt => dt.TextContent == term)
            .NextElementSibling!.TextContent.Trim();
        return (Of("Unchanged"), Of("Changed"), Of("Added"), Of("Withdrawn"));
    }

    private Task<int> RepeatedAsync() => server.InRegisterAsync(db => db.Specimens.CountAsync(s => s.Repeat == 1));
}
