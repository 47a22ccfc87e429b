using System.ComponentModel;
using Accession.Core.Accessions;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

/// <summary>Papers and permits of a batch; they may name landowners and places, so they count as exact.</summary>
internal static class PapersApi
{
    private static readonly string[] PaperTypes =
        ["application/pdf", "image/jpeg", "image/png", "image/tiff", "text/plain", "application/octet-stream"];

    public static void MapPapersApi(this IEndpointRouteBuilder api)
    {
        var batch = api.MapGroup("/batches/{id:long}").WithTags("Papers and permits").RequireRight(Right.Settle);
        batch.MapGet("/papers", ListPapersAsync).WithSummary("The papers that came with a batch");
        batch.MapPost("/papers", KeepPaperAsync)
            .WithMetadata(new TakesFile(), new AcceptsMetadata(PaperTypes, typeof(Stream)))
            .WithSummary("Keep a paper with a batch: the file is the body");
        batch.MapGet("/papers/{paperId:long}", PaperDownload.DownloadAsync).WithSummary("Fetch a paper");
        batch.MapPost("/papers/{paperId:long}/withdrawals", SetPaperAsideAsync)
            .WithSummary("Set a paper aside; it stays, with the reason");
        batch.MapGet("/permits", ListPermitsAsync).WithSummary("The permits under which a batch was collected");
        batch.MapPost("/permits", WritePermitAsync).WithSummary("Write a permit down, or correct one")
            .WithMetadata(new BodyExample(
                """{"kind": "collecting", "number": "2026-14", "from": "2026-01-01", "counties": ["Harney"]}"""));
        batch.MapPost("/permits/{permitId:long}/withdrawals", SetPermitAsideAsync)
            .WithSummary("Set a permit aside; it stays, with the reason");
    }

    /// <summary>What a permit says.</summary>
    internal sealed record Permitting(
        PermitKind? Kind, string? Number, string? Issuer, DateOnly? From, DateOnly? Until, string? Country,
        string? StateProvince, IReadOnlyList<string>? Counties, IReadOnlyList<string>? Taxa, string? Conditions,
        long? PaperId,
        [property: Description("The permit that is corrected; none for a new one.")] long? CorrectsId,
        [property: Description("Why it is corrected.")] string? Reason);

    /// <summary>Why it is set aside.</summary>
    internal sealed record SettingAside(string? Reason);

    /// <summary>What was written down or set aside.</summary>
    internal sealed record Named(string Name);

    private static async Task<Results<Ok<Listed<ShownPaper>>, Refused>> ListPapersAsync(
        long id, AccessionDb db, CancellationToken cancellation) =>
        await IsThereAsync(db, id, cancellation)
            ? TypedResults.Ok(new Listed<ShownPaper>(await ShownPaper.OfAsync(db, id, cancellation)))
            : RefusalResults.NotThere();

    private static async Task<Results<Ok<KeepPaper.Kept>, Refused>> KeepPaperAsync(
        long id, PaperKind? kind, string? remark, string? fileName, HttpContext context, PaperFiles files,
        KeepPaper keep, IOptions<ReceivingOptions> options, CancellationToken cancellation)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = options.Value.MaximumPaperBytes + 1;
        }

        var name = string.IsNullOrWhiteSpace(fileName) ? "paper" : fileName;
        var read = await files.ReadAsync(context.Request.Body, name, cancellation);
        if (read.IsRefused)
        {
            return read.Refusals.ToProblem();
        }

        using var paper = read.Value;
        var outcome = await keep.RunAsync(
            new(id, kind, remark, paper), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem(kind is null ? "/kind" : null)
            : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<Named>, Refused>> SetPaperAsideAsync(
        long id, long paperId, SettingAside body, HttpContext context, SetPaperAside setAside,
        CancellationToken cancellation)
    {
        var outcome = await setAside.RunAsync(
            new(id, paperId, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/reason") : TypedResults.Ok(new Named(outcome.Value));
    }

    private static async Task<Results<Ok<Listed<ShownPermit>>, Refused>> ListPermitsAsync(
        long id, AccessionDb db, CancellationToken cancellation) =>
        await IsThereAsync(db, id, cancellation)
            ? TypedResults.Ok(new Listed<ShownPermit>(await ShownPermit.OfAsync(db, id, cancellation)))
            : RefusalResults.NotThere();

    private static async Task<Results<Ok<Named>, Refused>> WritePermitAsync(
        long id, Permitting body, HttpContext context, WritePermit write, CancellationToken cancellation)
    {
        var terms = new PermitTerms(
            body.Kind, Text(body.Number), Text(body.Issuer), body.From, body.Until, Text(body.Country),
            Text(body.StateProvince), body.Counties ?? [], body.Taxa ?? [], Text(body.Conditions), body.PaperId);
        var outcome = await write.RunAsync(
            new(id, body.CorrectsId, terms, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem(body.Kind is null ? "/kind" : null)
            : TypedResults.Ok(new Named(outcome.Value));
    }

    private static async Task<Results<Ok<Named>, Refused>> SetPermitAsideAsync(
        long id, long permitId, SettingAside body, HttpContext context, SetPermitAside setAside,
        CancellationToken cancellation)
    {
        var outcome = await setAside.RunAsync(
            new(id, permitId, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/reason") : TypedResults.Ok(new Named(outcome.Value));
    }

    private static Task<bool> IsThereAsync(AccessionDb db, long id, CancellationToken cancellation) =>
        db.Batches.AnyAsync(b => b.Id == id && b.JoinedToBatchId == null, cancellation);

    private static string Text(string? written) => written?.Trim() ?? "";
}
