namespace Accession.Server.Tests.Ground;

/// <summary>What many tests do first: begin series, receive a list, take it in. All of it through the pages.</summary>
internal static class Bench
{
    public static async Task BeginSeriesAsync(Visitor curator, string prefix)
    {
        var page = await curator.GetPageAsync("/series");
        await curator.SubmitAsync(page, "form[action$='handler=Series']",
            [("seriesName", $"Sheets {prefix}"), ("use", "Specimens"), ("pattern", $"{prefix}0000000")]);
        // Another test of the class may have begun it already.
        var answer = await curator.SubmitAsync(page, "form[action$='handler=Series']",
            [("seriesName", "Accessions"), ("use", "Accessions"), ("pattern", "YYYY.0000")]);
        Assert.True(answer.Status is System.Net.HttpStatusCode.Found or System.Net.HttpStatusCode.Conflict, answer.Text);
        Assert.All(answer.Refusals, refusal => Assert.Contains("already", refusal, StringComparison.Ordinal));
    }

    public static async Task RegisterRollAsync(Visitor curator, string prefix, int first, int last)
    {
        var page = await curator.GetPageAsync("/series");
        var answer = await curator.SubmitAsync(page, "form[action$='handler=Roll']",
            [("rollName", $"Roll {prefix} {first}"), ("first", $"{prefix}{first:0000000}"), ("last", $"{prefix}{last:0000000}")]);
        Assert.Empty(answer.Refusals);
    }

    /// <summary>Receives a list, waits until it is read, and answers with the page of its batch.</summary>
    public static async Task<Page> ReceiveAsync(
        TestServer server, Visitor curator, string source, string fileName, byte[] bytes, bool carriesNumbers = false)
    {
        var receiving = await curator.GetPageAsync("/batches");
        var answer = await curator.SubmitAsync(
            receiving, "main form",
            [("SourceName", source), ("CarriesNumbers", carriesNumbers ? "true" : "false")],
            [new Upload("List", fileName, bytes)]);
        Assert.Empty(answer.Refusals);
        var batch = await curator.FollowAsync(answer);
        await server.WaitForWorkAsync();
        return await curator.FollowAsync(await curator.GetPageAsync(batch.Address.AbsolutePath));
    }

    /// <summary>The key of a series, as the bench page offers it.</summary>
    public static string SeriesId(Page bench, string prefix) => bench.All("form[action$='handler=Next']")
        .Single(form => form.TextContent.Contains(prefix, StringComparison.Ordinal))
        .QuerySelector("input[name=series]")!.GetAttribute("value")!;
}
