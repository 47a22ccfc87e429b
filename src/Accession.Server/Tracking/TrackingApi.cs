using System.ComponentModel;
using Accession.Core.Accessions;
using Accession.Core.Determinations;
using Accession.Core.Localities;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

internal static class TrackingApi
{
    // Each shows of the sheets what the pages show to whoever has it.
    private static readonly Right[] Reading = [Right.ReadRegister, Right.ReadCounties, Right.ReadCollected];

    public static void MapTrackingApi(this IEndpointRouteBuilder api)
    {
        var register = api.MapGroup("").WithTags("Register");
        register.MapGet("/specimens", ListAsync).RequireRight(Reading)
            .WithSummary("The numbered sheets, the newest first, or those that answer to a text");
        register.MapGet("/specimens/{catalogNumber}", ShowAsync).RequireRight(Reading)
            .WithSummary("A sheet; a protected place is shown as far as it is public");
        register.MapGet("/own-gatherings", ListOwnAsync).RequireRight(Right.ReadCollected)
            .WithSummary("Every number that one collected, the last first, and where its sheets are");
        register.MapGet("/accessions", ListAccessionsAsync).RequireRight(Right.ReadRegister)
            .WithSummary("The accessions, the newest first");
        register.MapGet("/accessions/{number}", ShowAccessionAsync).RequireRight(Right.ReadRegister)
            .WithSummary("An accession");
        register.MapGet("/gatherings/{id:long}", ShowGatheringAsync)
            .RequireRight(Right.ReadRegister, Right.NumberSheets)
            .WithSummary("A gathering; a protected place is shown as far as it is public");
        register.MapPost("/gatherings/{id:long}/protections", ProtectAsync).RequireRight(Right.Settle)
            .WithMetadata(new AsksVersion())
            .WithSummary("Protect the place of a gathering, or lift the protection")
            .WithMetadata(new BodyExample(
                """{"category": "high", "reviewOn": "2036-01-01", "reason": "dug up elsewhere"}"""));
    }

    /// <summary>A numbered sheet.</summary>
    /// <param name="Sheet">Which of the sheets that bear the number, from 1.</param>
    internal sealed record ShownSpecimen(
        string CatalogNumber, int Sheet, string CurrentName, long GatheringId, string AccessionNumber,
        bool IsProtected, GatheringFacts Gathering, IReadOnlyList<ShownName> Names, IReadOnlyList<ShownPart> Parts);

    internal sealed record ShownName(string Name, string Qualifier, string IdentifiedBy, string DateIdentified);

    /// <param name="IsNumbered">Whether the number was scanned back from the sheet.</param>
    internal sealed record ShownPart(string Code, string Holder, bool IsNumbered);

    internal sealed record ListedAccession(long Id, string Number, string Source, DateTime At, AccessionTerms Terms);

    internal sealed record ShownAccession(
        string Number, string Source, DateTime At, string By, AccessionTerms Terms, int SheetsOnList,
        int SheetsInPile, string? CountNote, string? Conditions, string? ConditionOnArrival, string? Hazards,
        int Gatherings, int SheetsExpected, int SheetsNumbered);

    internal sealed record ShownGathering(
        long Id, string AccessionNumber, bool IsProtected, int SheetsExpected, int SheetsNumbered,
        GatheringFacts Facts);

    /// <summary>What the program's person collected.</summary>
    /// <param name="Waiting">How many sheets are here without a number.</param>
    internal sealed record OwnGathering(
        long Id, string RecordNumber, string EventDate, string VerbatimEventDate, string Name,
        string AccessionNumber, int Waiting, IReadOnlyList<OwnSheet> Sheets, IReadOnlyList<OwnSetAside> SetAside)
    {
        public static OwnGathering Of(OwnGatherings.Mine mine) => new(
            mine.Of.Id, mine.Of.RecordNumber, mine.Of.EventDate, mine.Of.DateVerbatim, mine.Of.NameVerbatim,
            mine.Of.Accession, mine.Waiting,
            [.. mine.Sheets.Select(s => new OwnSheet(s.CatalogNumber, s.Repeat + 1, s.Name, s.Holder))],
            [.. mine.SetAside.Select(away => new OwnSetAside(away.Sheets, away.Decision))]);
    }

    /// <param name="Sheet">Which of the sheets that bear the number, from 1.</param>
    internal sealed record OwnSheet(string CatalogNumber, int Sheet, string Name, string Holder);

    /// <summary>Sheets that do not stay.</summary>
    internal sealed record OwnSetAside(int Sheets, Core.Batches.RowDecision Decision);

    /// <summary>How much of a place everyone may know.</summary>
    internal sealed record Protecting(
        SensitivityCategory? Category,
        [property: Description("When it is looked at again; not needed where protection is lifted.")]
        DateOnly? ReviewOn,
        string? Reason);

    /// <summary>The gathering that was protected, as on its label.</summary>
    internal sealed record Protected(string Gathering);

    private static async Task<Results<Ok<Listed<RegisterSheets.Sheet>>, Refused>> ListAsync(
        [Description("A catalog number, collector and number or a run of numbers, or words of name, place, date.")]
        string? q, [AsParameters] Paging paging, HttpContext context, FindSheets find, RegisterSheets sheets,
        SeenSheets seen, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var who = context.User.Bearer(Reading);
        var found = await find.RunAsync(
            new RegisterQuery { Q = q }.Asked, who, after?[0], paging.Take, cancellation);
        var ids = found.Certain is not { } number
            ? found.Ids
            : await seen.Of(who).Where(s => s.CatalogNumber == number && (after == null || s.Id < after[0]))
                .OrderByDescending(s => s.Id).Take(paging.Take).Select(s => s.Id).ToListAsync(cancellation);
        return paging.Show(await sheets.OfAsync(ids, cancellation), sheet => [sheet.Id]);
    }

