using Microsoft.AspNetCore.Diagnostics;

namespace Accession.Server.Hosting;

/// <summary>What went wrong, as a page with a number to read out: never a stack trace.</summary>
internal static class ErrorPages
{
    public static void UseErrorPages(this IApplicationBuilder app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            ExceptionHandlingPath = "/error",
            AllowStatusCode404Response = true,
            StatusCodeSelector = exception => exception is BadHttpRequestException bad
                ? bad.StatusCode
                : exception is InvalidDataException
                    && exception.Message.Contains("body length limit", StringComparison.Ordinal)
                    ? StatusCodes.Status413PayloadTooLarge
                    : StatusCodes.Status500InternalServerError,
        });
        app.UseStatusCodePagesWithReExecute("/error", "?status={0}");
        // Inside the pages' own, which find the answer written and leave it.
        app.UseApiProblems();
        app.Use(RefuseOversizedAsync);
    }

    public static void MapHealth(this IEndpointRouteBuilder app) =>
        app.MapHealthChecks("/health").AllowAnonymous();

    // Said before a byte of the body is read, so that nobody waits for two gigabytes to hear "no".
    private static Task RefuseOversizedAsync(HttpContext context, RequestDelegate next)
    {
        var limit = context.Features.Get<Microsoft.AspNetCore.Http.Features.IHttpMaxRequestBodySizeFeature>()
            ?.MaxRequestBodySize;
        if (limit is { } bytes && context.Request.ContentLength > bytes
            && context.Features.Get<IStatusCodeReExecuteFeature>() is null)
        {
            // The page that says so must not look for a form in the body.
            context.Request.Method = HttpMethods.Get;
            context.Request.ContentType = null;
            context.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
            context.Response.Headers.Connection = "close";
            return Task.CompletedTask;
        }

        return next(context);
    }
}
