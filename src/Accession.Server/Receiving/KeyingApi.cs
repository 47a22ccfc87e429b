using System.ComponentModel;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// A pile without a list, its labels keyed one after another. It is a batch, and is settled, taken in and closed as
/// one.
/// </summary>
internal static class KeyingApi
{
    public static void MapKeyingApi(this IEndpointRouteBuilder api)
    {
        var piles = api.MapGroup("/keyed-piles").WithTags("Keying").RequireRight(Right.KeyLabels);
        piles.MapGet("/", ListAsync).WithSummary("The piles that are being keyed, the newest first");
        piles.MapPost("/", BeginAsync).WithSummary("Begin to key a pile that came without a list")
            .WithMetadata(new BodyExample("""{"source": "Orla Finch"}"""));
        piles.MapGet("/{id:long}/labels", ListLabelsAsync).WithSummary("The labels of a pile, those keyed last first");
        piles.MapPost("/{id:long}/labels", KeyAsync)
            .WithSummary("Key a label, or correct one that is not in the register yet")
            .WithMetadata(new BodyExample(
                """{"typed": {"Collector": "O. Finch", "Number": "101", "Name": "Poa secunda J.Presl"}}"""));
        piles.MapPost("/{id:long}/labels/{rowId:long}/withdrawals", TakeOutAsync)
            .WithSummary("Take out a label that was keyed twice or by mistake; it stays on record");
    }

    /// <summary>A pile that begins.</summary>
    internal sealed record Beginning(
        [property: Description("Who sends it: a collector, a project or a herbarium.")] string? Source,
        [property: Description("The tag of the parcel that it came in, which is for curators to say.")]
        string? ParcelTag);

    /// <summary>The batch that the pile is.</summary>
    internal sealed record Begun(long BatchId);

    /// <summary>What a label says.</summary>
    internal sealed record Keying(
        [property: Description(
            "To the letter, by heading: Collector, Number, Date, Name, Determined by, Date determined, Country, State, "
            + "County, Place, Coordinates, Elevation, Habitat, Habit, Notes, Sheets.")]
        Dictionary<string, string?>? Typed,
        [property: Description("The row that this corrects; none for another label.")] long? Corrects);

    /// <summary>A label as it was kept.</summary>
    /// <param name="Label">
    /// As it stands now, with what could not be read of it, and what it was found to be: nothing while that is still
    /// looked for. Null where it stands no longer.
    /// </param>
    internal sealed record Keyed(long RowId, int Line, KeyedPile.Label? Label);

    private static async Task<Results<Ok<Listed<KeyedPile.BeingKeyed>>, Refused>> ListAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation) =>
        paging.WhyNot(out var after) is { } wrong
            ? wrong
            : paging.Show(
                await KeyedPile.BeingKeyedAsync(db, after?[0], paging.Take, cancellation), pile => [pile.BatchId]);

    private static async Task<Results<Ok<Begun>, Refused>> BeginAsync(
        Beginning body, HttpContext context, BeginPile begin, CancellationToken cancellation)
    {
        var outcome = await begin.RunAsync(
            new(body.Source, body.ParcelTag), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem("/source")
            : TypedResults.Ok(new Begun(outcome.Value));
    }

    private static async Task<Results<Ok<Listed<KeyedPile.Label>>, Refused>> ListLabelsAsync(
        long id, [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation) =>
        paging.WhyNot(out var after) is { } wrong ? wrong
        : !await KeyedPile.Typed(db, id).AnyAsync(cancellation) ? RefusalResults.NotThere()
        : paging.Show(
            await KeyedPile.EarlierAsync(
                db, id, (int)(after?[0] ?? int.MaxValue), cancellation, paging.Take),
            label => [label.Line]);

    private static async Task<Results<Ok<Keyed>, Refused>> KeyAsync(
        long id, Keying body, HttpContext context, AccessionDb db, KeyLabel key, CancellationToken cancellation)
    {
        var typed = (body.Typed ?? []).ToDictionary(pair => pair.Key, pair => pair.Value ?? "");
        if (typed.Keys.FirstOrDefault(heading => TypedFields.All.All(f => f.Heading != heading)) is { } unknown)
        {
            // What is misspelt would otherwise count as not typed.
            return new List<Refusal> { new(RefusalKind.Invalid, $"No field is called \"{unknown}\".") }
                .ToProblem($"/typed/{unknown}");
        }

        var outcome = await key.RunAsync(new(id, typed, body.Corrects), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem("/typed")
            : await AnswerAsync(id, outcome.Value, db, cancellation);
    }

    private static async Task<Results<Ok<Keyed>, Refused>> TakeOutAsync(
        long id, long rowId, HttpContext context, AccessionDb db, KeyLabel key, CancellationToken cancellation)
    {
        var outcome = await key.TakeOutAsync(id, rowId, await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem()
            : await AnswerAsync(id, outcome.Value, db, cancellation);
    }

    private static async Task<Ok<Keyed>> AnswerAsync(
        long id, KeyLabel.Kept kept, AccessionDb db, CancellationToken cancellation) => TypedResults.Ok(new Keyed(
            kept.RowId, kept.Line, await KeyedPile.LabelAsync(db, id, kept.RowId, cancellation)));
}
