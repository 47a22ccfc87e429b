using System.ComponentModel;
using Accession.Core.Accessions;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>What is settled for a batch as a whole, beside its columns and dates.</summary>
internal static class SettlingApi
{
    public static void MapSettlingApi(this IEndpointRouteBuilder api)
    {
        var batch = api.MapGroup("/batches/{id:long}").WithTags("Batches as a whole").RequireRight(Right.Settle);
        batch.MapPost("/resemblance-answers", TellAsync).WithMetadata(new AsksVersion())
            .WithSummary("Say whether a list that is much like an earlier one is that list again")
            .WithMetadata(new BodyExample("""{"isSameList": false}"""));
        batch.MapPost("/number-statements", StateNumbersAsync).WithMetadata(new AsksVersion())
            .WithSummary("Say whether the sheets bear the numbers that they keep");
        batch.MapPost("/corrections", CorrectAsync)
            .WithSummary("Say that rows correct rows that are in the register");
        batch.MapPost("/takeovers", TakeOverAsync).WithMetadata(new AsksVersion())
            .WithSummary("Take over settled rows whose sheets bear their numbers");
        batch.MapGet("/checks", CheckAsync).WithSummary("The list against the sheets, as it is before closing");
        batch.MapPost("/closings", CloseAsync).WithMetadata(new AsksVersion())
            .WithSummary("Close a batch whose list was checked against the sheets")
            .WithMetadata(new BodyExample("""{"sheetsInTransmittal": 600, "note": "2 sheets lost in the mail"}"""));
        batch.MapPost("/reopenings", ReopenAsync).WithMetadata(new AsksVersion()).WithSummary("Open a closed batch");
    }

    /// <summary>Whether it is the earlier list again.</summary>
    internal sealed record Resemblance(bool IsSameList);

    /// <summary>Whether the sheets bear numbers.</summary>
    internal sealed record NumbersStated(bool CarriesNumbers);

    /// <summary>Rows that correct rows of the register.</summary>
    internal sealed record Correcting(IReadOnlyList<long>? RowIds, string? Reason);

    /// <summary>How many rows it was.</summary>
    internal sealed record Corrected(int Rows);

    /// <summary>What is stated of holdings that come with their numbers.</summary>
    internal sealed record TakingOver(
        string? Conditions, string? Hazards,
        [property: Description("How many rows you saw; refused when it is another number now.")] int? RowsShown);

    /// <summary>What the transmittal states, and why what differs does.</summary>
    internal sealed record Closing(
        int? SheetsInTransmittal, string? Note,
        [property: Description("How many sheets were missing or extra when you looked.")] int? DifferingSeen);

    /// <summary>Why it is opened.</summary>
    internal sealed record Reopening(string? Reason);

    /// <summary>The batch that it is now.</summary>
    internal sealed record InBatch(long BatchId);

    private static Task<Results<Ok<InBatch>, Refused>> TellAsync(
        long id, Resemblance body, HttpContext context, AccessionDb db, TellLists tell,
        CancellationToken cancellation) =>
        ChangeAsync(id, context, db, "/isSameList", door => body.IsSameList
            ? tell.SameAsync(id, door, cancellation)
            : tell.AnotherAsync(id, door, cancellation));

    private static Task<Results<Ok<InBatch>, Refused>> StateNumbersAsync(
        long id, NumbersStated body, HttpContext context, AccessionDb db, SettleList settle,
        CancellationToken cancellation) =>
        ChangeAsync(
            id, context, db, "/carriesNumbers",
            door => settle.NumbersAsync(id, body.CarriesNumbers, door, cancellation));

    private static Task<Results<Ok<InBatch>, Refused>> CloseAsync(
        long id, Closing body, HttpContext context, AccessionDb db, CloseBatch close,
        CancellationToken cancellation) =>
        ChangeAsync(id, context, db, "/note", door => close.RunAsync(
            new(id, body.SheetsInTransmittal, body.Note, body.DifferingSeen), door, cancellation));

    private static Task<Results<Ok<InBatch>, Refused>> ReopenAsync(
        long id, Reopening body, HttpContext context, AccessionDb db, ReopenBatch reopen,
        CancellationToken cancellation) =>
        ChangeAsync(
            id, context, db, "/reason", door => reopen.RunAsync(new(id, body.Reason), door, cancellation));

    private static async Task<Results<Ok<InBatch>, Refused>> ChangeAsync(
        long id, HttpContext context, AccessionDb db, string field, Func<Door, Task<Outcome<long>>> change)
    {
        if (context.WhyNoVersion(db, ReceivingApi.VersionOf(db, id)) is { } unseen)
        {
            return unseen;
        }

        var outcome = await change(await context.JsonDoorAsync());
        if (outcome.IsRefused)
        {
            return outcome.Refusals.ToProblem(field);
        }

        return TypedResults.Ok(new InBatch(outcome.Value));
    }

    private static async Task<Results<Ok<Corrected>, Refused>> CorrectAsync(
        long id, Correcting body, HttpContext context, CorrectTakenIn correct, CancellationToken cancellation)
    {
        var outcome = await correct.RunAsync(
            new(id, body.RowIds ?? [], body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem("/reason")
            : TypedResults.Ok(new Corrected(outcome.Value));
    }

    private static async Task<Results<Accepted<TakeOver.Taken>, Refused>> TakeOverAsync(
        long id, TakingOver body, HttpContext context, AccessionDb db, TakeOver takeOver,
        CancellationToken cancellation)
    {
        if (context.WhyNoVersion(db, ReceivingApi.VersionOf(db, id)) is { } unseen)
        {
            return unseen;
        }

        var outcome = await takeOver.RunAsync(
            new(id, body.Conditions, body.Hazards, body.RowsShown), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem()
            : TypedResults.Accepted($"/api/v1/accessions/{outcome.Value.AccessionNumber}", outcome.Value);
    }

    private static async Task<Results<Tagged<TransmittalCheck>, Refused>> CheckAsync(
        long id, int? sheetsInTransmittal, AccessionDb db, CancellationToken cancellation)
    {
        var isThere = await db.Batches.AnyAsync(b => b.Id == id && b.JoinedToBatchId == null, cancellation);
        return isThere && await TransmittalChecks.OfAsync(db, id, sheetsInTransmittal, cancellation) is { } check
            ? new Tagged<TransmittalCheck>(check)
            : RefusalResults.NotThere();
    }
}
