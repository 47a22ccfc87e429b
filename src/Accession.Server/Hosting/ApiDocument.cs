using System.Text.Json.Nodes;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace Accession.Server.Hosting;

/// <summary>What the description of the JSON doors says beside what the doors say themselves.</summary>
internal static class ApiDocument
{
    /// <summary>How programs come in.</summary>
    public const string Token = "token";

    public static void Describe(OpenApiOptions options)
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.ShouldInclude = door => door.RelativePath?.StartsWith("api/v1", StringComparison.Ordinal) == true;
        options.CreateSchemaReferenceId = NameOf;
        options.AddDocumentTransformer(DescribeAllAsync);
        options.AddOperationTransformer(DescribeDoorAsync);
    }

    // What an operation takes and answers is called after it; many of them have a Request.
    private static string? NameOf(System.Text.Json.Serialization.Metadata.JsonTypeInfo type)
    {
        var name = OpenApiOptions.CreateDefaultSchemaReferenceId(type);
        return name is not null && type.Type is { DeclaringType: { } within, IsGenericType: false }
            && !within.Name.EndsWith("Api", StringComparison.Ordinal)
            ? within.Name + type.Type.Name
            : name;
    }

    private static async Task DescribeAllAsync(
        OpenApiDocument document, OpenApiDocumentTransformerContext context, CancellationToken cancellation)
    {
        document.Info = new()
        {
            Title = "Accession",
            Version = "v1",
            Description = "The operations of the herbarium server for programs. Send a token with each request, an "
                + "Idempotency-Key with each POST, and If-Match where a thing is changed. Errors are problem details "
                + "(RFC 9457).",
        };
        // Where this server stands is no business of the description.
        document.Servers = [];
        document.Components ??= new();
        document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>
        {
            [Token] = new OpenApiSecurityScheme
            {
                Type = SecuritySchemeType.Http,
                Scheme = "bearer",
                Description = "A token of a person (My account, Programs) or of a device (made by an administrator).",
            },
        };
        document.Security = [new() { [new OpenApiSecuritySchemeReference(Token, document)] = [] }];
        document.AddComponent("Problem", await context.GetOrCreateSchemaAsync(typeof(Problem), null, cancellation));
    }

    private static Task DescribeDoorAsync(
        OpenApiOperation door, OpenApiOperationTransformerContext context, CancellationToken cancellation)
    {
        var metadata = context.Description.ActionDescriptor.EndpointMetadata;
        var rights = metadata.OfType<NeededRights>().LastOrDefault()?.AnyOf ?? [];
        door.Description = $"Right: {string.Join(" or ", rights.Select(Name))}. {door.Description}".Trim();
        var isPost = context.Description.HttpMethod == "POST";
        if (isPost)
        {
            AddHeader(door, RequestKeys.Header, true,
                "A text of your own, the same when the request is sent again.", "b7c1a0d2-list-1");
        }

        if (metadata.OfType<BodyExample>().LastOrDefault() is { } example
            && door.RequestBody?.Content?.TryGetValue("application/json", out var body) == true)
        {
            body.Example = JsonNode.Parse(example.Json);
        }

        if (metadata.OfType<AsksVersion>().LastOrDefault() is { } asks)
        {
            AddHeader(door, "If-Match", asks.IsAlways, "The ETag of what you saw.",
                "\"5f0c9b3c1f6e4c0f8f3f3b9f3c1d2e4a-0123456789abcdef\"");
        }

        if (metadata.OfType<GivesTag>().Any())
        {
            AddHeader(door, "If-None-Match", false, "The ETag of what you have: 304 when it is still so.", null);
        }

        door.Responses ??= [];
        foreach (var (status, says) in Problems(isPost, metadata.OfType<AsksVersion>().Any()))
        {
            door.Responses[status] = new OpenApiResponse
            {
                Description = says,
                Content = new Dictionary<string, OpenApiMediaType>
                {
                    [Problem.MediaType] = new OpenApiMediaType
                    {
                        Schema = new OpenApiSchemaReference("Problem", context.Document),
                    },
                },
            };
        }

        return Task.CompletedTask;
    }

    private static IEnumerable<(string Status, string Says)> Problems(bool isPost, bool asksVersion)
    {
        yield return ("400", "The request cannot be read.");
        yield return ("401", "No token that is in force.");
        yield return ("403", "The token has not the right.");
        yield return ("404", "Not there, or not yours to see.");
        if (isPost)
        {
            yield return ("409", "The state of the thing does not permit it now.");
            yield return ("413", "Too large.");
            yield return ("415", "Another kind of body is asked for.");
            yield return ("422", "The request cannot be right, or its key was used for another.");
        }

        if (asksVersion)
        {
            yield return ("412", "It was changed since you saw it.");
            yield return ("428", "If-Match is missing.");
        }

        yield return ("429", "Too many tokens that open nothing.");
        yield return ("500", "Something went wrong on our side.");
    }

    private static void AddHeader(
        OpenApiOperation door, string name, bool required, string says, string? example)
    {
        door.Parameters ??= [];
        door.Parameters.Add(new OpenApiParameter
        {
            Name = name,
            In = ParameterLocation.Header,
            Required = required,
            Description = says,
            Schema = new OpenApiSchema { Type = JsonSchemaType.String },
            Example = example,
        });
    }

    private static string Name(Right right) => right.ToString();
}

/// <summary>What is sent to a door, as an example.</summary>
internal sealed record BodyExample(string Json);
