using System.Text;
using Accession.Server.Mail;
using Accession.Server.Tests.Ground;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Mail;

/// <summary>A batch with number clashes, and the question to its collector, through the pages.</summary>
internal sealed class Questions(TestServer server, Visitor curator, string path, string name)
{
    public const string Heading = "Collector,Number,Date,State,County,Locality,Lat,Long,Species,Sheets\n";

    public string Findings => $"{path}/findings";

    /// <summary>Lines 3, 5 and so on clash with the line before each: one number, another day and another place.</summary>
    public static async Task<Questions> OfAsync(TestServer server, Visitor curator, string title, int clashes = 1)
    {
        var name = InventedNames.FamilyOf(title);
        // One collector's numbers on one day would be a run of their own, and nothing to ask.
        var rows = Enumerable.Range(1, clashes).Select(n => (Number: n, Family: InventedNames.FamilyOf($"{title} {n}")))
            .Select(pair => $"""
                J. R. {pair.Family},{800 + pair.Number},{1990 + pair.Number}-06-14,Oregon,Harney,Sage flat,43.{pair.Number}8,-119.05,Poa secunda J.Presl,1
                J. R. {pair.Family},{800 + pair.Number},{2010 + pair.Number}-05-02,Nevada,Elko,Spruce ridge,41.{pair.Number}2,-115.3,Poa secunda J.Presl,1
                """);
        var batch = await Bench.ReceiveAsync(
            server, curator, $"Source {name}", "list.csv", Encoding.UTF8.GetBytes(Heading + string.Join('\n', rows)));
        Assert.Contains($"{clashes} open", batch.Text, StringComparison.Ordinal);
        return new(server, curator, batch.Address.AbsolutePath, name);
    }

    public string Address => $"{name.ToLowerInvariant()}@collectors.example";

    /// <summary>The page on which the question about a line is written, by way of the finding's own page.</summary>
    public async Task<Page> DraftAsync(int line, Visitor? by = null, string show = "")
    {
        var page = await (by ?? curator).GetPageAsync($"{Findings}?after={line - 1}{show}");
        Assert.Contains($"Line {line}", page.One("#finding").TextContent, StringComparison.Ordinal);
        return await (by ?? curator).GetPageAsync(page.One("a[data-key=a]").GetAttribute("href")!);
    }

    public Task<Page> SendAsync(Page draft, Visitor? by = null, string? address = null, string? text = null)
    {
        List<(string, string)> fields = [("address", address ?? Address)];
        if (text is not null)
        {
            fields.Add(("text", text));
        }

        return (by ?? curator).SubmitAsync(draft, "form[action*='handler=Ask']", [.. fields]);
    }

    public async Task AskAsync(int line, string? address = null)
    {
        var sent = await SendAsync(await DraftAsync(line), address: address);
        Assert.Empty(sent.Refusals);
        Assert.NotNull(sent.Location);
    }

    /// <summary>The page of a line whose collector is asked.</summary>
    public async Task<Page> AskedAsync(int line)
    {
        var page = await curator.GetPageAsync($"{Findings}?show=asked&after={line - 1}");
        Assert.Contains($"Line {line}", page.One("#finding").TextContent, StringComparison.Ordinal);
        return page;
    }

    /// <summary>The letters about rows of the batch, the first first.</summary>
    public Task<List<ShownLetter>> LettersAsync() => server.InRegisterAsync(async db =>
    {
        var batch = long.Parse(path.Split('/')[^1], System.Globalization.CultureInfo.InvariantCulture);
        var rows = await db.Rows.Where(row => row.BatchId == batch).Select(row => row.Id).ToListAsync();
        return await ShownLetter.AboutAsync(db, rows, CancellationToken.None);
    });

    /// <summary>Waits until the letters of the batch are as they should be.</summary>
    public Task<List<ShownLetter>> UntilAsync(Func<List<ShownLetter>, bool> isSo) => UntilAsync(LettersAsync, isSo);

    public static async Task<List<T>> UntilAsync<T>(Func<Task<List<T>>> look, Func<List<T>, bool> isSo)
    {
        var until = TimeProvider.System.GetUtcNow() + TimeSpan.FromSeconds(120);
        while (true)
        {
            var found = await look();
            if (isSo(found))
            {
                return found;
            }

            Assert.True(TimeProvider.System.GetUtcNow() < until, string.Join("; ", found));
            await Task.Delay(TimeSpan.FromMilliseconds(50));
        }
    }
}
