using System.Net;
using AngleSharp.Html.Dom;

namespace Accession.Server.Tests.Ground;

/// <summary>A file that somebody picks in a form.</summary>
public sealed record Upload(string Field, string FileName, byte[] Bytes, string ContentType = "application/octet-stream");

/// <summary>
/// Somebody at a browser without script: reads pages, fills in the forms that stand there, keeps cookies. Answers are not
/// followed by themselves, so that a test sees each of them.
/// </summary>
public sealed class Visitor : IDisposable
{
    private const string SessionCookieName = "accession";

    private readonly HttpClientHandler _handler = new() { AllowAutoRedirect = false, UseCookies = true };

    internal Visitor(Uri address, params IEnumerable<Cookie?> kept)
    {
        Http = new HttpClient(_handler) { BaseAddress = address, Timeout = TimeSpan.FromSeconds(100) };
        foreach (var cookie in kept.OfType<Cookie>())
        {
            _handler.CookieContainer.Add(address, new Cookie(cookie.Name, cookie.Value, cookie.Path));
        }
    }

    /// <summary>The connection itself, with this visitor's cookies, for what is not a page.</summary>
    public HttpClient Http { get; }

    /// <summary>What shows that this visitor has signed in; null for a stranger.</summary>
    public Cookie? SessionCookie => Cookie(SessionCookieName);

    /// <summary>What this visitor's browser keeps for the program under a name; null when it keeps nothing.</summary>
    public Cookie? Cookie(string name) => _handler.CookieContainer.GetCookies(Http.BaseAddress!)[name];

    public async Task<Page> GetPageAsync(string path)
    {
        using var answer = await Http.GetAsync(new Uri(Http.BaseAddress!, path));
        return await Page.ReadAsync(answer);
    }

    /// <summary>Goes where the answer points, as often as it points on.</summary>
    public async Task<Page> FollowAsync(Page answer)
    {
        for (var hops = 0; answer.Location is { } location; hops++)
        {
            Assert.True(hops < 10, $"{location} leads round in a circle.");
            answer = await GetPageAsync(location);
        }

        return answer;
    }

    /// <summary>Opens a one-time link and presses its button.</summary>
    public async Task<Page> ComeInAsync(string link) =>
        await SubmitAsync(await GetPageAsync(link), "main form");

    /// <summary>
    /// Fills in a form and sends it as a browser would: with hidden fields, with what is chosen already, and only
    /// fields that the form really has. Fields that the test names replace those of the same name.
    /// </summary>
    public async Task<Page> SubmitAsync(
        Page page,
        string formSelector,
        (string Name, string Value)[]? fields = null,
        Upload[]? files = null,
        string? press = null)
    {
        var form = page.Form(formSelector);
        var button = press is null ? FormReading.FirstButton(form) : page.One(press);
        var target = new Uri(page.Address, button?.GetAttribute("formaction") ?? form.GetAttribute("action") ?? "");
        var values = FormReading.Values(form, button, fields ?? [], [.. (files ?? []).Select(file => file.Field)]);
        using var request = Request(form, target, values, files ?? []);
        using var answer = await Http.SendAsync(request);
        return await Page.ReadAsync(answer);
    }

    public void Dispose()
    {
        Http.Dispose();
        _handler.Dispose();
    }

    private static HttpRequestMessage Request(
        IHtmlFormElement form, Uri target, IReadOnlyList<KeyValuePair<string, string>> values, Upload[] files)
    {
        if (!string.Equals(form.Method, "post", StringComparison.OrdinalIgnoreCase))
        {
            using var query = new FormUrlEncodedContent(values);
            var text = new StreamReader(query.ReadAsStream()).ReadToEnd();
            return new HttpRequestMessage(HttpMethod.Get, new UriBuilder(target) { Query = text }.Uri);
        }

        return new HttpRequestMessage(HttpMethod.Post, target)
        {
            Content = form.Enctype == "multipart/form-data" ? Parts(values, files) : new FormUrlEncodedContent(values),
        };
    }

    private static MultipartFormDataContent Parts(IReadOnlyList<KeyValuePair<string, string>> values, Upload[] files)
    {
        var parts = new MultipartFormDataContent();
        foreach (var (name, value) in values)
        {
            parts.Add(new StringContent(value), name);
        }

        foreach (var file in files)
        {
            var content = new ByteArrayContent(file.Bytes);
            content.Headers.ContentType = new(file.ContentType);
            parts.Add(content, file.Field, file.FileName);
        }

        return parts;
    }
}
