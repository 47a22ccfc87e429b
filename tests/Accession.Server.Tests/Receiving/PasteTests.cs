using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class PasteOnSqlite(ServerOnSqlite server) : PasteTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class PasteOnPostgreSql(ServerOnPostgreSql server)
    : PasteTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A block copied in a spreadsheet becomes a batch. People and places are invented.</summary>
public abstract class PasteTests(TestServer server)
{
    private const string Headings =
        "Collector\tNo.\tDate\tState\tCounty\tLocality\tHabitat\tLat\tLong\tElev (m)\tSpecies\tDet.\r\n";

    private static string Block(string collector, int rows = 200) => string.Concat(Enumerable.Range(1, rows).Select(i =>
        $"O. {collector}\t{i}\t2024-05-{(i % 28) + 1:00}\tOregon\tHarney\tMill lane, {i} m N\t\"wet\" meadow\t43.5\t"
        + $"-119.{i}\t{1200 + i}\tPoa secunda J.Presl\tB. Brask\r\n"));

    private static async Task<Page> LookAsync(Visitor curator, string source, string text, string? first = null)
    {
        List<(string, string)> fields = [("SourceName", source), ("Text", text)];
        if (first is not null)
        {
            fields.Add(("HasHeadings", first));
        }

        return await curator.SubmitAsync(await curator.GetPageAsync("/batches/paste"), "main form", [.. fields]);
    }

    private async Task<Page> ReceivedAsync(Visitor curator, Page answer)
    {
        Assert.Empty(answer.Refusals);
        var batch = await curator.FollowAsync(answer);
        await server.WaitForWorkAsync();
        return await curator.GetPageAsync(batch.Address.AbsolutePath);
    }

    private Task<(int Rows, string KeptAs)> ListAsync(string source) => server.InRegisterAsync(async db =>
    {
        var list = await db.Lists.SingleAsync(l => l.Batch.Source.Name == source);
        return (list.Counts.Rows, list.KeptAs);
    });

    [Fact]
    public async Task Two_hundred_rows_of_twelve_cells_are_seen_and_then_are_a_batch()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("paste");
        var text = Headings + Block(name);
        var seen = await LookAsync(curator, $"Paste {name}", text);

        Assert.Equal(HttpStatusCode.OK, seen.Status);
        Assert.Empty(seen.Refusals);
        Assert.Contains("200 rows of 12 columns", seen.Text, StringComparison.Ordinal);
        Assert.Equal("recordedBy", seen.One("#c0 option[selected]").GetAttribute("value"));
        Assert.Equal("yes", seen.One("input[name=HasHeadings][checked]").GetAttribute("value"));
        Assert.False(await server.InRegisterAsync(db => db.Sources.AnyAsync(s => s.Name == $"Paste {name}")));

        var batch = await ReceivedAsync(curator, await curator.SubmitAsync(seen, "main form"));
        Assert.Contains("pasted on ", batch.Text, StringComparison.Ordinal);
        var (rows, keptAs) = await ListAsync($"Paste {name}");
        Assert.Equal(200, rows);
        // To the letter, and nothing else.
        Assert.Equal(text, await File.ReadAllTextAsync(Path.Combine(server.Store.Folder, "lists", keptAs)));

