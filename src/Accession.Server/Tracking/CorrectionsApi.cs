using System.ComponentModel;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Accession.Storage.Localities;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

internal static class CorrectionsApi
{
    public static void MapCorrectionsApi(this IEndpointRouteBuilder api)
    {
        var register = api.MapGroup("").WithTags("Corrections");
        register.MapGet("/gatherings/{id:long}/corrections", ListAsync).RequireRight(Right.ReadRegister)
            .WithSummary("What was corrected in a gathering, the oldest first; of a protected place only which field");
        register.MapPost("/gatherings/{id:long}/corrections", CorrectAsync).RequireRight(Right.Settle)
            .WithMetadata(new AsksVersion())
            .WithSummary("Correct facts of an accepted gathering; its duplicates change with it")
            .WithMetadata(new BodyExample(
                """{"facts": {"county": "Harney", "elevation": "4,120 ft"}, "reason": "label read again"}"""));
        register.MapPost("/correction-previews", PreviewAsync).RequireRight(Right.Settle)
            .WithSummary("What a correction of one field would do to many gatherings; nothing is changed")
            .WithMetadata(new BodyExample(
                """{"gatheringIds": [12, 13], "field": "county", "find": "Harny", "with": "Harney"}"""));
        register.MapPost("/corrections", CorrectManyAsync).RequireRight(Right.Settle)
            .WithSummary("Correct one field of many gatherings as previewed: all of them or none")
            .WithMetadata(new BodyExample("""
                {"gatherings": [{"gatheringId": 12, "version": "5f0c9b3c-1f6e-4c0f-8f3f-3b9f3c1d2e4a"}],
                 "field": "county", "find": "Harny", "with": "Harney", "reason": "one letter was missing"}
                """));
        register.MapPost("/corrections/{actId:long}/reversals", TakeBackAsync).RequireRight(Right.Settle)
            .WithSummary("Take back everything that one act corrected")
            .WithMetadata(new BodyExample("""{"reason": "the label was right"}"""));
    }

    /// <summary>A correction.</summary>
    /// <param name="IsWithheld">Whether the texts are withheld, because they tell a protected place.</param>
    internal sealed record ShownCorrection(
        long Id, CorrectedField Field, bool IsWithheld, string? Before, string? After, string? Reason, string By,
        DateTime At, long ActId, long? TakesBackActId);

    internal sealed record Correcting(
        [property: Description("What is to stand, by field, as somebody would type it; empty where nothing is known.")]
        IReadOnlyDictionary<CorrectedField, string?>? Facts,
        string? Reason);

    internal sealed record Previewing(
        [property: Description("At most 200.")] IReadOnlyList<long>? GatheringIds,
        CorrectedField? Field,
        [property: Description("The text to be replaced; without it the same stands in all of them.")] string? Find,
        string? With);

    internal sealed record CorrectingMany(
        [property: Description("Those of the preview, each with its version.")]
        IReadOnlyList<CorrectMany.Chosen>? Gatherings,
        CorrectedField? Field, string? Find, string? With, string? Reason);

    internal sealed record TakingBack(string? Reason);

    /// <param name="Gatherings">Those that were asked for, and their duplicates.</param>
    internal sealed record Previewed(IReadOnlyList<PreviewedGathering> Gatherings);

    /// <param name="WhyNot">Why it cannot be corrected so; null where it can.</param>
    internal sealed record PreviewedGathering(
        long GatheringId, Guid Version, string Gathering, bool IsChanged, string? Before, string? After,
        string? WhyNot);

    private static async Task<Results<Ok<Listed<ShownCorrection>>, Refused>> ListAsync(
        long id, [AsParameters] Paging paging, HttpContext context, AccessionDb db, SeenSheets seen,
        CorrectedRecords records, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        if (!await seen.GatheringsOf(context.User.Bearer()).AnyAsync(g => g.Id == id, cancellation))
        {
            return RefusalResults.NotThere();
        }

        var from = after?[0] ?? 0;
        var page = db.Corrections.Where(c => c.GatheringId == id && c.Id > from).OrderBy(c => c.Id).Take(paging.Take);
        var entries = await records.EntriesAsync(page, cancellation);
        return paging.Show(
            [
                .. entries.Select(one => new ShownCorrection(
                    one.Id, one.Field, one.Before is null, one.Before, one.After, one.Reason, one.By, one.At, one.ActId,
                    one.TakesBackActId)),
            ],
            one => [one.Id]);
    }

    private static async Task<Results<Ok<CorrectRecord.Corrected>, Refused>> CorrectAsync(
        long id, Correcting body, HttpContext context, AccessionDb db, CorrectRecord correct,
        CancellationToken cancellation)
    {
        var version = db.Gatherings.Held().Where(g => g.Id == id).Select(g => g.Version);
        if (context.WhyNoVersion(db, version) is { } unseen)
        {
            return unseen;
        }

        var outcome = await correct.RunAsync(
            new(id, null, body.Facts ?? new Dictionary<CorrectedField, string?>(), body.Reason),
            await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<Previewed>, Refused>> PreviewAsync(
        Previewing body, CorrectMany correct, CancellationToken cancellation)
    {
        if (WhyNot(body.GatheringIds?.Count ?? 0) is { } wrong)
        {
            return wrong;
        }

        if (Change(body.Field, body.Find, body.With) is not { } change)
        {
            return Unclear();
        }

        var previews = await correct.PreviewAsync(body.GatheringIds!.ToHashSet(), change, cancellation);
        return TypedResults.Ok(new Previewed(
        [
            .. previews.Select(one => new PreviewedGathering(
                one.GatheringId, one.Version, one.Label, one.Changes.Count > 0,
                one.Changes.Count > 0 ? one.Changes[0].Before : null,
                one.Changes.Count > 0 ? one.Changes[0].After : null,
                one.WhyNot.Count > 0 ? string.Join(' ', one.WhyNot.Select(why => why.Reason)) : null)),
        ]));
    }

    private static async Task<Results<Ok<CorrectRecord.Corrected>, Refused>> CorrectManyAsync(
        CorrectingMany body, HttpContext context, CorrectMany correct, CancellationToken cancellation)
    {
        if (WhyNot(body.Gatherings?.Count ?? 0) is { } wrong)
        {
            return wrong;
        }

        if (Change(body.Field, body.Find, body.With) is not { } change)
        {
            return Unclear();
        }

        var outcome = await correct.RunAsync(
            new(body.Gatherings!, change, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<CorrectRecord.Corrected>, Refused>> TakeBackAsync(
        long actId, TakingBack body, HttpContext context, TakeCorrectionsBack takeBack, CancellationToken cancellation)
    {
        var outcome = await takeBack.RunAsync(new(actId, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(outcome.Value);
    }

    private static FactChange? Change(CorrectedField? field, string? find, string? with) => field is not { } one ? null
        : find is null ? new FactChange.Set(new Dictionary<CorrectedField, string?> { [one] = with })
        : one.IsWords() && find.Length > 0 ? new FactChange.Replace(one, find, with ?? "")
        : null;

    private static Refused? WhyNot(int gatherings) => gatherings is >= 1 and <= CorrectMany.Most
        ? null
        : new(Problem.Of(422, $"Name 1 to {CorrectMany.Most} gatherings. Nothing was done."));

    private static Refused Unclear() => new(Problem.Of(
        422, "Name the field; in a field of words, the text to be replaced too, or leave it out. Nothing was done."));
}
