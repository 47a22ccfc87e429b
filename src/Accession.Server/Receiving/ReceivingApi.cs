using System.ComponentModel;
using Accession.Core.Accessions;
using Accession.Core.Gatherings;
using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

internal static class ReceivingApi
{
    private static readonly string[] ListTypes =
    [
        "text/csv", "text/plain", "text/tab-separated-values", "application/octet-stream",
        "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "application/zip",
    ];

    public static void MapReceiving(this IEndpointRouteBuilder app)
    {
        app.MapGet("/batch/{id:long}/problems.csv", ProblemsCsv.DownloadAsync).RequireAuthorization(Access.Curators);
        app.MapGet("/batch/{id:long}/paper/{paperId:long}", PaperDownload.DownloadAsync)
            .RequireAuthorization(Access.Curators);
    }

    public static void MapReceivingApi(this IEndpointRouteBuilder api)
    {
        var batches = api.MapGroup("/batches").WithTags("Receiving");
        batches.MapGet("/", ListAsync).RequireRight(Right.SendLists, Right.Settle)
            .WithSummary("The batches, the newest first");
        batches.MapPost("/", ReceiveAsync).RequireRight(Right.SendLists).TakingList()
            .WithSummary("Receive a list from a source: the file is the body");
        batches.MapGet("/{id:long}", ShowAsync).RequireRight(Right.SendLists, Right.Settle)
            .WithSummary("A batch: its lists, its figures, and the work that runs on it");
        batches.MapPost("/{id:long}/lists", ReceiveAgainAsync).RequireRight(Right.SendLists).TakingList()
            .WithSummary("Send a batch's list again, re-sorted or corrected");
        batches.MapPost("/{id:long}/day-month-orders", SettleOrderAsync).RequireRight(Right.Settle)
            .WithMetadata(new AsksVersion())
            .WithSummary("Settle whether day or month comes first in dates written in figures")
            .WithMetadata(new BodyExample("""{"order": "dayFirst"}"""));
        batches.MapPost("/{id:long}/column-matches", MatchAsync).RequireRight(Right.Settle)
            .WithMetadata(new AsksVersion()).WithSummary("Settle which column means what")
            .WithMetadata(new BodyExample("""{"columns": {"0": "recordedBy", "5": ""}}"""));
        batches.MapPost("/{id:long}/accessions", TakeInAsync).RequireRight(Right.Settle)
            .WithMetadata(new AsksVersion())
            .WithSummary("Take the settled rows into the register, as an accession or to the one that is there")
            .WithMetadata(new BodyExample("""{"terms": "gift", "sheetsInPile": 600, "rowsShown": 598}"""));
    }

    /// <summary>A batch as programs see it.</summary>
    /// <param name="JoinedTo">The batch that this list turned out to belong to; look there.</param>
    /// <param name="Figures">How its rows stand; null where it was joined.</param>
    /// <param name="Work">The work that runs on it, or failed last; read it again until there is none.</param>
    internal sealed record ShownBatch(
        long Id, string Source, long? JoinedTo, bool CarriesNumbers, DayMonthOrder DayMonthOrder, bool NeedsOrder,
        BatchSummary.Likeness? Resembles, string? AccessionNumber, Figures? Figures, IReadOnlyList<ShownList> Lists,
        WorkApi.ShownWork? Work);

    /// <summary>How the rows of a batch stand.</summary>
    /// <param name="Open">Rows with something that could not be read, for somebody to settle.</param>
    /// <param name="Undecided">Rows that were found to belong with something, and wait for a decision.</param>
    /// <param name="Asked">Rows whose collector is being asked.</param>
    /// <param name="ToTakeIn">Rows that can go into the register.</param>
    internal sealed record Figures(
        int Open, int Undecided, int Asked, int ToTakeIn, int SheetsToTakeIn, int Sheets, int InRegister,
        int SheetsToNumber, int OutsidePermits, int UnmatchedColumns, IReadOnlyList<string> Lacks);

    /// <summary>A list that came for a batch.</summary>
    internal sealed record ShownList(
        long Id, string FileName, string Format, IReadOnlyList<string> Headings, bool IsRead, string? RefusedBecause,
        int Rows, DateTime ReceivedAt, string ReceivedBy);

    /// <summary>Which comes first.</summary>
    internal sealed record OrderSettled([property: Description("dayFirst or monthFirst.")] DayMonthOrder Order);

    /// <summary>Which column means what.</summary>
    internal sealed record ColumnsMatched(
        [property: Description("Field names by column, from 0; an empty text takes a meaning away.")]
        Dictionary<int, string>? Columns);

    /// <summary>What a curator states when taking rows in.</summary>
    internal sealed record TakingIn(
        [property: Description("On what terms; not needed when rows join an accession.")] AccessionTerms? Terms,
        [property: Description("The sheets counted in the whole pile.")] int? SheetsInPile,
        string? CountNote, string? Conditions, string? ConditionOnArrival, string? Hazards,
        [property: Description("How many rows to take in you saw; refused when it is another number now.")]
        int? RowsShown);

