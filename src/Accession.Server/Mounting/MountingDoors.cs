using Accession.Server.Hosting;
using Microsoft.Extensions.Options;

namespace Accession.Server.Mounting;

internal static class MountingDoors
{
    public static void MapMounting(this IEndpointRouteBuilder app) =>
        app.MapGet("/labels/{kind}.css", (string kind, IOptions<LabelOptions> options) =>
            Enum.TryParse<LabelKind>(kind, ignoreCase: true, out var wanted) && !char.IsDigit(kind[0])
                ? Results.Text(options.Value.SheetOf(wanted).Style, "text/css")
                : Results.NotFound())
            .RequireAuthorization(Access.Bench);
}
