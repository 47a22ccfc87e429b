using System.ComponentModel;
using Accession.Core.Determinations;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Determining;

internal static class DeterminingApi
{
    public static void MapDeterminingApi(this IEndpointRouteBuilder api)
    {
        var sheets = api.MapGroup("/specimens/{catalogNumber}/determinations").WithTags("Determinations")
            .RequireRight(Right.NameSheets);
        sheets.MapGet("/", ListAsync).WithSummary("What a sheet was named, by whom and when, the oldest first");
        sheets.MapPost("/", RecordAsync).WithMetadata(new AsksVersion())
            .WithSummary("Record an opinion; it waits for a curator")
            .WithMetadata(new BodyExample(
                """{"name": "Poa cusickii Vasey", "identifiedBy": "Ivo Larch", "date": "2026-03"}"""));
    }

    /// <summary>An opinion.</summary>
    /// <param name="Waits">Whether a curator has still to say whether it counts.</param>
    internal sealed record ShownOpinion(
        long Id, string Name, string Qualifier, string Family, string IdentifiedBy, string DateIdentified,
        DeterminationKind Kind, SeenOn SeenOn, string Reason, bool Waits, bool IsCurrent);

    /// <summary>What is said of a sheet.</summary>
    internal sealed record Opinions(IReadOnlyList<ShownOpinion> Items);

    /// <summary>What a slip says.</summary>
    internal sealed record Slip(
        string? Name, string? Qualifier, string? Family, string? IdentifiedBy,
        [property: Description("A day, a month or a year, as on the slip.")] string? Date, DeterminationKind? Kind,
        SeenOn? SeenOn, string? Reason,
        [property: Description("Which of the sheets that bear the number, from 1.")] int? Sheet);

    private static async Task<Results<Tagged<Opinions>, Refused>> ListAsync(
        string catalogNumber, [Description("Which of the sheets that bear the number, from 1.")] int? sheet,
        AccessionDb db, CancellationToken cancellation)
    {
        var (number, repeat) = (SpecimenAddress.NumberIn(catalogNumber), (sheet ?? 1) - 1);
        var found = await db.Specimens.Where(s => s.CatalogNumber == number && s.Repeat == repeat)
            .Select(s => new { s.Id, s.Version, s.CurrentDeterminationId }).SingleOrDefaultAsync(cancellation);
        if (found is null)
        {
            return RefusalResults.NotThere();
        }

        var opinions = await db.Determinations.AsNoTracking().Where(d => d.SpecimenId == found.Id).OrderBy(d => d.Id)
            .ToListAsync(cancellation);
        var current = found.CurrentDeterminationId ?? opinions.FirstOrDefault()?.Id;
        return new Tagged<Opinions>(
            new([.. opinions.Select(d => new ShownOpinion(
                d.Id, d.Name, d.Qualifier, d.Family, d.IdentifiedBy, d.DateIdentified, d.Kind, d.SeenOn, d.Reason,
                d.Waits, d.Id == current))]),
            found.Version);
    }

    private static async Task<Results<Ok<RecordOpinion.Recorded>, Refused>> RecordAsync(
        string catalogNumber, Slip body, HttpContext context, AccessionDb db, RecordOpinion record,
        CancellationToken cancellation)
    {
        var (number, repeat) = (SpecimenAddress.NumberIn(catalogNumber), (body.Sheet ?? 1) - 1);
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

        var slip = new Opinion.Typed(
            body.Name, body.Qualifier, body.Family, body.IdentifiedBy, body.Date,
            body.Kind ?? DeterminationKind.NewName, body.SeenOn ?? SeenOn.Unknown, body.Reason);
        var outcome = await record.RunAsync(
            new(id.Value, slip, Counts: false), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/name") : TypedResults.Ok(outcome.Value);
    }
}
