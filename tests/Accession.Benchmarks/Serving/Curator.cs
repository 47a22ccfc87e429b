using System.Net;
using System.Text.RegularExpressions;
using Accession.Core.Outcomes;
using Accession.Server.Administering;
using Accession.Server.Hosting;
using Accession.Storage.Accounts;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Benchmarks.Serving;

/// <summary>Somebody with an account in the invented register: what a page and a JSON door want to see.</summary>
/// <param name="Cookie">The header of a browser that has signed in.</param>
/// <param name="Token">The token of a program.</param>
internal sealed partial record Curator(string Cookie, string Token)
{
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
        return new(await SignInAsync(server, link, cancellation), made.Value.Secret!);
    }

    private static async Task<string> SignInAsync(Uri server, string link, CancellationToken cancellation)
    {
        using var handler = new HttpClientHandler { CookieContainer = new CookieContainer() };
        using var http = new HttpClient(handler) { BaseAddress = server };
        var page = await http.GetStringAsync(new Uri(link, UriKind.Relative), cancellation);
        using var form = new FormUrlEncodedContent(
            [KeyValuePair.Create("__RequestVerificationToken", FormToken().Match(page).Groups[1].Value)]);
        using var answer = await http.PostAsync(new Uri(link, UriKind.Relative), form, cancellation);
        answer.EnsureSuccessStatusCode();
        return handler.CookieContainer.GetCookieHeader(server);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex FormToken();
}
