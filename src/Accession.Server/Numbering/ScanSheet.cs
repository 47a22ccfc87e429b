using System.Linq.Expressions;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>
/// What a scan at the numbering bench does: the barcode of a roll numbers the sheet of the gathering in hand; a number
/// that was issued and is scanned for the first time proves itself; anything else is said aloud and changes nothing.
/// </summary>
public sealed class ScanSheet(AccessionDb db, NumberSheet number, CatalogNumbers codes, TimeProvider clock)
{
    private const int MostNamed = 5;

    /// <param name="GatheringId">The gathering in hand; null when none is chosen.</param>
    /// <param name="ParcelId">The parcel it is taken out of, where its batch came in several.</param>
    public sealed record Request(string? Code, long? GatheringId, long? ParcelId = null);

    public async Task<Outcome<SheetAtBench>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var text = request.Code?.Trim() ?? "";
        var meaning = await codes.ReadAsync(text, cancellation);
        if (meaning.Joined is var (first, second))
        {
            return new Refusal(RefusalKind.Invalid,
                $"Two codes ran together: {first} and {second}. Nothing was done; scan them one at a time.");
        }

        if (meaning.FromBefore is { } before)
        {
            return meaning.Code is { } also
                ? new Refusal(RefusalKind.Invalid,
                    $"{before} is on a sheet that was taken over, and may stand for {also.Written} as well. Nothing "
                    + "was done; type the whole number with its letters.")
                : await WhyBorneAsync(before, s => s.CatalogNumber == before, cancellation);
        }

        if (meaning.Code is not { } code)
        {
            return new Refusal(RefusalKind.NotFound, text.Length == 0
                ? "Nothing was scanned."
                : $"\"{Shown(text)}\" is no number of ours. Nothing was done.");
        }

        var (series, number) = (code.Series.Id, code.Number);
        return await db.Specimens.CountAsync(s => s.SeriesId == series && s.Number == number, cancellation) switch
        {
            0 => await NumberAsync(code, request, door, cancellation),
            1 => await ScanBackAsync(code, request.GatheringId, door, cancellation),
            _ => await WhyBorneAsync(
                code.Written, s => s.SeriesId == series && s.Number == number, cancellation),
        };
    }

    // A sheet that was taken over has its number. If it is not the one in the hand, two sheets bear one number; and if
    // several are known to, only who has it in the hand can say which it is.
    private async Task<Refusal> WhyBorneAsync(
        string number, Expression<Func<Specimen, bool>> bears, CancellationToken cancellation)
    {
        var sheets = await db.Specimens.Where(bears).OrderBy(s => s.Repeat).Take(MostNamed + 1)
            .Select(s => new { s.Repeat, s.Gathering.Notes.RecordedBy, s.Gathering.Notes.RecordNumber, s.CurrentName })
            .ToListAsync(cancellation);
        var named = sheets.Take(MostNamed).Select(s =>
            string.Join(' ', new[] { s.RecordedBy, s.RecordNumber, s.CurrentName }.Where(word => word.Length > 0)))
            .ToList();
        return new(RefusalKind.Conflict, named is [var only]
            ? $"{number} is taken: it is on a sheet of {only}, which was taken over with it. If that is not the sheet "
                + "in your hand, two sheets bear one number: set this one aside."
            : $"{number} is on more than one sheet. Which is in your hand? "
                + string.Join("; ", named.Select((sheet, i) => $"sheet {i + 1}: {sheet}"))
                + (sheets.Count > MostNamed ? "; and more" : "") + ". Nothing was done.");
    }

    private async Task<Outcome<SheetAtBench>> NumberAsync(
        CatalogNumbers.Found code, Request request, Door door, CancellationToken cancellation)
    {
        if (request.GatheringId is not { } gathering)
        {
            return new Refusal(RefusalKind.Invalid,
                $"{code.Written} is on no sheet yet, and no gathering is in hand. Choose the gathering first.");
        }

        return await number.RunAsync(
            new(gathering, code.Series.Id, code.Number, request.ParcelId), door, cancellation);
    }

    private Task<Outcome<SheetAtBench>> ScanBackAsync(
        CatalogNumbers.Found code, long? gatheringId, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "scan a number back", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<SheetAtBench>(
            door, act,
            async () =>
            {
                var (series, number) = (code.Series.Id, code.Number);
                var specimen = await db.Specimens.Include(s => s.Gathering)
                    .SingleAsync(s => s.SeriesId == series && s.Number == number && s.Repeat == 0, cancellation);
                var part = specimen.Parts[0];
                var gathering = specimen.Gathering;
                if (part.IsNumbered || part.IsFromBefore)
                {
                    return Taken(specimen, gatheringId);
                }

                var plan = part.PlanId is { } followed
                    ? await db.StepPlans.AsNoTracking().SingleAsync(one => one.Id == followed, cancellation)
                    : null;
                if (part.ScanBack(plan, act) is { } refusal)
                {
                    return refusal;
                }

                return new SheetAtBench(
                    BenchResult.Proven, specimen.CatalogNumber, gathering.Id, gathering.Label, specimen.CurrentName,
                    gathering.SheetsNumbered, gathering.SheetsExpected);
            },
            cancellation);
    }

    private static Refusal Taken(Specimen specimen, long? gatheringId) => new(
        RefusalKind.Conflict,
        specimen.GatheringId == gatheringId
            ? $"{specimen.CatalogNumber} is on a sheet of this gathering already. If this is another sheet, it needs a "
                + "number of its own."
            : $"{specimen.CatalogNumber} is taken: it is on a sheet of {specimen.Gathering.Label}. If it is not the "
                + "sheet in your hand, two sheets bear one number: set this one aside.");

    private static string Shown(string text) => text.Length <= 60 ? text : text[..60] + "…";
}