    private static async Task<Results<Ok<Listed<ListedBatch>>, Refused>> ListAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var batches = await ListedBatch.BeforeAsync(db, after?[0], paging.Take, cancellation);
        return paging.Show(batches, batch => [batch.Id]);
    }

    private static Task<Results<Accepted<ReceiveList.Receipt>, Ok<ReceiveList.Receipt>, Refused>> ReceiveAsync(
        [Description("Who sends it: a collector, a project or a herbarium.")] string? source,
        [Description("The name of the file, as the sender knows it.")] string? fileName,
        [Description("Whether the sheets bear the numbers that they keep.")] bool? carriesNumbers,
        HttpContext context, ReceivedFiles files, ReceiveList receive, IOptions<ReceivingOptions> options,
        CancellationToken cancellation) =>
        KeepAsync(
            context, files, receive, options.Value, fileName,
            kept => new(source, null, kept, carriesNumbers == true), "/source", cancellation);

    private static Task<Results<Accepted<ReceiveList.Receipt>, Ok<ReceiveList.Receipt>, Refused>> ReceiveAgainAsync(
        long id, string? fileName, HttpContext context, ReceivedFiles files, ReceiveList receive,
        IOptions<ReceivingOptions> options, CancellationToken cancellation) =>
        KeepAsync(
            context, files, receive, options.Value, fileName, kept => new(null, id, kept), null, cancellation);

    private static async Task<Results<Accepted<ReceiveList.Receipt>, Ok<ReceiveList.Receipt>, Refused>> KeepAsync(
        HttpContext context, ReceivedFiles files, ReceiveList receive, ReceivingOptions options, string? fileName,
        Func<Core.Batches.ReceivedList.KeptFile, ReceiveList.Request> request, string? field,
        CancellationToken cancellation)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = options.MaximumFileBytes;
        }

        var name = string.IsNullOrWhiteSpace(fileName) ? "list" : fileName;
        var kept = await files.KeepAsync(context.Request.Body, name, cancellation);
        var outcome = await receive.RunAsync(request(kept), await context.JsonDoorAsync(), cancellation);
        if (outcome.IsRefused)
        {
            return outcome.Refusals.ToProblem(field);
        }

        return outcome.Value.WasHere
            ? TypedResults.Ok(outcome.Value)
            : TypedResults.Accepted($"/api/v1/batches/{outcome.Value.BatchId}", outcome.Value);
    }

    private static async Task<Results<Tagged<ShownBatch>, Refused>> ShowAsync(
        long id, AccessionDb db, CancellationToken cancellation)
    {
        // The version before what is said of it: a change in between then refuses the next, and passes nothing over.
        var version = await db.Batches.Where(batch => batch.Id == id).Select(batch => batch.Version)
            .SingleOrDefaultAsync(cancellation);
        var work = await BatchSummary.RunningAsync(db, id, cancellation);
        return await BatchSummary.OfAsync(db, id, cancellation) is { } batch
            ? new Tagged<ShownBatch>(Shown(batch, work), version)
            : RefusalResults.NotThere();
    }

    private static ShownBatch Shown(BatchSummary batch, ShownProgress? work) => new(
        batch.Id, batch.Source, batch.JoinedTo, batch.CarriesNumbers, batch.Order,
        batch.JoinedTo is null && batch.NeedsOrder, batch.Like, batch.AccessionNumber,
        batch.JoinedTo is not null
            ? null
            : new(
                batch.Open, batch.Undecided, batch.Asked, batch.ToTakeIn, batch.SheetsToTakeIn, batch.Sheets,
                batch.InRegister, batch.SheetsToNumber, batch.OutsidePermits, batch.UnmatchedColumns, batch.Lacks),
        [
            .. batch.Lists.Select(list => new ShownList(
                list.Id, list.FileName, list.Format, ListColumns.Headings(list.Headings), list.IsRead,
                list.RefusedBecause, list.Counts.Rows, list.At, list.By)),
        ],
        work is null ? null : WorkApi.ShownWork.Of(work));

    private static async Task<Results<Accepted, Refused>> SettleOrderAsync(
        long id, OrderSettled body, HttpContext context, AccessionDb db, SettleList settle,
        CancellationToken cancellation)
    {
        if (context.WhyNoVersion(db, VersionOf(db, id)) is { } unseen)
        {
            return unseen;
        }

        var outcome = await settle.OrderAsync(id, body.Order, await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem("/order")
            : TypedResults.Accepted($"/api/v1/batches/{id}");
    }

    private static async Task<Results<Accepted, Refused>> MatchAsync(
        long id, ColumnsMatched body, HttpContext context, AccessionDb db, SettleList settle,
        CancellationToken cancellation)
    {
        if (context.WhyNoVersion(db, VersionOf(db, id)) is { } unseen)
        {
            return unseen;
        }

        var outcome = await settle.MatchAsync(
            id, body.Columns ?? [], await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem("/columns")
            : TypedResults.Accepted($"/api/v1/batches/{id}");
    }

    private static async Task<Results<Accepted<TakeIn.Taken>, Refused>> TakeInAsync(
        long id, TakingIn body, HttpContext context, AccessionDb db, TakeIn takeIn, CancellationToken cancellation)
    {
        if (context.WhyNoVersion(db, VersionOf(db, id)) is { } unseen)
        {
            return unseen;
        }

        var statement = body is { Terms: { } terms, SheetsInPile: { } pile }
            ? new AccessionLot.Statement(
                terms, pile, body.CountNote, body.Conditions, body.ConditionOnArrival, body.Hazards)
            : null;
        PileCount? joining = body.SheetsInPile is { } counted ? new(counted, body.CountNote) : null;
        var outcome = await takeIn.RunAsync(
            new(id, statement, joining, body.RowsShown), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem(body.SheetsInPile is null ? "/sheetsInPile" : null)
            : TypedResults.Accepted($"/api/v1/accessions/{outcome.Value.AccessionNumber}", outcome.Value);
    }

    internal static IQueryable<Guid> VersionOf(AccessionDb db, long id) =>
        db.Batches.Held().Where(batch => batch.Id == id).Select(batch => batch.Version);

    private static RouteHandlerBuilder TakingList(this RouteHandlerBuilder door) => door.WithMetadata(
        new TakesFile(), new AcceptsMetadata(ListTypes, typeof(Stream)));
}
