using System.Text;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

/// <summary>Holdings that come with their numbers, received and taken over through the pages.</summary>
internal static class TakenOver
{
    // Invented people and places.
    public const string Headings = "Catalog number,Collector,Number,Date,Species,Locality\n";

    /// <summary>A row of a sheet that bears this number.</summary>
    public static string Row(string number, int n) =>
        $"\"{number.Replace("\"", "\"\"", StringComparison.Ordinal)}\",Ada Quill {n / 1000},{n},1931-05-{(n % 28) + 1:00},"
        + $"Poa annua L.,Field {n}";

    public static Task<Page> ReceiveAsync(
        TestServer server, Visitor curator, string source, IEnumerable<string> rows, string file = "holdings.csv") =>
        Bench.ReceiveAsync(
            server, curator, source, file, Encoding.UTF8.GetBytes(Headings + string.Join('\n', rows)),
            carriesNumbers: true);

    /// <summary>Takes a received batch over and waits until all of it is in; answers with the page of the batch.</summary>
    public static async Task<Page> TakeAsync(TestServer server, Visitor curator, Page batch)
    {
        var page = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-over");
        var answer = await curator.SubmitAsync(page, "main form");
        Assert.Empty(answer.Refusals);
        await server.WaitForWorkAsync();
        return await curator.GetPageAsync(batch.Address.AbsolutePath);
    }

    public static async Task<Page> TakeAsync(
        TestServer server, Visitor curator, string source, IEnumerable<string> rows) =>
        await TakeAsync(server, curator, await ReceiveAsync(server, curator, source, rows));

    /// <summary>The sheets of a source in the order in which they came: number and which of those that bear it.</summary>
    public static Task<List<string>> SheetsAsync(TestServer server, string source) => server.InRegisterAsync(db => db
        .Specimens.Where(s => db.Batches.Any(b => b.Source.Name == source
            && db.Accessions.Any(lot => lot.BatchId == b.Id && lot.Id == s.Gathering.AccessionId)))
        .OrderBy(s => s.Id).Select(s => s.CatalogNumber + (s.Repeat > 0 ? "/" + s.Repeat : "")).ToListAsync());

    public static string Prefix() => $"Q{Guid.NewGuid():N}"[..7].ToUpperInvariant().Replace('0', 'X') + "-H";
}
