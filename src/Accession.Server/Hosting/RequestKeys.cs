using System.Collections.Concurrent;
using Accession.Core.Outcomes;
using Microsoft.AspNetCore.Http.Features;

namespace Accession.Server.Hosting;

/// <summary>
/// Every post at a JSON door comes under a key, so that it can be sent again without anything happening twice. What was
/// done under a key stands with its act in the register; only that a request is still under way is known to its process
/// alone: one that comes to another process meanwhile waits for the first and is answered alike.
/// </summary>
internal static class RequestKeys
{
    public const string Header = "Idempotency-Key";

    private const int MostCharacters = 80;
    private const long OrdinaryBody = 1024 * 1024;

    public static void UseRequestKeys(this IApplicationBuilder app)
    {
        var underWay = new ConcurrentDictionary<(string, string), bool>();
        app.Use((context, next) =>
            context.GetEndpoint()?.Metadata.GetMetadata<NeededRights>() is null ? next(context)
            : HttpMethods.IsPost(context.Request.Method) ? PostAsync(context, next, underWay)
            : GetAsync(context, next));
    }

    /// <summary>Who asks at a JSON door, under which key, and for what. The body must have been read.</summary>
    public static async Task<Door> JsonDoorAsync(this HttpContext context) =>
        context.Features.Get<SentBody>() is { } sent
            ? new(
                context.User.Bearer(), sent.Key,
                await sent.Body.OfRequestAsync(context.Request, context.RequestAborted))
            : throw new InvalidOperationException("Only a post at a JSON door has a key.");

    private static Task GetAsync(HttpContext context, RequestDelegate next)
    {
        context.Response.Headers.CacheControl = "no-store";
        return next(context);
    }

    private static async Task PostAsync(
        HttpContext context, RequestDelegate next, ConcurrentDictionary<(string, string), bool> underWay)
    {
        context.Response.Headers.CacheControl = "no-store";
        var key = context.Request.Headers[Header].ToString();
        if (key.Length is 0 or > MostCharacters || key.Any(c => c is < ' ' or > '~'))
        {
            await context.WriteProblemAsync(Problem.Of(400,
                $"Send the header {Header}: a text of your own, at most {MostCharacters} characters, another one for "
                + "each request and the same when one is sent again. Nothing was done."));
            return;
        }

        var request = (context.User.Bearer().Id!, key);
        if (!underWay.TryAdd(request, true))
        {
            context.Response.Headers.RetryAfter = "1";
            await context.WriteProblemAsync(Problem.Of(409,
                "The first request under this Idempotency-Key is still under way. Wait a second, then send it again "
                + "to hear its answer."));
            return;
        }

        try
        {
            await using var body = new DigestedBody(context.Request.Body);
            var limit = context.Features.Get<IHttpMaxRequestBodySizeFeature>();
            if (limit is { IsReadOnly: false } && context.GetEndpoint()!.Metadata.GetMetadata<TakesFile>() is null)
            {
                limit.MaxRequestBodySize = OrdinaryBody;
            }

            context.Features.Set(new SentBody(key, body));
            context.Request.Body = body;
            await next(context);
        }
        finally
        {
            underWay.TryRemove(request, out _);
        }
    }

    private sealed record SentBody(string Key, DigestedBody Body);
}

/// <summary>A door that takes a whole file as its body, as large as the settings allow.</summary>
internal sealed record TakesFile;
