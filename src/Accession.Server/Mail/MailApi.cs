using Accession.Server.Hosting;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Accession.Server.Mail;

internal static class MailApi
{
    public static void MapMailApi(this IEndpointRouteBuilder api)
    {
        var mail = api.MapGroup("").WithTags("Mail").RequireRight(Right.Administer);
        mail.MapGet("/mail-holds", ShowAsync).WithSummary("Why no letter is sent now; empty when letters go out");
        mail.MapPost("/mail-holds", HoldAsync).WithSummary("Hold all mail");
        mail.MapPost("/mail-releases", ReleaseAsync).WithSummary("Let the mail go");
    }

    /// <summary>Why mail is held.</summary>
    internal sealed record Holding(string? Why);

    /// <summary>How many letters wait, or waited.</summary>
    internal sealed record Waiting(int Letters);

    private static async Task<Ok<Listed<HoldMail.Held>>> ShowAsync(HoldMail mail, CancellationToken cancellation) =>
        TypedResults.Ok(new Listed<HoldMail.Held>(
            await mail.CurrentAsync(cancellation) is { } held ? [held] : []));

    private static async Task<Results<Ok<Waiting>, Refused>> HoldAsync(
        Holding body, HttpContext context, HoldMail mail, CancellationToken cancellation)
    {
        var outcome = await mail.HoldMailAsync(body.Why, await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/why") : TypedResults.Ok(new Waiting(outcome.Value));
    }

    private static async Task<Results<Ok<Waiting>, Refused>> ReleaseAsync(
        HttpContext context, HoldMail mail, CancellationToken cancellation)
    {
        var outcome = await mail.ReleaseMailAsync(await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(new Waiting(outcome.Value));
    }
}
