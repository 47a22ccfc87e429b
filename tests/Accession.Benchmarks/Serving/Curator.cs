using System.Net;
using System.Text.RegularExpressions;
using Accession.Core.Outcomes;
using Accession.Server.Administering;
using Accession.Server.Hosting;
using Accession.Storage.Accounts;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Benchmarks.Serving;

/// <summary>Somebody with an account in the invented register: what a page and a JSON door want to see.</summary>
internal sealed partial class Curator : IDisposable
{
    private readonly CookieContainer _cookies = new();
    private readonly HttpClient _browser;

    private Curator(Uri server, string token)
    {
        _browser = new(new HttpClientHandler { CookieContainer = _cookies }) { BaseAddress = server };
        Token = token;
    }

    /// <summary>The token of a program.</summary>
    public string Token { get; }

    /// <summary>Makes the account and a token of its own; signs in at a running server with a link.</summary>
    public static async Task<Curator> ComeInAsync(Holdings holdings, Uri server, CancellationToken cancellation)
    {
        await using var app = AccessionServer.Build(holdings.Program);
        await using var scope = app.Services.CreateAsyncScope();
        var people = scope.ServiceProvider.GetRequiredService<People>();
        var account = await people.EnsureAsync("benchmark", "Bea Enchmark", Role.Curator);
        var link = await people.MakeLinkAsync(account, TimeSpan.FromHours(1), cancellation);
        var made = await scope.ServiceProvider.GetRequiredService<MakeToken>().RunAsync(
            new("benchmark", false, [Right.ReadRegister], 1),
            new Door(new Actor(account.Id, account.DisplayName, new HashSet<Role> { Role.Curator }), $"{Guid.NewGuid()}"),
            cancellation);
        var curator = new Curator(server, made.Value.Secret!);
        await curator.SignInAsync(link, cancellation);
        return curator;
    }

    /// <summary>
    /// The header of a browser that has looked at a page just now: whoever has not for a minute is asked about in the
    /// register and given a new cookie, which the tool that asks for the pages would not take.
    /// </summary>
    public async Task<string> CookieAsync(CancellationToken cancellation)
    {
        using var page = await _browser.GetAsync(new Uri("/", UriKind.Relative), cancellation);
        page.EnsureSuccessStatusCode();
        return _cookies.GetCookieHeader(_browser.BaseAddress!);
    }

    public void Dispose() => _browser.Dispose();

    private async Task SignInAsync(string link, CancellationToken cancellation)
    {
        var page = await _browser.GetStringAsync(new Uri(link, UriKind.Relative), cancellation);
        using var form = new FormUrlEncodedContent(
            [KeyValuePair.Create("__RequestVerificationToken", FormToken().Match(page).Groups[1].Value)]);
        using var answer = await _browser.PostAsync(new Uri(link, UriKind.Relative), form, cancellation);
        answer.EnsureSuccessStatusCode();
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex FormToken();
}
