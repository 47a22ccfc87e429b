using System.ComponentModel;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

internal static class NumberingApi
{
    public static void MapNumberingApi(this IEndpointRouteBuilder api)
    {
        var numbering = api.MapGroup("").WithTags("Numbering").RequireRight(Right.NumberSheets);
        numbering.MapGet("/piles", ListPilesAsync).WithSummary("Accessions with sheets to number");
        numbering.MapGet("/piles/{number}/gatherings", ListGatheringsAsync)
            .WithSummary("The gatherings of a pile with a sheet left to number, in pile order");
        numbering.MapPost("/scans", ScanAsync)
            .WithSummary("Scan a sheet: a barcode of a roll numbers it, an issued number proves itself")
            .WithMetadata(new BodyExample("""{"code": "DEMO-H0001234", "gatheringId": 812}"""));
        numbering.MapPost("/gatherings/{id:long}/numbers", IssueAsync)
            .WithSummary("Issue the next number of a series to a sheet of a gathering")
            .WithMetadata(new BodyExample("""{"seriesId": 1}"""));
        numbering.MapPost("/gatherings/{id:long}/sheets", CountAnotherAsync)
            .WithSummary("Count one more sheet of a gathering than its list promised");
    }

    /// <summary>A scan at the bench.</summary>
    internal sealed record Scanned(
        [property: Description("What was scanned.")] string? Code,
        [property: Description("The gathering in hand; none where a number is only scanned back.")] long? GatheringId);

    /// <summary>Which series issues the number.</summary>
    internal sealed record Issuing(long SeriesId);

    /// <summary>What was done, as a sentence.</summary>
    internal sealed record Counted(string Said);

    private static async Task<Results<Ok<Listed<ListedPile>>, Refused>> ListPilesAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation) =>
        paging.WhyNot(out var after) is { } wrong
            ? wrong
            : paging.Show(
                await ListedPile.AfterAsync(db, after?[0], paging.Take, cancellation), pile => [pile.Id]);

    private static async Task<Results<Ok<Listed<PileInHand.Sheet>>, Refused>> ListGatheringsAsync(
        string number, [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var lot = await db.Accessions.Where(l => l.Number == number).Select(l => (long?)l.Id)
            .SingleOrDefaultAsync(cancellation);
        return lot is null
            ? RefusalResults.NotThere()
            : paging.Show(
                await PileInHand.LeftAsync(db, lot.Value, after?[0] ?? 0, paging.Take, cancellation),
                sheet => [sheet.Id]);
    }

    private static async Task<Results<Ok<SheetAtBench>, Refused>> ScanAsync(
        Scanned body, HttpContext context, ScanSheet scan, CancellationToken cancellation)
    {
        var outcome = await scan.RunAsync(
            new(body.Code, body.GatheringId), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/code") : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<SheetAtBench>, Refused>> IssueAsync(
        long id, Issuing body, HttpContext context, NumberSheet number, CancellationToken cancellation)
    {
        var outcome = await number.RunAsync(
            new(id, body.SeriesId, null), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/seriesId") : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<Counted>, Refused>> CountAnotherAsync(
        long id, HttpContext context, ExpectAnotherSheet another, CancellationToken cancellation)
    {
        var outcome = await another.RunAsync(id, await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(new Counted(outcome.Value));
    }
}