        // Once more, it changes nothing.
        var again = await curator.SubmitAsync(await LookAsync(curator, $"Paste {name}", text), "main form");
        Assert.Equal(batch.Address.AbsolutePath, again.Location);
        Assert.Equal(1, await server.InRegisterAsync(db => db.Lists.CountAsync(
            l => l.Batch.Source.Name == $"Paste {name}")));
    }

    [Fact]
    public async Task Rows_without_headings_get_their_meanings_by_hand_and_these_are_remembered()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("paste-bare");
        var text = $"Oregon\tOregon\tO. {name}\t7\t1957-05-03\r\nOregon\tOregon\tO. {name}\t8\t1957-05-04\r\n";
        var seen = await LookAsync(curator, $"Bare {name}", text);
        Assert.Equal("no", seen.One("input[name=HasHeadings][checked]").GetAttribute("value"));
        Assert.Contains("2 rows of 5 columns", seen.Text, StringComparison.Ordinal);

        (string, string)[] chosen =
            [("Chosen[2]", "recordedBy"), ("Chosen[3]", "recordNumber"), ("Chosen[4]", "eventDate")];
        await ReceivedAsync(curator, await curator.SubmitAsync(seen, "main form", chosen));
        var read = await server.InRegisterAsync(db => db.Rows
            .Where(row => db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name == $"Bare {name}"))
            .OrderBy(row => row.Line).Select(row => new { row.Line, row.PairKey }).ToListAsync());
        Assert.Equal([2, 3], read.Select(row => row.Line));
        Assert.Contains("|7|", read[0].PairKey, StringComparison.Ordinal);

        var later = await LookAsync(curator, $"Bare {name}", text.Replace("\t8\t", "\t9\t", StringComparison.Ordinal));
        Assert.Equal("recordedBy", later.One("#c2 option[selected]").GetAttribute("value"));
    }

    [Fact]
    public async Task What_is_refused_comes_back_as_it_was_typed()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        await RefusedAsync(curator, "one word", "This is not a table");
        await RefusedAsync(curator, "  ", "Nothing was pasted.");
        await RefusedAsync(curator, "Number\tNumber\n1\t2\n", "more than once", "yes");
    }

    [Fact]
    public async Task Two_columns_of_one_meaning_are_refused_with_everything_still_there()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("paste-twice");
        var text = Headings + Block(name, 2);
        var seen = await LookAsync(curator, $"Twice {name}", text);
        var refused = await curator.SubmitAsync(seen, "main form", [("Chosen[5]", "recordedBy")]);

        Assert.Contains(
            "Two columns were given the meaning recordedBy", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.Equal(text.ReplaceLineEndings("\n"), refused.One("#Text").TextContent.ReplaceLineEndings("\n"));
        Assert.Equal("recordedBy", refused.One("#c5 option[selected]").GetAttribute("value"));
    }

    [Fact]
    public async Task Rows_that_were_changed_after_the_look_are_shown_once_more()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("paste-changed");
        var seen = await LookAsync(curator, $"Changed {name}", Headings + Block(name, 2));
        var answer = await curator.SubmitAsync(seen, "main form", [("Text", Headings + Block(name, 3))]);

        Assert.Contains("Look at them once more", Assert.Single(answer.Refusals), StringComparison.Ordinal);
        Assert.Contains("3 rows of 12 columns", answer.Text, StringComparison.Ordinal);
        await ReceivedAsync(curator, await curator.SubmitAsync(answer, "main form"));
        Assert.Equal(3, (await ListAsync($"Changed {name}")).Rows);
    }

    [Fact]
    public async Task A_form_that_is_sent_twice_makes_one_batch()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("paste-double");
        var seen = await LookAsync(curator, $"Double {name}", Headings + Block(name, 2));
        var answers = await Task.WhenAll(
            curator.SubmitAsync(seen, "main form"), curator.SubmitAsync(seen, "main form"));

        Assert.Equal(answers[0].Location, answers[1].Location);
        Assert.Equal(1, await server.InRegisterAsync(db => db.Batches.CountAsync(
            b => b.Source.Name == $"Double {name}")));
    }

    private static async Task RefusedAsync(Visitor curator, string text, string reason, string? first = null)
    {
        var refused = await LookAsync(curator, "Refused", text, first);
        Assert.Contains(reason, string.Join(' ', refused.Refusals), StringComparison.Ordinal);
        Assert.Equal(text, refused.One("#Text").TextContent.TrimStart('\n'));
        Assert.Equal("Refused", refused.One("#SourceName").GetAttribute("value"));
    }
}
