using System.ComponentModel;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// The step bench for a scanner station. What it scans it does in its own name, or in that of the holder of a badge
/// that comes with the scan.
/// </summary>
internal static class BenchApi
{
    public static void MapBenchApi(this IEndpointRouteBuilder api)
    {
        var bench = api.MapGroup("").WithTags("Bench").RequireRight(Right.WorkAtBench);
        bench.MapPost("/bench-scans", ScanAsync)
            .WithSummary("Scan a sheet: mark it with a step, put it in a place or on the list of a freezer, or undo")
            .WithMetadata(new BodyExample("""{"code": "DEMO-H0001234", "doing": "mounted"}"""));
    }

    /// <summary>A scan at the bench.</summary>
    internal sealed record Scanned(
        [property: Description("What was scanned; undo takes the last one back.")] string? Code,
        [property: Description("mounted, labelled, photographed, filed, place NAME or freezer NAME.")] string? Doing,
        [property: Description("The code of the badge of whoever scans; none for the bearer of the token.")]
        string? Badge);

    private static async Task<Results<Ok<BenchDone>, Refused>> ScanAsync(
        Scanned body, HttpContext context, AccessionDb db, StepBenchScan scan, BadgeHolders holders,
        CancellationToken cancellation)
    {
        var door = await context.JsonDoorAsync();
        if (BenchDoing.Read(body.Doing) is not { } doing)
        {
            return new List<Refusal>
            {
                new(RefusalKind.Invalid, "Say what is done: a step, a place or a freezer."),
            }.ToProblem("/doing");
        }

        if (!string.IsNullOrEmpty(body.Badge))
        {
            var hash = Badge.Hash(body.Badge);
            var account = await db.Badges.Where(b => b.CodeHash == hash && b.WithdrawnAt == null)
                .Select(b => b.AccountId).SingleOrDefaultAsync(cancellation);
            if (account is null || await holders.FindAsync(account, cancellation) is not { } holder)
            {
                return new List<Refusal>
                {
                    new(RefusalKind.NotFound, "This badge is not known here, or was withdrawn. Nothing was done."),
                }.ToProblem("/badge");
            }

            // A bench is all that the token opens, so the holder does here what a technician does.
            door = door with { By = holder with { Roles = new HashSet<Role> { Role.Technician } } };
        }

        var outcome = await scan.RunAsync(doing, body.Code ?? "", door, cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/code") : TypedResults.Ok(outcome.Value);
    }
}
