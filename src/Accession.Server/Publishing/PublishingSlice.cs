using Accession.Server.Background;
using Accession.Server.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Accession.Server.Publishing;

internal static class PublishingSlice
{
    public static IServiceCollection AddPublishing(this IServiceCollection services) => services
        .AddSingleton<ArchiveFolder>()
        .AddSingleton<DatasetTexts>()
        .AddScoped<DatasetVersions>()
        .AddScoped<WantArchive>()
        .AddScoped<BuildArchive>()
        .AddWork<BuildArchiveWork>(BuildArchiveWork.Kind, AfterRestore.Rests);

    public static void MapPublishing(this IEndpointRouteBuilder app) =>
        app.MapGet("/archive/{file}", Download).RequireAuthorization(Access.Curators);

    // By ranges too: an archive of a large herbarium is resumed when the line breaks.
    private static Results<PhysicalFileHttpResult, NotFound> Download(string file, ArchiveFolder folder) =>
        folder.Find(file) is { } path
            ? TypedResults.PhysicalFile(path, "application/zip", Path.GetFileName(path), enableRangeProcessing: true)
            : TypedResults.NotFound();
}
