using System.ComponentModel;
using Accession.Core.Numbers;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

internal static class SeriesApi
{
    public static void MapSeriesApi(this IEndpointRouteBuilder api)
    {
        var series = api.MapGroup("").WithTags("Series, rolls and voids");
        series.MapGet("/series", ListAsync)
            .RequireRight(Right.ReadRegister, Right.NumberSheets, Right.KeepNumbers, Right.Administer)
            .WithSummary("The number series");
        series.MapGet("/series/{id:long}", ShowAsync)
            .RequireRight(Right.ReadRegister, Right.NumberSheets, Right.KeepNumbers, Right.Administer)
            .WithSummary("A number series");
        series.MapPost("/series", BeginAsync).RequireRight(Right.KeepNumbers).WithSummary("Begin a number series")
            .WithMetadata(new BodyExample("""{"name": "Sheets", "use": "specimens", "pattern": "DEMO-H0000000"}"""));
        series.MapPost("/series/{id:long}/closings", CloseAsync).RequireRight(Right.Administer)
            .WithMetadata(new AsksVersion())
            .WithSummary("Close a series: it issues nothing");
        series.MapPost("/series/{id:long}/openings", OpenAsync).RequireRight(Right.Administer)
            .WithMetadata(new AsksVersion())
            .WithSummary("Open a closed series with the highest number on paper")
            .WithMetadata(new BodyExample("""{"paperHighest": "DEMO-H0001234"}"""));
        series.MapGet("/rolls", ListRollsAsync)
            .RequireRight(Right.ReadRegister, Right.NumberSheets, Right.KeepNumbers).WithSummary("The rolls");
        series.MapPost("/rolls", RegisterAsync).RequireRight(Right.KeepNumbers)
            .WithSummary("Register a roll of pre-printed barcodes")
            .WithMetadata(new BodyExample(
                """{"name": "printer's roll 3", "first": "DEMO-H0002001", "last": "DEMO-H0003000"}"""));
        series.MapGet("/voids", ListVoidsAsync).RequireRight(Right.ReadRegister, Right.KeepNumbers)
            .WithSummary("The entries by which numbers became void, the newest first");
        series.MapPost("/voids", MakeVoidAsync).RequireRight(Right.KeepNumbers)
            .WithSummary("Make unused numbers of a roll void")
            .WithMetadata(new BodyExample("""{"first": "DEMO-H0002007", "reason": "torn"}"""));
        series.MapPost("/voids/{id:long}/withdrawals", TakeBackAsync).RequireRight(Right.KeepNumbers)
            .WithSummary("Take back that numbers were made void");
    }

    /// <summary>A number series.</summary>
    /// <param name="ClosedBecause">Why it issues nothing; null while it is open.</param>
    internal sealed record ShownSeries(
        long Id, string Name, SeriesUse Use, string Pattern, DateTime? ClosedAt, string? ClosedBecause);

    /// <summary>A roll of barcodes.</summary>
    internal sealed record ShownRoll(long Id, string Name, long SeriesId, string First, string Last, long Numbers);

    /// <summary>A series that begins.</summary>
    internal sealed record Beginning(
        string? Name, SeriesUse Use, [property: Description("Such as AB0000000 or YYYY.0000.")] string? Pattern);

    /// <summary>What has begun, or was closed.</summary>
    internal sealed record Named(string Name);

    /// <summary>Why a series is closed.</summary>
    internal sealed record Closing(string? Why);

    /// <summary>What stands on paper.</summary>
    internal sealed record Opening([property: Description("The number, or the word none.")] string? PaperHighest);

    /// <summary>Why a void is taken back.</summary>
    internal sealed record TakingBack(string? Reason);

