namespace Accession.Server.Hosting;

/// <summary>No page asks anything of a third party, and the browser is told so.</summary>
internal static class SecurityHeaders
{
    private const string Policy =
        "default-src 'self'; img-src 'self' data:; frame-ancestors 'none'; base-uri 'self'; form-action 'self'; "
        + "object-src 'none'";

    public static void UseSecurityHeaders(this IApplicationBuilder app) => app.Use((context, next) =>
    {
        var headers = context.Response.Headers;
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin";
        return next(context);
    });
}
