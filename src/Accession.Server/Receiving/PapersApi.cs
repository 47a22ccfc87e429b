using System.ComponentModel;
using Accession.Core.Accessions;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
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
        batch.MapGet("/papers/{paperId:long}/description", ShowPaperAsync)
            .WithSummary("A paper as it is listed, without the file");
        batch.MapPost("/papers/{paperId:long}/withdrawals", SetPaperAsideAsync).WithMetadata(new AsksVersion())
            .WithSummary("Set a paper aside; it stays, with the reason");
        batch.MapGet("/permits", ListPermitsAsync).WithSummary("The permits under which a batch was collected");
        batch.MapGet("/permits/{permitId:long}", ShowPermitAsync).WithSummary("A permit");
        batch.MapPost("/permits", WritePermitAsync).WithMetadata(new AsksVersion(IsAlways: false))
            .WithSummary("Write a permit down, or correct one")
            .WithMetadata(new BodyExample(
                """{"kind": "collecting", "number": "2026-14", "from": "2026-01-01", "counties": ["Harney"]}"""));
        batch.MapPost("/permits/{permitId:long}/withdrawals", SetPermitAsideAsync).WithMetadata(new AsksVersion())
            .WithSummary("Set a permit aside; it stays, with the reason");
    }

    /// <summary>What a permit says.</summary>
    internal sealed record Permitting(
        PermitKind? Kind, string? Number, string? Issuer, DateOnly? From, DateOnly? Until, string? Country,
        string? StateProvince, IReadOnlyList<string>? Counties, IReadOnlyList<string>? Taxa, string? Conditions,
        long? PaperId,
        [property: Description("The permit that is corrected, as If-Match has its tag; none for a new one.")]
        long? CorrectsId,
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

    private static async Task<Results<Tagged<ShownPaper>, Refused>> ShowPaperAsync(
        long id, long paperId, AccessionDb db, CancellationToken cancellation) =>
        await PaperAsync(id, paperId, db, cancellation) is { } paper
            ? new Tagged<ShownPaper>(paper)
            : RefusalResults.NotThere();

    private static async Task<Results<Tagged<ShownPermit>, Refused>> ShowPermitAsync(
        long id, long permitId, AccessionDb db, CancellationToken cancellation) =>
        await PermitAsync(id, permitId, db, cancellation) is { } permit
            ? new Tagged<ShownPermit>(permit)
            : RefusalResults.NotThere();

    private static Refused? WhyPermitNotAsSeen(HttpContext context, AccessionDb db, long id, long permitId) =>
        context.WhyNotAsSeen(
            db, db.Permits.Held().Where(p => p.Id == permitId), token => PermitAsync(id, permitId, db, token));

    private static async Task<ShownPaper?> PaperAsync(
        long id, long paperId, AccessionDb db, CancellationToken cancellation) =>
        (await ShownPaper.OfAsync(db, id, cancellation, paperId)).SingleOrDefault();

    private static async Task<ShownPermit?> PermitAsync(
        long id, long permitId, AccessionDb db, CancellationToken cancellation) =>
        (await ShownPermit.OfAsync(db, id, cancellation, permitId)).SingleOrDefault(permit => permit.Id == permitId);

    private static async Task<Results<Ok<KeepPaper.Kept>, Refused>> KeepPaperAsync(
        long id, [Description("transmittal, deedOfGift, permit, cites, phytosanitary, letter or other.")] string? kind,
        string? remark, string? fileName, HttpContext context, PaperFiles files, KeepPaper keep,
        IOptions<ReceivingOptions> options, CancellationToken cancellation)
    {
        // As bodies write it; an enum in an address is read only in the letters of the source.
        PaperKind? meant = Enum.GetValues<PaperKind>().Where(
            one => one.ToString().Equals(kind, StringComparison.OrdinalIgnoreCase)).Select(one => (PaperKind?)one)
            .FirstOrDefault();
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
            new(id, meant, remark, paper), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem(meant is null ? "/kind" : null)
            : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<Named>, Refused>> SetPaperAsideAsync(
        long id, long paperId, SettingAside body, HttpContext context, AccessionDb db, SetPaperAside setAside,
        CancellationToken cancellation)
    {
        if (context.WhyNotAsSeen(
            db, db.Papers.Held().Where(p => p.Id == paperId),
            token => PaperAsync(id, paperId, db, token)) is { } unseen)
        {
            return unseen;
        }

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
        long id, Permitting body, HttpContext context, AccessionDb db, WritePermit write,
        CancellationToken cancellation)
    {
        if (body.CorrectsId is { } corrected && WhyPermitNotAsSeen(context, db, id, corrected) is { } unseen)
        {
            return unseen;
        }

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
        long id, long permitId, SettingAside body, HttpContext context, AccessionDb db, SetPermitAside setAside,
        CancellationToken cancellation)
    {
        if (WhyPermitNotAsSeen(context, db, id, permitId) is { } unseen)
        {
            return unseen;
        }

        var outcome = await setAside.RunAsync(
            new(id, permitId, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/reason") : TypedResults.Ok(new Named(outcome.Value));
    }

    private static Task<bool> IsThereAsync(AccessionDb db, long id, CancellationToken cancellation) =>
        db.Batches.AnyAsync(b => b.Id == id && b.JoinedToBatchId == null, cancellation);

    private static string Text(string? written) => written?.Trim() ?? "";
}
