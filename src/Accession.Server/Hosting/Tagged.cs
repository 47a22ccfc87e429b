using System.Reflection;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.Net.Http.Headers;

namespace Accession.Server.Hosting;

/// <summary>
/// One thing, with its tag. The tag is the version of the thing, where it has one, and a hash of what is said of it: a
/// change is made only of the version that somebody saw, and nothing is sent again that says the same.
/// </summary>
internal sealed class Tagged<T>(T value, Guid? version = null) : IResult, IEndpointMetadataProvider
{
    private const int HashLetters = 16;

    public async Task ExecuteAsync(HttpContext httpContext)
    {
        var body = JsonSerializer.SerializeToUtf8Bytes(value, ApiJson.Options);
        var hash = HashOf(body);
        var tag = new EntityTagHeaderValue(version is null ? $"\"{hash}\"" : $"\"{version:N}-{hash}\"");
        var response = httpContext.Response;
        response.Headers.ETag = tag.ToString();
        response.Headers.CacheControl = "private, no-cache";
        if (httpContext.Request.GetTypedHeaders().IfNoneMatch.Any(
            seen => seen.Compare(tag, useStrongComparison: false) || seen == EntityTagHeaderValue.Any))
        {
            response.StatusCode = StatusCodes.Status304NotModified;
            return;
        }

        response.ContentType = "application/json; charset=utf-8";
        response.ContentLength = body.Length;
        await response.Body.WriteAsync(body, httpContext.RequestAborted);
    }

    /// <summary>The tag of a thing without a version: a hash of all that is said of it.</summary>
    public static EntityTagHeaderValue TagOf(T value) => new(
        $"\"{HashOf(JsonSerializer.SerializeToUtf8Bytes(value, ApiJson.Options))}\"");

    private static string HashOf(byte[] body) => Convert.ToHexStringLower(SHA256.HashData(body))[..HashLetters];

    public static void PopulateMetadata(MethodInfo method, EndpointBuilder builder)
    {
        builder.Metadata.Add(new ProducesResponseTypeMetadata(200, typeof(T), ["application/json"]));
        builder.Metadata.Add(new ProducesResponseTypeMetadata(304));
        builder.Metadata.Add(new GivesTag());
    }
}

/// <summary>A door that gives a tag with its answer.</summary>
internal sealed record GivesTag;
