using System.Text;
using Accession.Server.Tests.Ground;
using Accession.Storage.Verifying;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Numbering;

/// <summary>An accession whose sheets can be numbered, brought about through the pages.</summary>
internal sealed record Pile(string Accession, string Prefix, string BatchPath, long SeriesId, IReadOnlyList<long> Gatherings)
{
    public static Task<Pile> TakeInAsync(TestServer server, Visitor curator, string list) =>
        TakeInAsync(server, curator, "list.csv", Encoding.UTF8.GetBytes(list));

    public static async Task<Pile> TakeInAsync(TestServer server, Visitor curator, string fileName, byte[] file)
    {
        var prefix = $"P{Guid.NewGuid():N}"[..6].ToUpperInvariant().Replace('0', 'X') + "K";
        await Bench.BeginSeriesAsync(curator, prefix);
        var batch = await Bench.ReceiveAsync(server, curator, $"Source {prefix}", fileName, file);
        var takeIn = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-in");
        var promised = System.Text.RegularExpressions.Regex.Match(
            (await curator.SubmitAsync(takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", "9999999")])).Refusals[0],
            "promises ([0-9]+) sheets").Groups[1].Value;
        var accepted = await curator.SubmitAsync(takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", promised)]);
        Assert.Empty(accepted.Refusals);
        var taken = await curator.FollowAsync(accepted);
        await server.WaitForWorkAsync();
        taken = await curator.GetPageAsync(taken.Address.AbsolutePath);
        var accession = taken.One("dd a.code").TextContent;
        var gatherings = await server.InRegisterAsync(db => db.Gatherings
            .Where(g => db.Accessions.Any(lot => lot.Id == g.AccessionId && lot.Number == accession))
            .OrderBy(g => g.Id).Select(g => g.Id).ToListAsync());
        var series = await server.InRegisterAsync(db => db.Series
            .Where(s => s.PatternText == prefix + "0000000").Select(s => s.Id).SingleAsync());
        return new(accession, prefix, batch.Address.AbsolutePath, series, gatherings);
    }

    public string Code(long number) => $"{Prefix}{number:0000000}";

    public static Task<List<Disagreement>> VerifyAsync(TestServer server) =>
        server.RunAsync<VerifyRegister, List<Disagreement>>(async verify =>
        {
            List<Disagreement> found = [];
            await foreach (var wrong in verify.RunAsync(_ => { }, CancellationToken.None))
            {
                found.Add(wrong);
            }

            return found;
        });
}

/// <summary>Somebody who scans at the bench as the script does: fragments are asked for, each request has its key.</summary>
internal sealed class Scanner(Visitor visitor, Pile pile) : IDisposable
{
    private string? _token;

    public Task<Page> ScanAsync(string code, long? gathering, string? key = null) =>
        PostAsync("", [("code", code), ("gathering", $"{gathering}")], key);

    public Task<Page> NextAsync(long gathering, string? key = null, long? series = null) =>
        PostAsync("?handler=Next", [("gathering", $"{gathering}"), ("series", $"{series ?? pile.SeriesId}")], key);

    public Task<Page> ExtraAsync(long gathering) => PostAsync("?handler=Extra", [("gathering", $"{gathering}")], null);

    public static string Said(Page fragment) => fragment.One("li.scan").OuterHtml;

    public void Dispose() => visitor.Dispose();

    /// <summary>Opens the bench; two first requests at once would each bring a cookie for the form.</summary>
    public async Task<Scanner> OpenAsync()
    {
        var bench = await visitor.GetPageAsync($"/accession/{pile.Accession}/numbering");
        _token = bench.All("input[name=__RequestVerificationToken]")[0].GetAttribute("value");
        return this;
    }

    private async Task<Page> PostAsync(string query, (string Name, string Value)[] fields, string? key)
    {
        var path = $"/accession/{pile.Accession}/numbering";
        if (_token is null)
        {
            await OpenAsync();
        }

        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(visitor.Http.BaseAddress!, path + query))
        {
            Content = new FormUrlEncodedContent(
                [.. fields.Select(field => KeyValuePair.Create(field.Name, field.Value)), new("__RequestVerificationToken", _token!)]),
        };
        request.Headers.Add("X-Scan", "1");
        request.Headers.Add("X-Request-Key", key ?? Guid.NewGuid().ToString());
        using var answer = await visitor.Http.SendAsync(request);
        return await Page.ReadAsync(answer);
    }
}