    private static async Task<Results<Ok<Listed<ShownSeries>>, Refused>> ListAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var last = after?[0] ?? 0;
        var found = await Shown(db.Series.Where(s => s.Id > last).OrderBy(s => s.Id).Take(paging.Take))
            .ToListAsync(cancellation);
        return paging.Show(found, one => [one.Id]);
    }

    private static async Task<Results<Tagged<ShownSeries>, Refused>> ShowAsync(
        long id, AccessionDb db, CancellationToken cancellation) =>
        await FindAsync(id, db, cancellation) is { } series
            ? new Tagged<ShownSeries>(series)
            : RefusalResults.NotThere();

    private static async Task<Results<Ok<Named>, Refused>> BeginAsync(
        Beginning body, HttpContext context, BeginSeries begin, CancellationToken cancellation)
    {
        var outcome = await begin.RunAsync(
            new(body.Name, body.Use, body.Pattern), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(new Named(outcome.Value));
    }

    private static async Task<Results<Ok<Named>, Refused>> CloseAsync(
        long id, Closing body, HttpContext context, AccessionDb db, CloseSeries close,
        CancellationToken cancellation)
    {
        if (WhyNotAsSeen(context, db, id) is { } unseen)
        {
            return unseen;
        }

        var outcome = await close.RunAsync(new(id, body.Why), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/why") : TypedResults.Ok(new Named(outcome.Value));
    }

    private static async Task<Results<Ok<OpenSeries.Opened>, Refused>> OpenAsync(
        long id, Opening body, HttpContext context, AccessionDb db, OpenSeries open, CancellationToken cancellation)
    {
        if (WhyNotAsSeen(context, db, id) is { } unseen)
        {
            return unseen;
        }

        var outcome = await open.RunAsync(new(id, body.PaperHighest), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/paperHighest") : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<Listed<ShownRoll>>, Refused>> ListRollsAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var last = after?[0] ?? 0;
        var found = await db.Rolls.Where(roll => roll.Id > last).OrderBy(roll => roll.Id).Take(paging.Take)
            .Select(roll => new
            {
                roll.Id,
                roll.Name,
                roll.SeriesId,
                roll.First,
                roll.Last,
                Pattern = db.Series.Where(s => s.Id == roll.SeriesId).Select(s => s.PatternText).Single(),
            })
            .ToListAsync(cancellation);
        return paging.Show<ShownRoll>(
            [
                .. found.Select(roll =>
                {
                    var pattern = NumberPattern.Read(roll.Pattern).Value;
                    return new ShownRoll(
                        roll.Id, roll.Name, roll.SeriesId, pattern.Write(roll.First, 0), pattern.Write(roll.Last, 0),
                        roll.Last - roll.First + 1);
                }),
            ],
            roll => [roll.Id]);
    }

    private static async Task<Results<Ok<RegisterRoll.Registered>, Refused>> RegisterAsync(
        RegisterRoll.Request body, HttpContext context, RegisterRoll register, CancellationToken cancellation)
    {
        var outcome = await register.RunAsync(body, await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<Listed<AccountForNumbers.ShownVoid>>, Refused>> ListVoidsAsync(
        [AsParameters] Paging paging, AccountForNumbers account, CancellationToken cancellation) =>
        paging.WhyNot(out var after) is { } wrong
            ? wrong
            : paging.Show(await account.VoidsAsync(after?[0], paging.Take, cancellation), entry => [entry.Id]);

    private static async Task<Results<Ok<VoidNumbers.Done>, Refused>> MakeVoidAsync(
        VoidNumbers.Request body, HttpContext context, VoidNumbers make, CancellationToken cancellation)
    {
        var outcome = await make.RunAsync(body, await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<TakeVoidBack.Done>, Refused>> TakeBackAsync(
        long id, TakingBack body, HttpContext context, TakeVoidBack back, CancellationToken cancellation)
    {
        var outcome = await back.RunAsync(new(id, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/reason") : TypedResults.Ok(outcome.Value);
    }

    private static Refused? WhyNotAsSeen(HttpContext context, AccessionDb db, long id) => context.WhyNotAsSeen(
        db, db.Series.Held().Where(s => s.Id == id), cancellation => FindAsync(id, db, cancellation));

    private static Task<ShownSeries?> FindAsync(long id, AccessionDb db, CancellationToken cancellation) =>
        Shown(db.Series.Where(s => s.Id == id)).SingleOrDefaultAsync(cancellation);

    private static IQueryable<ShownSeries> Shown(IQueryable<NumberSeries> series) => series.Select(
        s => new ShownSeries(s.Id, s.Name, s.Use, s.PatternText, s.ClosedAt, s.ClosedBecause));
}
