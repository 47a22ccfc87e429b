namespace Accession.Server.Tests.Ground;

/// <summary>
/// Somebody who scans at a bench as the script does: each scan carries the fields as they stood when it was made, and a
/// badge sets one of them to the key of its own scan.
/// </summary>
internal sealed class ScanLine(Visitor visitor, string address)
{
    private string? _token;

    /// <summary>The badge that the scans name.</summary>
    public string Hands { get; set; } = "";

    /// <summary>What is done with the sheets.</summary>
    public string Doing { get; set; } = "";

    /// <summary>Further fields of the form.</summary>
    public IReadOnlyList<(string Name, string Value)> Fields { get; set; } = [];

    /// <summary>Scans a badge.</summary>
    public async Task<Page> BadgeAsync(string code)
    {
        Hands = Guid.NewGuid().ToString();
        return await ScanAsync(code, Hands);
    }

    public async Task<Page> ScanAsync(string code, string? key = null, TimeSpan age = default)
    {
        if (_token is null)
        {
            var page = await visitor.GetPageAsync(address);
            _token = page.One("form.scan-line input[name=__RequestVerificationToken]").GetAttribute("value")!;
        }

        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(visitor.Http.BaseAddress!, address))
        {
            Content = new FormUrlEncodedContent(
            [
                new("code", code), new("hands", Hands), new("doing", Doing), new("__RequestVerificationToken", _token),
                .. Fields.Select(field => KeyValuePair.Create(field.Name, field.Value)),
            ]),
        };
        request.Headers.Add("X-Scan", "1");
        request.Headers.Add("X-Request-Key", key ?? Guid.NewGuid().ToString());
        request.Headers.Add("X-Scan-Age", $"{(long)age.TotalMilliseconds}");
        using var answer = await visitor.Http.SendAsync(request);
        return await Page.ReadAsync(answer);
    }

    /// <summary>Scans what is to be done from now on.</summary>
    public Task<Page> DoAsync(string word)
    {
        Doing = word;
        return ScanAsync(word);
    }
}
