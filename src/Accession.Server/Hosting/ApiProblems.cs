using System.Diagnostics;
using System.Text.Json;

namespace Accession.Server.Hosting;

/// <summary>
/// Whatever goes wrong at a JSON door is answered in problem details: what a rule said, what the framework says with a
/// number alone, and a defect with a reference that stands in the log.
/// </summary>
internal static partial class ApiProblems
{
    public static void UseApiProblems(this IApplicationBuilder app) => app.Use((context, next) =>
        context.IsAtJsonDoor() ? AnswerAsync(context, next) : next(context));

    /// <summary>Answers with a problem.</summary>
    public static Task WriteProblemAsync(this HttpContext context, Problem problem)
    {
        context.Response.StatusCode = problem.Status;
        context.Response.Headers.CacheControl = "no-store";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        return context.Response.WriteAsJsonAsync(
            problem, ApiJson.Options, Problem.MediaType, context.RequestAborted);
    }

    private static async Task AnswerAsync(HttpContext context, RequestDelegate next)
    {
        try
        {
            await next(context);
        }
        catch (BadHttpRequestException bad) when (!context.Response.HasStarted)
        {
            await context.WriteProblemAsync(ProblemOf(bad));
            return;
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            return;
        }
#pragma warning disable CA1031 // Whatever it is, a program gets an answer that it can read, and the log has it all.
        catch (Exception defect) when (!context.Response.HasStarted)
#pragma warning restore CA1031
        {
            var reference = Activity.Current?.TraceId.ToString() ?? context.TraceIdentifier;
            WentWrong(
                context.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger(typeof(ApiProblems)),
                context.Request.Method, reference, defect);
            context.Response.Clear();
            await context.WriteProblemAsync(Problem.Of(500) with { Reference = reference });
            return;
        }

        var response = context.Response;
        if (response is { HasStarted: false, StatusCode: >= 400, ContentLength: null, ContentType: null })
        {
            await context.WriteProblemAsync(Problem.Of(response.StatusCode, response.StatusCode == 413
                ? "What was sent is too large. Nothing of it was kept. Split the list, or ask an administrator to "
                    + "raise Receiving:MaximumFileMegabytes."
                : null));
        }
    }

    private static Problem ProblemOf(BadHttpRequestException bad)
    {
        if (bad.InnerException is not JsonException json)
        {
            return Problem.Of(bad.StatusCode, bad.StatusCode == 400 && bad.Message.Contains('"')
                ? $"Something in the address or its headers cannot be read: {Quoted(bad.Message)}."
                : null);
        }

        var pointer = Pointer(json.Path);
        var detail = json.LineNumber is { } line && json.BytePositionInLine is { } column
            ? $"The JSON cannot be read at line {line + 1}, byte {column + 1}"
            : "The JSON cannot be read";
        detail += pointer is null ? ". Nothing was done." : $", in {pointer}. Nothing was done.";
        return Problem.Of(bad.StatusCode, detail, [new(detail, pointer)]);
    }

    // "Failed to bind parameter "long id" from "x"." is for programmers; what stands in it is what was sent.
    private static string Quoted(string message) => message[message.IndexOf('"', StringComparison.Ordinal)..].Trim('.');

    // $.rows[2].reason is /rows/2/reason.
    private static string? Pointer(string? path) => path is null or "$" or ""
        ? null
        : path.TrimStart('$').Replace("['", "/", StringComparison.Ordinal).Replace("']", "", StringComparison.Ordinal)
            .Replace('.', '/').Replace('[', '/').Replace("]", "", StringComparison.Ordinal);

    [LoggerMessage(LogLevel.Error, "A {Method} at a JSON door went wrong; the reference is {Reference}.")]
    private static partial void WentWrong(ILogger log, string method, string reference, Exception defect);
}
