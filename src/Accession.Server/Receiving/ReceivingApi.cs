using Accession.Server.Hosting;

namespace Accession.Server.Receiving;

internal static class ReceivingApi
{
    public static void MapReceiving(this IEndpointRouteBuilder app) =>
        app.MapGet("/batch/{id:long}/problems.csv", ProblemsCsv.DownloadAsync).RequireAuthorization(Access.Curators);
}