    private static async Task<Results<Tagged<ShownSpecimen>, Refused>> ShowAsync(
        string catalogNumber,
        [Description("Which of the sheets, from 1, where several bear the number.")] int? sheet, HttpContext context,
        ReadSpecimen read, CancellationToken cancellation)
    {
        var number = SpecimenAddress.NumberIn(catalogNumber);
        var found = await read.WithNumberAsync(number, sheet - 1, context.User.Bearer(Reading), cancellation);
        if (found.Count == 0)
        {
            return RefusalResults.NotThere();
        }

        if (found.Count > 1)
        {
            return new Refused(Problem.Of(
                409, $"{number} is on more than one sheet. Say which: sheet=1, sheet=2 and so on."));
        }

        var one = found[0];
        return new Tagged<ShownSpecimen>(
            new(
                one.CatalogNumber, one.Repeat + 1, one.CurrentName, one.GatheringId, one.Accession,
                one.Protection != SensitivityCategory.NotSensitive, GatheringFacts.Of(one.Notes, one.Place),
                [
                    .. one.Names.Where(n => n.Kind != DeterminationKind.Rejection)
                        .Select(n => new ShownName(n.Text, n.Qualifier, n.IdentifiedBy, n.DateIdentified)),
                ],
                one.Parts.ConvertAll(p => new ShownPart(p.Code, p.Holder, p.IsNumbered))),
            one.Version);
    }

    private static async Task<Results<Ok<Listed<OwnGathering>>, Refused>> ListOwnAsync(
        [Description("One's own number; all without.")] string? q, [AsParameters] Paging paging, HttpContext context,
        OwnGatherings own, CancellationToken cancellation) => paging.WhyNot(out var after) is { } wrong
        ? wrong
        : paging.Show(
            [
                .. (await own.OfAsync(
                    context.User.Bearer([Right.ReadCollected]), q, after?[0], paging.Take, cancellation))
                    .Select(OwnGathering.Of),
            ],
            mine => [mine.Id]);

    private static async Task<Results<Ok<Listed<ListedAccession>>, Refused>> ListAccessionsAsync(
        [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var before = after?[0];
        var lots = await db.Accessions.Where(lot => before == null || lot.Id < before)
            .OrderByDescending(lot => lot.Id).Take(paging.Take)
            .Select(lot => new ListedAccession(
                lot.Id, lot.Number, db.Batches.Where(b => b.Id == lot.BatchId).Select(b => b.Source.Name).Single(),
                lot.Act.At, lot.Terms))
            .ToListAsync(cancellation);
        return paging.Show(lots, lot => [lot.Id]);
    }

    private static async Task<Results<Tagged<ShownAccession>, Refused>> ShowAccessionAsync(
        string number, AccessionDb db, CancellationToken cancellation)
    {
        var found = await db.Accessions.Where(l => l.Number == number)
            .Select(l => new
            {
                l.Version,
                Lot = new ShownAccession(
                    l.Number, db.Batches.Where(b => b.Id == l.BatchId).Select(b => b.Source.Name).Single(),
                    l.Act.At, l.Act.ActorName, l.Terms, l.SheetsOnList, l.SheetsInPile, l.CountNote, l.Conditions,
                    l.ConditionOnArrival, l.Hazards, db.Gatherings.Count(g => g.AccessionId == l.Id),
                    db.Gatherings.Where(g => g.AccessionId == l.Id).Sum(g => g.SheetsExpected),
                    db.Gatherings.Where(g => g.AccessionId == l.Id).Sum(g => g.SheetsNumbered)),
            })
            .SingleOrDefaultAsync(cancellation);
        return found is null ? RefusalResults.NotThere() : new Tagged<ShownAccession>(found.Lot, found.Version);
    }

    private static async Task<Results<Tagged<ShownGathering>, Refused>> ShowGatheringAsync(
        long id, AccessionDb db, CancellationToken cancellation)
    {
        var found = await db.Gatherings.Where(g => g.Id == id)
            .Select(g => new
            {
                g.Version,
                g.Notes,
                g.Place,
                g.Protection,
                g.SheetsExpected,
                g.SheetsNumbered,
                Accession = db.Accessions.Where(lot => lot.Id == g.AccessionId).Select(lot => lot.Number).Single(),
            })
            .SingleOrDefaultAsync(cancellation);
        return found is null
            ? RefusalResults.NotThere()
            : new Tagged<ShownGathering>(
                new(
                    id, found.Accession, found.Protection != SensitivityCategory.NotSensitive, found.SheetsExpected,
                    found.SheetsNumbered, GatheringFacts.Of(found.Notes, found.Place)),
                found.Version);
    }

    private static async Task<Results<Ok<Protected>, Refused>> ProtectAsync(
        long id, Protecting body, HttpContext context, AccessionDb db, ProtectLocality protect,
        CancellationToken cancellation)
    {
        var version = db.Gatherings.Held().Where(g => g.Id == id).Select(g => g.Version);
        if (context.WhyNoVersion(db, version) is { } unseen)
        {
            return unseen;
        }

        var outcome = await protect.RunAsync(
            new(id, body.Category, body.ReviewOn, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem(body.Category is null ? "/category" : null)
            : TypedResults.Ok(new Protected(outcome.Value));
    }
}
