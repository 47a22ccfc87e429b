using System.ComponentModel;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Arriving;

internal static class ParcelsApi
{
    public static void MapParcelsApi(this IEndpointRouteBuilder api)
    {
        var parcels = api.MapGroup("/parcels").WithTags("Parcels").RequireRight(Right.HandleParcels);
        parcels.MapGet("/", ListAsync).WithSummary("The parcels, the newest first");
        parcels.MapGet("/{tag}", ShowAsync).WithSummary("A parcel");
        parcels.MapPost("/", TagAsync).WithSummary("Tag a parcel at the door")
            .WithMetadata(new BodyExample(
                """{"fromWhom": "Dry Lakes", "cameOn": "2026-03-04", "bundles": 4, "standing": "shelf Q3"}"""));
        parcels.MapPost("/{tag}/places", MoveAsync).WithMetadata(new AsksVersion())
            .WithSummary("Put a parcel in a place; untreated it stands in quarantine")
            .WithMetadata(new BodyExample("""{"placeId": 1}"""));
    }

    /// <summary>A parcel.</summary>
    /// <param name="Standing">Where it stood when it was tagged, in words; empty where a place was chosen.</param>
    /// <param name="Place">The place where it stands; null while that is known in words only.</param>
    /// <param name="Load">The load whose list it stands on and that is not settled; null for none.</param>
    /// <param name="ClearedBy">By what it may come in; null while it is untreated. Nothing here is proved.</param>
    internal sealed record ShownParcel(
        string Tag, string FromWhom, DateOnly CameOn, string Carrier, int Boxes, int Bundles, string Condition,
        string Standing, string? Place, int? Load, DateTime? ClearedAt, ClearedBy? ClearedBy, DateTime? MayOpenFrom);

    /// <summary>A parcel that comes.</summary>
    internal sealed record Coming(
        string? FromWhom, DateOnly? CameOn, string? Carrier, int Boxes, int Bundles, string? Condition,
        [property: Description("Where it stands, in words; or placeId.")] string? Standing, long? PlaceId);

    /// <summary>What was tagged.</summary>
    internal sealed record Tagged(string Tag);

    /// <summary>Where it goes.</summary>
    internal sealed record Going(long PlaceId);

    /// <summary>Where it stands now.</summary>
    internal sealed record Standing(string Place);

    private static async Task<Results<Ok<Listed<ShownParcel>>, Refused>> ListAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var before = after?[0] ?? long.MaxValue;
        var ids = await db.Parcels.Where(p => p.Id < before).OrderByDescending(p => p.Id).Take(paging.Take)
            .Select(p => new { p.Id, p.Tag }).ToListAsync(cancellation);
        var shown = await Shown(db, db.Parcels.Where(p => p.Id < before).OrderByDescending(p => p.Id).Take(paging.Take))
            .ToListAsync(cancellation);
        var idOf = ids.ToDictionary(one => one.Tag, one => one.Id);
        return paging.Show(shown, one => [idOf[one.Tag]]);
    }

    private static async Task<Results<Hosting.Tagged<ShownParcel>, Refused>> ShowAsync(
        string tag, AccessionDb db, CancellationToken cancellation)
    {
        var wanted = Parcel.TagIn(tag);
        var version = await db.Parcels.Where(p => p.Tag == wanted).Select(p => (Guid?)p.Version)
            .SingleOrDefaultAsync(cancellation);
        return version is null
            ? RefusalResults.NotThere()
            : new Hosting.Tagged<ShownParcel>(
                await Shown(db, db.Parcels.Where(p => p.Tag == wanted)).SingleAsync(cancellation), version);
    }

    private static async Task<Results<Ok<Tagged>, Refused>> TagAsync(
        Coming body, HttpContext context, TagParcel tag, CancellationToken cancellation)
    {
        var details = new ParcelDetails(
            Text(body.FromWhom), body.CameOn, Text(body.Carrier), body.Boxes, body.Bundles, Text(body.Condition),
            Text(body.Standing), body.PlaceId);
        var outcome = await tag.RunAsync(new(details), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(new Tagged(outcome.Value));
    }

    private static async Task<Results<Ok<Standing>, Refused>> MoveAsync(
        string tag, Going body, HttpContext context, AccessionDb db, MoveParcel move, CancellationToken cancellation)
    {
        var wanted = Parcel.TagIn(tag);
        if (context.WhyNoVersion(db, db.Parcels.Where(p => p.Tag == wanted).Select(p => p.Version)) is { } unseen)
        {
            return unseen;
        }

        var outcome = await move.RunAsync(new(wanted, body.PlaceId), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem("/placeId")
            : TypedResults.Ok(new Standing(outcome.Value));
    }

    private static IQueryable<ShownParcel> Shown(AccessionDb db, IQueryable<Parcel> parcels) => parcels
        .Select(p => new ShownParcel(
        p.Tag, p.FromWhom, p.CameOn, p.Carrier, p.Boxes, p.Bundles, p.Condition, p.Standing,
        db.Places.Where(place => place.Id == p.PlaceId).Select(place => place.Name).FirstOrDefault(),
        db.Loads.Where(load => load.Id == p.LoadId).Select(load => (int?)load.Number).FirstOrDefault(),
        p.ClearedAt, p.ClearedBy, p.MayOpenFrom));

    private static string Text(string? written) => written?.Trim() ?? "";
}
