using System.ComponentModel;
using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

internal static class LoadsApi
{
    public static void MapLoadsApi(this IEndpointRouteBuilder api)
    {
        var loads = api.MapGroup("/loads").WithTags("Freezer loads").RequireRight(Right.HandleParcels);
        loads.MapGet("/", ListAsync).WithSummary("The freezer loads, the newest first");
        loads.MapGet("/{number:int}", ShowAsync).WithSummary("A freezer load with its list");
        loads.MapPost("/", BeginAsync).WithSummary("Begin the list of a load for a freezer")
            .WithMetadata(new BodyExample("""{"freezerId": 1, "regimeId": 1}"""));
        loads.MapPost("/{number:int}/items", AddAsync)
            .WithSummary("Put a parcel, a sheet or a bundle on the list")
            .WithMetadata(new BodyExample("""{"code": "Q2026-0014"}"""));
        loads.MapPost("/{number:int}/items/{itemId:long}/withdrawals", TakeOffAsync)
            .WithSummary("Take a line off the list, before the lid is closed");
        loads.MapPost("/{number:int}/closings", CloseAsync).WithMetadata(new AsksVersion())
            .WithSummary("Close the lid: the clock begins").WithMetadata(new BodyExample("{}"));
        loads.MapPost("/{number:int}/removals", TakeOutAsync).WithMetadata(new AsksVersion())
            .WithSummary("Take a load out").WithMetadata(new BodyExample("{}"));
        loads.MapPost("/{number:int}/settlements", SettleAsync).WithMetadata(new AsksVersion())
            .WithSummary("Settle what a load was worth: nothing here proves that pests are dead")
            .WithMetadata(new BodyExample("""{"as": "underHouseRule", "houseRuleId": 1}"""));
    }

    /// <summary>A freezer load.</summary>
    internal sealed record ListedLoad(
        int Number, string Freezer, string Regime, LoadStanding Standing, DateTime? ClockFrom, DateTime? TakenOutAt,
        DateTime? MayOpenFrom);

    /// <summary>A freezer load with its list.</summary>
    internal sealed record ShownLoad(
        int Number, string Freezer, string Regime, LoadStanding Standing, DateTime? ClockFrom, DateTime? TakenOutAt,
        DateTime? MayOpenFrom, IReadOnlyList<Line> Items);

    /// <summary>A line of a list: a parcel, a sheet or a bundle.</summary>
    internal sealed record Line(long Id, string? Parcel, string? Sheet, string Bundle);

    /// <summary>A load that begins.</summary>
    internal sealed record Beginning(long FreezerId, long RegimeId);

    /// <summary>What was begun or changed.</summary>
    internal sealed record Numbered(int Number);

    /// <summary>What goes on the list.</summary>
    internal sealed record Adding(
        [property: Description("The tag of a parcel or the number of a sheet; none for a bundle.")] string? Code,
        bool WithSheets, string? Bundle, long? BatchId,
        [property: Description("Whether the clock of a running load may begin again.")] bool BeginAgain);

    /// <summary>What went on the list, or off it.</summary>
    internal sealed record Put(string What);

    /// <summary>When it happened.</summary>
    internal sealed record Happening(
        [property: Description("In the herbarium's own time; none for now.")] DateTime? When);

    /// <summary>How a load is settled.</summary>
    internal sealed record Settling(
        [property: Description("underHouseRule, waived, notProved or failed.")] LoadStanding As, long? HouseRuleId,
        string? Reason);

    /// <summary>How it stands.</summary>
    internal sealed record Settled(LoadStanding Standing);

