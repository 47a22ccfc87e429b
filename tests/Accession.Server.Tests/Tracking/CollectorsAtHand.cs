using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;

namespace Accession.Server.Tests.Tracking;

/// <summary>What a curator says of collectors, through their pages.</summary>
internal static class CollectorsAtHand
{
    /// <summary>Puts a collector on record with the spellings; answers the address.</summary>
    public static async Task<string> OnRecordAsync(Visitor curator, string name, params string[] spellings)
    {
        var made = await curator.SubmitAsync(
            await curator.GetPageAsync("/collectors"), "form.form", [("Name", name)]);
        Assert.Empty(made.Refusals);
        return spellings is [] ? made.Location! : await KnowAsync(curator, made.Location!, spellings);
    }

    /// <summary>Ticks spellings that the page offers.</summary>
    public static async Task<string> KnowAsync(Visitor curator, string address, params string[] spellings)
    {
        foreach (var spelling in spellings)
        {
            // One family name after the other, as they stand under different ones.
            var page = await curator.GetPageAsync($"{address}?Family={Uri.EscapeDataString(spelling.Split(' ')[^1])}");
            var known = await curator.SubmitAsync(
                page, "form:has(input[name=spellings])", [("spellings", spelling)]);
            Assert.Empty(known.Refusals);
            Assert.NotNull(known.Location);
        }

        return address;
    }

    public static async Task<Page> StateYearsAsync(
        Visitor curator, string address, string first, string last, string how = "Obituary in the station's annals") =>
        await curator.SubmitAsync(
            await curator.GetPageAsync(address), "form[action$='handler=Years']",
            [("first", first), ("last", last), ("how", how)]);

    public static async Task<Newcomer> TiedAsync(TestServer server, Visitor curator, string address, string name)
    {
        var somebody = await Newcomers.LetInAsync(server, name, Role.Collector);
        var tied = await curator.SubmitAsync(
            await curator.GetPageAsync(address), "form[action$='handler=Tie']",
            [("account", somebody.Id), ("how", "handed the batch over in person")]);
        Assert.Empty(tied.Refusals);
        return somebody;
    }

    /// <summary>The numbers that a collector finds under "What I collected", the lowest first.</summary>
    public static async Task<IEnumerable<string>> NumbersOfAsync(Newcomer somebody) =>
        (await somebody.Visitor.GetPageAsync("/mine")).All("main tbody th").Select(cell => cell.TextContent).Order();

    /// <summary>Posts a form as it was when the page was opened, whatever the page would say now.</summary>
    public static async Task<Page> PostAsync(
        TestServer server, Visitor visitor, Page opened, string handler, params (string Name, string Value)[] fields)
    {
        var token = opened.All("input[name=__RequestVerificationToken]")[0].GetAttribute("value")!;
        using var form = new FormUrlEncodedContent(
            [.. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)), new("__RequestVerificationToken", token)]);
        var target = new Uri(server.Address, opened.Address.AbsolutePath + (handler.Length > 0 ? $"?handler={handler}" : ""));
        using var answer = await visitor.Http.PostAsync(target, form);
        Assert.NotEqual(HttpStatusCode.InternalServerError, answer.StatusCode);
        return await Page.ReadAsync(answer);
    }
}
