using System.Security.Cryptography;
using Scalar.AspNetCore;

namespace Accession.Server.Hosting;

/// <summary>What all JSON doors have in common, and the page that shows them.</summary>
internal static class ApiSetup
{
    /// <summary>Where the description of all doors is.</summary>
    public const string DocumentAddress = "/api/openapi.json";

    public static IServiceCollection AddApi(this IServiceCollection services)
    {
        services.AddTokenAccess();
        services.AddSingleton<Cursors>();
        services.ConfigureHttpJsonOptions(json => ApiJson.Use(json.SerializerOptions));
        // What cannot be bound is told like everything else, and not with a number alone.
        services.Configure<RouteHandlerOptions>(routes => routes.ThrowOnBadRequest = true);
        services.AddOpenApi("v1", ApiDocument.Describe);
        return services;
    }

    /// <summary>The description, and a page that shows it; neither tells anything of what the register holds.</summary>
    public static void MapApiDocument(this IEndpointRouteBuilder app)
    {
        app.MapOpenApi(DocumentAddress).AllowAnonymous();
        app.MapScalarApiReference("/api", (scalar, context) =>
        {
            var nonce = Convert.ToBase64String(RandomNumberGenerator.GetBytes(18));
            // The page builds itself with styles of its own; it loads nothing that does not come from here.
            context.Response.Headers.ContentSecurityPolicy =
                $"default-src 'self'; script-src 'self' 'nonce-{nonce}'; style-src 'self' 'unsafe-inline'; "
                + "img-src 'self' data:; font-src 'self' data:; frame-ancestors 'none'; base-uri 'self'; "
                + "form-action 'self'; object-src 'none'";
            scalar.Title = "JSON doors";
            scalar.OpenApiRoutePattern = DocumentAddress;
            scalar.DefaultFonts = false;
            scalar.Telemetry = false;
            scalar.ShowDeveloperTools = DeveloperToolsVisibility.Never;
            scalar.WithNonce(nonce).DisableAgent().DisableMcp().HideClientButton();
            scalar.AddPreferredSecuritySchemes([ApiDocument.Token]);
        }).AllowAnonymous();
    }
}
