using Accession.Server.Hosting;

namespace Accession.Server.Receiving;

internal static class ReceivingApi
{
    public static void MapReceiving(this IEndpointRouteBuilder app)
    {
        app.MapGet("/batch/{id:long}/problems.csv", ProblemsCsv.DownloadAsync).RequireAuthorization(Access.Curators);
        app.MapGet("/batch/{id:long}/paper/{paperId:long}", PaperDownload.DownloadAsync)
            .RequireAuthorization(Access.Curators);
    }
}
