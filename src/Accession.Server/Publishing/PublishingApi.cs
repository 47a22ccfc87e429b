using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Publishing;

internal static class PublishingApi
{
    public static void MapPublishingApi(this IEndpointRouteBuilder api)
    {
        var archives = api.MapGroup("/archives").WithTags("Archives").RequireRight(Right.Publish);
        archives.MapGet("/", ListAsync).WithSummary("The archives that were built, the newest first");
        archives.MapPost("/", WantAsync).WithSummary("Ask for an archive of the register as it is now");
        archives.MapGet("/{file}", Download).WithSummary("Fetch an archive, by ranges too");
    }

    /// <summary>An archive that was built.</summary>
    /// <param name="File">Its name, and the last part of its address.</param>
    /// <param name="IsThere">Whether the file still lies there.</param>
    internal sealed record ShownArchive(
        long Id, string File, int Version, long Specimens, long Determinations, long Bytes, DateTime BuiltAt,
        bool IsThere);

    /// <summary>The building that was asked for; follow it under works, then look among the archives.</summary>
    internal sealed record Wanted(long ActId, long WorkId);

    private static async Task<Results<Ok<Listed<ShownArchive>>, Refused>> ListAsync(
        [AsParameters] Paging paging, AccessionDb db, ArchiveFolder folder, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var before = after?[0];
        var built = await db.Work
            .Where(work => work.Kind == BuildArchiveWork.Kind && work.Result != null
                && (before == null || work.Id < before))
            .OrderByDescending(work => work.Id)
            .Take(paging.Take)
            .Select(work => new { work.Id, work.Result, work.FinishedAt })
            .ToListAsync(cancellation);
        return paging.Show<ShownArchive>(
            [
                .. built.Select(work =>
                {
                    var archive = BuildArchiveWork.Result.Read(work.Result)!;
                    return new ShownArchive(
                        work.Id, archive.FileName, archive.Version, archive.Specimens, archive.Determinations,
                        archive.Bytes, work.FinishedAt!.Value, folder.Find(archive.FileName) is not null);
                }),
            ],
            archive => [archive.Id]);
    }

    private static async Task<Results<Accepted<Wanted>, Refused>> WantAsync(
        HttpContext context, AccessionDb db, WantArchive want, CancellationToken cancellation)
    {
        var outcome = await want.RunAsync(new(InBackground: true), await context.JsonDoorAsync(), cancellation);
        if (outcome.IsRefused)
        {
            return outcome.Refusals.ToProblem();
        }

        var work = await db.Work.Where(row => row.ActId == outcome.Value.ActId).Select(row => row.Id)
            .FirstAsync(cancellation);
        return TypedResults.Accepted($"/api/v1/works/{work}", new Wanted(outcome.Value.ActId, work));
    }

    private static Results<PhysicalFileHttpResult, Refused> Download(string file, ArchiveFolder folder) =>
        folder.Find(file) is { } path
            ? TypedResults.PhysicalFile(path, "application/zip", Path.GetFileName(path), enableRangeProcessing: true)
            : RefusalResults.NotThere();
}
