using System.ComponentModel;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Filing;

internal static class FilingApi
{
    public static void MapFilingApi(this IEndpointRouteBuilder api)
    {
        var filing = api.MapGroup("").WithTags("Places and filing");
        filing.MapGet("/places", ListAsync).RequireRight(Right.WorkAtBench, Right.HandleParcels)
            .WithSummary("The places with their zones");
        filing.MapPost("/places", WriteAsync).RequireRight(Right.Settle)
            .WithSummary("Write a place down, with the zone it lies in for good")
            .WithMetadata(new BodyExample("""{"name": "Cabinet 3", "zone": "collectionRoom"}"""));
        filing.MapPost("/moves", MoveAsync).RequireRight(Right.WorkAtBench)
            .WithSummary("Put sheets in a place: all of them, or none")
            .WithMetadata(new BodyExample("""{"codes": ["DEMO-H0001234"], "placeId": 2}"""));
        filing.MapPost("/specimens/{catalogNumber}/filings", FileAsync).RequireRight(Right.WorkAtBench)
            .WithMetadata(new AsksVersion()).WithSummary("Say under which name a sheet lies in the cabinet")
            .WithMetadata(new BodyExample("""{"name": "Poa secunda J.Presl"}"""));
    }

    /// <summary>A place.</summary>
    internal sealed record ShownPlace(long Id, string Name, Zone Zone);

    /// <summary>A place that is written down.</summary>
    internal sealed record Writing(string? Name, Zone? Zone);

    /// <summary>What was written down.</summary>
    internal sealed record Named(string Name);

    /// <summary>What goes where.</summary>
    internal sealed record Moving(IReadOnlyList<string>? Codes, long PlaceId, string? Reason);

    /// <summary>Under which name it lies.</summary>
    internal sealed record Lying(
        string? Name, [property: Description("Which of the sheets that bear the number, from 1.")] int? Sheet);

    private static async Task<Results<Ok<Listed<ShownPlace>>, Refused>> ListAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var last = after?[0] ?? 0;
        var found = await db.Places.Where(p => p.Id > last).OrderBy(p => p.Id).Take(paging.Take)
            .Select(p => new ShownPlace(p.Id, p.Name, p.Zone)).ToListAsync(cancellation);
        return paging.Show(found, one => [one.Id]);
    }

    private static async Task<Results<Ok<Named>, Refused>> WriteAsync(
        Writing body, HttpContext context, WritePlace write, CancellationToken cancellation)
    {
        var outcome = await write.RunAsync(new(body.Name, body.Zone), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(new Named(outcome.Value));
    }

    private static async Task<Results<Ok<MoveParts.Moved>, Refused>> MoveAsync(
        Moving body, HttpContext context, MoveParts move, CancellationToken cancellation)
    {
        var outcome = await move.RunAsync(
            new(body.Codes ?? [], body.PlaceId, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/codes") : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<Named>, Refused>> FileAsync(
        string catalogNumber, Lying body, HttpContext context, AccessionDb db, FileUnder file,
        CancellationToken cancellation)
    {
        var number = SpecimenAddress.NumberIn(catalogNumber);
        var repeat = (body.Sheet ?? 1) - 1;
        var meant = db.Specimens.Where(s => s.CatalogNumber == number && s.Repeat == repeat);
        if (context.WhyNoVersion(db, meant.Select(s => s.Version)) is { } unseen)
        {
            return unseen;
        }

        var id = await meant.Select(s => (long?)s.Id).SingleOrDefaultAsync(cancellation);
        if (id is null)
        {
            return RefusalResults.NotThere();
        }

        var outcome = await file.RunAsync(new(id.Value, body.Name), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/name") : TypedResults.Ok(new Named(outcome.Value));
    }
}