    private static async Task<Results<Ok<Listed<ListedLoad>>, Refused>> ListAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var before = after?[0] ?? int.MaxValue;
        var found = await db.Loads.Where(l => l.Number < before).OrderByDescending(l => l.Number).Take(paging.Take)
            .Select(l => new ListedLoad(
                l.Number, l.Freezer.Name, l.Regime.Name, l.Standing, l.ClockFrom, l.TakenOutAt, l.MayOpenFrom))
            .ToListAsync(cancellation);
        return paging.Show(found, one => [one.Number]);
    }

    private static async Task<Results<Tagged<ShownLoad>, Refused>> ShowAsync(
        int number, AccessionDb db, CancellationToken cancellation)
    {
        var load = await db.Loads.AsNoTracking().SingleOrDefaultAsync(l => l.Number == number, cancellation);
        if (load is null)
        {
            return RefusalResults.NotThere();
        }

        var items = await db.LoadItems.Where(i => i.LoadId == load.Id).OrderBy(i => i.Id)
            .Select(i => new Line(
                i.Id, db.Parcels.Where(p => p.Id == i.ParcelId).Select(p => p.Tag).FirstOrDefault(),
                db.Parts.Where(p => p.Id == i.PartId).Select(p => p.Code).FirstOrDefault(), i.Bundle))
            .ToListAsync(cancellation);
        return new Tagged<ShownLoad>(
            new(
                load.Number, load.Freezer.Name, load.Regime.Name, load.Standing, load.ClockFrom, load.TakenOutAt,
                load.MayOpenFrom, items),
            load.Version);
    }

    private static async Task<Results<Ok<Numbered>, Refused>> BeginAsync(
        Beginning body, HttpContext context, ListLoad list, CancellationToken cancellation)
    {
        var outcome = await list.RunAsync(
            new(body.FreezerId, body.RegimeId), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(new Numbered(outcome.Value));
    }

    private static async Task<Results<Ok<Put>, Refused>> AddAsync(
        int number, Adding body, HttpContext context, AddToLoad add, CancellationToken cancellation)
    {
        var outcome = await add.RunAsync(
            new(number, body.Code, body.WithSheets, body.Bundle, body.BatchId, body.BeginAgain),
            await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/code") : TypedResults.Ok(new Put(outcome.Value));
    }

    private static async Task<Results<Ok<Put>, Refused>> TakeOffAsync(
        int number, long itemId, HttpContext context, TakeOffLoad takeOff, CancellationToken cancellation)
    {
        var outcome = await takeOff.RunAsync(new(number, itemId), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(new Put(outcome.Value));
    }

    private static Task<Results<Ok<Numbered>, Refused>> CloseAsync(
        int number, Happening body, HttpContext context, AccessionDb db, CloseLid close,
        CancellationToken cancellation) => ChangeAsync(
            number, context, db, "/when", door => close.RunAsync(new(number, body.When), door, cancellation),
            _ => new Numbered(number));

    private static Task<Results<Ok<Numbered>, Refused>> TakeOutAsync(
        int number, Happening body, HttpContext context, AccessionDb db, TakeLoadOut takeOut,
        CancellationToken cancellation) => ChangeAsync(
            number, context, db, "/when", door => takeOut.RunAsync(new(number, body.When), door, cancellation),
            _ => new Numbered(number));

    private static Task<Results<Ok<Settled>, Refused>> SettleAsync(
        int number, Settling body, HttpContext context, AccessionDb db, SettleLoad settle,
        CancellationToken cancellation) => ChangeAsync(
            number, context, db, "/as",
            door => body.As is LoadStanding.UnderHouseRule or LoadStanding.Waived or LoadStanding.NotProved
                or LoadStanding.Failed
                ? settle.RunAsync(new(number, body.As, body.HouseRuleId, body.Reason), door, cancellation)
                : Task.FromResult<Outcome<LoadStanding>>(new Refusal(
                    RefusalKind.Invalid, "A load is settled as underHouseRule, waived, notProved or failed.")),
            standing => new Settled(standing));

    private static async Task<Results<Ok<TShown>, Refused>> ChangeAsync<T, TShown>(
        int number, HttpContext context, AccessionDb db, string pointer, Func<Door, Task<Outcome<T>>> change,
        Func<T, TShown> show)
    {
        if (context.WhyNoVersion(db, db.Loads.Where(l => l.Number == number).Select(l => l.Version)) is { } unseen)
        {
            return unseen;
        }

        var outcome = await change(await context.JsonDoorAsync());
        return outcome.IsRefused ? outcome.Refusals.ToProblem(pointer) : TypedResults.Ok(show(outcome.Value));
    }
}
