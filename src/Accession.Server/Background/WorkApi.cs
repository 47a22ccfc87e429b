using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Accession.Server.Background;

internal static class WorkApi
{
    public static void MapBackgroundApi(this IEndpointRouteBuilder api)
    {
        var works = api.MapGroup("/works").WithTags("Long work");
        works.MapGet("/{id:long}", ShowAsync)
            .RequireRight(Right.SendLists, Right.Settle, Right.Publish)
            .WithSummary("How far a piece of long work is");
        works.MapPost("/{id:long}/stops", StopAsync).RequireRight(Right.Settle)
            .WithSummary("Ask a piece of long work to stop");
        works.MapPost("/{id:long}/resumptions", GoOnAsync).RequireRight(Right.Settle)
            .WithSummary("Go on with a piece of long work that rests");
    }

    /// <summary>How far a piece of long work is.</summary>
    /// <param name="Kind">What is done, as a verb phrase.</param>
    /// <param name="Rests">Whether somebody stopped it, and it can be gone on with.</param>
    /// <param name="Failure">Why it was given up; null while it was not.</param>
    internal sealed record ShownWork(
        long Id, string Kind, long Done, long Total, DateTime WantedAt, DateTime? FinishedAt, bool IsFinished,
        bool Rests, string? Failure)
    {
        public static ShownWork Of(ShownProgress work) => new(
            work.Id, work.Kind, work.Done, work.Total, work.WantedAt, work.FinishedAt, work.IsFinished, work.Rests,
            work.Failure);
    }

    private static async Task<Results<Tagged<ShownWork>, Refused>> ShowAsync(
        long id, AccessionDb db, CancellationToken cancellation) =>
        await ShownProgress.OfAsync(db, id, cancellation) is { } work
            ? new Tagged<ShownWork>(ShownWork.Of(work))
            : RefusalResults.NotThere();

    private static async Task<Results<Accepted, Refused>> StopAsync(
        long id, HttpContext context, StopWork stop, CancellationToken cancellation)
    {
        var outcome = await stop.StopAsync(id, await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Accepted($"/api/v1/works/{id}");
    }

    private static async Task<Results<Accepted, Refused>> GoOnAsync(
        long id, HttpContext context, StopWork stop, CancellationToken cancellation)
    {
        var outcome = await stop.GoOnAsync(id, await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Accepted($"/api/v1/works/{id}");
    }
}
