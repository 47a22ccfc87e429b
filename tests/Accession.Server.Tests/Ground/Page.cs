using System.Net;
using System.Net.Http.Headers;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;

namespace Accession.Server.Tests.Ground;

/// <summary>An answer of the server, read as a browser reads it.</summary>
public sealed record Page(
    Uri Address, HttpStatusCode Status, HttpResponseHeaders Headers, string? Location, string Source, IHtmlDocument Html)
{
    /// <summary>What a person reads in the page proper, with single blanks.</summary>
    public string Text => Blanks(Html.QuerySelector("main") ?? (INode?)Html.Body);

    public string Heading => Blanks(Html.QuerySelector("h1"));

    /// <summary>The reasons why something was refused, as they stand above the form.</summary>
    public IReadOnlyList<string> Refusals => [.. All(".problems[role=alert] li").Select(Blanks)];

    public IReadOnlyList<IElement> All(string selector) => [.. Html.QuerySelectorAll(selector)];

    /// <summary>The one element that a selector means; the page itself is shown when it is not there.</summary>
    public IElement One(string selector)
    {
        var found = All(selector);
        Assert.True(found.Count == 1, $"{found.Count} elements are \"{selector}\" on {Address} ({Status}):\n{Source}");
        return found[0];
    }

    public IHtmlFormElement Form(string selector)
    {
        var first = All(selector).OfType<IHtmlFormElement>().FirstOrDefault();
        Assert.True(first is not null, $"No form is \"{selector}\" on {Address} ({Status}):\n{Source}");
        return first;
    }

    internal static async Task<Page> ReadAsync(HttpResponseMessage answer)
    {
        var source = await answer.Content.ReadAsStringAsync();
        var html = await new HtmlParser().ParseDocumentAsync(source);
        return new Page(
            answer.RequestMessage!.RequestUri!, answer.StatusCode, answer.Headers,
            answer.Headers.Location?.OriginalString, source, html);
    }

    private static string Blanks(INode? node) =>
        string.Join(' ', (node?.TextContent ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
