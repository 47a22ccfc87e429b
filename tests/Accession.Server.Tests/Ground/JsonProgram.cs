using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Accession.Core.Outcomes;
using Accession.Server.Administering;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Ground;

/// <summary>What a program was answered.</summary>
internal sealed record JsonAnswer(
    HttpStatusCode Status, string? MediaType, JsonElement Body, string Text, HttpResponseHeaders Headers)
{
    public string? Tag => Headers.ETag?.ToString();

    /// <summary>The address of the next page; null on the last.</summary>
    public string? Next => Headers.TryGetValues("Link", out var links)
        ? links.Single().Split('>')[0].TrimStart('<')
        : null;

    public JsonElement[] Items => [.. Body.GetProperty("items").EnumerateArray()];

    public string Detail => Body.GetProperty("detail").GetString()!;
}

/// <summary>A program at the JSON doors: it bears a token, keeps no cookie, and follows nothing.</summary>
internal sealed class JsonProgram : IDisposable
{
    private readonly HttpClientHandler _handler = new() { AllowAutoRedirect = false, UseCookies = false };

    public JsonProgram(Uri address, string? token)
    {
        Http = new HttpClient(_handler) { BaseAddress = address, Timeout = TimeSpan.FromSeconds(100) };
        Token = token;
        if (token is not null)
        {
            Http.DefaultRequestHeaders.Authorization = new("Bearer", token);
        }
    }

    public HttpClient Http { get; }

    public string? Token { get; }

    public static string Key() => Guid.NewGuid().ToString("N");

    /// <summary>A device with these rights.</summary>
    public static async Task<JsonProgram> DeviceAsync(
        TestServer server, string name, IReadOnlyList<Right> rights, int days = 30) =>
        new(server.Address, await MadeAsync(server, new(name, true, rights, days), new Actor(
            "test", "Test Administrator", new HashSet<Role> { Role.Administrator })));

    /// <summary>A program of somebody who does this work.</summary>
    public static async Task<JsonProgram> OfPersonAsync(TestServer server, Role role, params Right[] rights)
    {
        (await server.SignInAsync(role)).Dispose();
        var name = TestServer.UserName(role);
        var id = await server.InRegisterAsync(db => db.Users.Where(user => user.UserName == name)
            .Select(user => user.Id).SingleAsync());
        return new(server.Address, await MadeAsync(
            server, new("test program", false, rights, 30),
            new Actor(id, TestServer.DisplayName(role), new HashSet<Role> { role })));
    }

    public Task<JsonAnswer> GetAsync(string path, string? ifNoneMatch = null)
    {
        var request = new HttpRequestMessage(HttpMethod.Get, path);
        if (ifNoneMatch is not null)
        {
            request.Headers.TryAddWithoutValidation("If-None-Match", ifNoneMatch);
        }

        return SendAsync(request);
    }

    public Task<JsonAnswer> PostAsync(string path, object? body, string? key = null, string? ifMatch = null) =>
        PostAsync(
            path, body is null ? null : new StringContent(
                JsonSerializer.Serialize(body, JsonSerializerOptions.Web), Encoding.UTF8, "application/json"),
            key ?? Key(), ifMatch);

    public async Task<JsonAnswer> PostAsync(string path, HttpContent? content, string? key, string? ifMatch = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = content };
        if (key is not null)
        {
            request.Headers.TryAddWithoutValidation("Idempotency-Key", key);
        }

        if (ifMatch is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        }

        return await SendAsync(request);
    }

    /// <summary>Sends a list as the body.</summary>
    public Task<JsonAnswer> SendListAsync(string source, string list, string? key = null) => PostAsync(
        $"/api/v1/batches?source={Uri.EscapeDataString(source)}&fileName=list.csv",
        new StringContent(list, Encoding.UTF8, "text/csv"), key ?? Key());

    public async Task<JsonAnswer> SendAsync(HttpRequestMessage request)
    {
        using var answer = await Http.SendAsync(request);
        var text = await answer.Content.ReadAsStringAsync();
        var media = answer.Content.Headers.ContentType?.MediaType;
        return new(
            answer.StatusCode, media,
            media?.EndsWith("json", StringComparison.Ordinal) == true
                ? JsonDocument.Parse(text).RootElement.Clone()
                : default,
            text, answer.Headers);
    }

    public void Dispose()
    {
        Http.Dispose();
        _handler.Dispose();
    }

    public static async Task<string> MadeAsync(TestServer server, MakeToken.Request request, Actor by)
    {
        var made = await server.RunAsync<MakeToken, Outcome<MakeToken.Made>>(
            make => make.RunAsync(request, new Door(by), CancellationToken.None));
        return made.Value.Secret!;
    }
}
