using Accession.Core.Determinations;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Localities;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// Finds what is to be printed, and what stands on it. The label of a sheet whose place is protected is printed for
/// those who may see that place, with it; for others it is left out, so that no label without its place is glued on.
/// </summary>
public sealed class LabelsToPrint(AccessionDb db, ExactLocalities exactPlaces)
{
    /// <summary>The most that are printed at once.</summary>
    public const int Most = 500;

    /// <param name="Kind">What is printed.</param>
    /// <param name="Accession">The accession whose numbered sheets are meant; empty for none.</param>
    /// <param name="Codes">Codes of sheets, each on a line; empty for none.</param>
    /// <param name="Waiting">Whether the sheets are meant that wait for their label next.</param>
    /// <param name="Roll">The roll whose unused barcodes are meant; null for none.</param>
    public sealed record Request(LabelKind Kind, string? Accession, string? Codes, bool Waiting, long? Roll);

    /// <param name="Count">How many are printed.</param>
    /// <param name="Protected">How many are left out, since their place is for curators.</param>
    /// <param name="Unnamed">Slips: how many sheets have no later name, and so no slip.</param>
    /// <param name="Later">How many more there are than are printed at once.</param>
    public sealed record Found(int Count, int Protected, int Unnamed, int Later);

    /// <summary>Counts, without looking at any exact place.</summary>
    public async Task<Outcome<Found>> CountAsync(Request request, Actor by, CancellationToken cancellation)
    {
        if (request.Roll is { } roll)
        {
            var unused = await UnusedAsync(roll, cancellation);
            return unused.IsRefused
                ? unused.Refusals.ToList()
                : new Found(Math.Min(Most, unused.Value.Count), 0, 0, Math.Max(0, unused.Value.Count - Most));
        }

        var chosen = await ChosenAsync(request, cancellation);
        if (chosen.IsRefused)
        {
            return chosen.Refusals.ToList();
        }

        var all = await chosen.Value.Parts.CountAsync(cancellation);
        var hidden = request.Kind != LabelKind.Labels || by.MaySeeExactLocalities
            ? 0
            : await Protected(chosen.Value.Parts).CountAsync(cancellation);
        var named = request.Kind == LabelKind.Slips
            ? await Named(chosen.Value.Parts).CountAsync(cancellation)
            : all - hidden;
        return new Found(
            Math.Min(Most, named), hidden, request.Kind == LabelKind.Slips ? all - named : 0,
            Math.Max(0, named - Most));
    }

    /// <summary>What is printed. Each look at an exact place is put on record.</summary>
    public async Task<Outcome<List<PrintedLabel>>> RunAsync(
        Request request, Door door, CancellationToken cancellation)
    {
        if (request.Roll is { } roll)
        {
            var unused = await UnusedAsync(roll, cancellation);
            return unused.IsRefused
                ? unused.Refusals.ToList()
                : unused.Value.Take(Most).Select(PrintedLabel.Bare).ToList();
        }

        var chosen = await ChosenAsync(request, cancellation);
        if (chosen.IsRefused)
        {
            return chosen.Refusals.ToList();
        }

        var printed = request.Kind == LabelKind.Slips ? Named(chosen.Value.Parts)
            : request.Kind == LabelKind.Barcodes || door.By.MaySeeExactLocalities ? chosen.Value.Parts
            : Public(chosen.Value.Parts);
        var sheets = await SheetsAsync(printed.OrderBy(p => p.Code).ThenBy(p => p.Repeat).Take(Most), cancellation);
        if (request.Kind != LabelKind.Labels)
        {
            return sheets.ConvertAll(sheet =>
                request.Kind == LabelKind.Slips ? sheet.Slip() : PrintedLabel.Bare(sheet.Code));
        }

        var looked = await exactPlaces.LookForLabelsAsync(
            [.. sheets.Where(sheet => sheet.IsProtected).Select(sheet => sheet.GatheringId).Distinct()], door,
            cancellation);
        return looked.IsRefused
            ? looked.Refusals.ToList()
            : sheets.ConvertAll(sheet => sheet.Label(looked.Value.GetValueOrDefault(sheet.GatheringId)));
    }

    private IQueryable<Part> Protected(IQueryable<Part> parts) => parts.Where(p => db.Specimens.Any(
        s => s.Id == p.SpecimenId && s.Gathering.Protection != SensitivityCategory.NotSensitive));

    private IQueryable<Part> Public(IQueryable<Part> parts) => parts.Where(p => db.Specimens.Any(
        s => s.Id == p.SpecimenId && s.Gathering.Protection == SensitivityCategory.NotSensitive));

    // The current name is a later one: somebody gave it here, and a curator chose it.
    private IQueryable<Part> Named(IQueryable<Part> parts) => parts.Where(p => db.Specimens.Any(
        s => s.Id == p.SpecimenId && db.Determinations.Any(
            d => d.Id == s.CurrentDeterminationId && d.Kind != DeterminationKind.Listed)));

    private async Task<Outcome<Chosen>> ChosenAsync(Request request, CancellationToken cancellation)
    {
        var codes = (request.Codes ?? "").Split(
            '\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Distinct().ToList();
        var accession = request.Accession?.Trim() ?? "";
        if ((codes.Count > 0 ? 1 : 0) + (accession.Length > 0 ? 1 : 0) + (request.Waiting ? 1 : 0) != 1)
        {
            return new Refusal(RefusalKind.Invalid,
                "Choose one: an accession, some sheets, or what waits for its label.");
        }

        if (request.Waiting)
        {
            return Wrap(db.Parts.Where(p => p.NextStep == Step.Labelled));
        }

        if (accession.Length > 0)
        {
            var lot = await db.Accessions.Where(l => l.Number == accession).Select(l => (long?)l.Id)
                .SingleOrDefaultAsync(cancellation);
            return lot is null
                ? new Refusal(RefusalKind.NotFound, $"There is no accession {accession}.")
                : Wrap(db.Parts.Where(p => db.Specimens.Any(
                    s => s.Id == p.SpecimenId && s.Gathering.AccessionId == lot)));
        }

        if (codes.Count > Most)
        {
            return new Refusal(RefusalKind.Invalid, $"Write {Most} sheets at most.");
        }

        var known = await db.Parts.Where(p => codes.Contains(p.Code)).Select(p => p.Code).ToListAsync(cancellation);
        List<Refusal> unknown = [.. codes.Except(known).Select(
            code => new Refusal(RefusalKind.NotFound, $"There is no sheet {code}."))];
        return unknown is [] ? Wrap(db.Parts.Where(p => codes.Contains(p.Code))) : unknown;
    }

    private static Outcome<Chosen> Wrap(IQueryable<Part> parts) => new Chosen(parts);

    private async Task<Outcome<List<string>>> UnusedAsync(long rollId, CancellationToken cancellation)
    {
        var roll = await db.Rolls.AsNoTracking().Include(r => r.Series)
            .SingleOrDefaultAsync(r => r.Id == rollId, cancellation);
        if (roll is null)
        {
            return new Refusal(RefusalKind.NotFound, "There is no such roll.");
        }

        var used = await db.Specimens
            .Where(s => s.SeriesId == roll.SeriesId && s.Number >= roll.First && s.Number <= roll.Last)
            .Select(s => s.Number).ToListAsync(cancellation);
        var voids = await db.Voids.AsNoTracking()
            .Where(v => v.RollId == rollId && !db.VoidsTakenBack.Any(back => back.VoidId == v.Id))
            .Select(v => new { v.First, v.Last }).ToListAsync(cancellation);
        var taken = used.ToHashSet();
        List<string> unused = [];
        for (var number = roll.First; number <= roll.Last; number++)
        {
            if (!taken.Contains(number) && !voids.Any(v => v.First <= number && v.Last >= number))
            {
                unused.Add(roll.Series.Pattern.Write(number, 0));
            }
        }

        return unused;
    }

    private Task<List<Sheet>> SheetsAsync(IQueryable<Part> parts, CancellationToken cancellation) => parts
        .Join(db.Specimens, p => p.SpecimenId, s => s.Id, (p, s) => new { Part = p, Sheet = s })
        .OrderBy(one => one.Part.Code).ThenBy(one => one.Part.Repeat)
        .Select(one => new Sheet(
            one.Part.Code, one.Sheet.CurrentName, one.Sheet.GatheringId, one.Sheet.Gathering.Notes,
            one.Sheet.Gathering.Place, one.Sheet.Gathering.Protection != SensitivityCategory.NotSensitive,
            db.Accessions.Where(lot => lot.Id == one.Sheet.Gathering.AccessionId).Select(lot => lot.Number).First(),
            db.Determinations.Where(d => d.Id == one.Sheet.CurrentDeterminationId).Select(d => new Later(
                d.Qualifier, d.Family, d.IdentifiedBy, d.DateIdentified, d.Kind)).FirstOrDefault()))
        .ToListAsync(cancellation);

    private sealed record Chosen(IQueryable<Part> Parts);

    private sealed record Later(
        string Qualifier, string Family, string IdentifiedBy, string DateIdentified, DeterminationKind Kind);

    private sealed record Sheet(
        string Code, string Name, long GatheringId, FieldNotes Notes, PublicPlace Place, bool IsProtected,
        string Accession, Later? Later)
    {
        public PrintedLabel Label(ExactLocalities.Shown? exact)
        {
            string?[] place = exact is null
                ? [Place.Locality, LabelPlace.Point(Place), Elevation(LabelPlace.Elevation(Place)), Place.Habitat]
                : [exact.Locality, exact.Coordinates, Elevation(exact.Elevation), exact.Habitat];
            return new(
                Code, LabelPlace.Region(Place), Notes.Family, Name, Later?.Qualifier ?? Notes.IdentificationQualifier,
                [
                    .. place.Concat([Notes.AssociatedTaxa, exact?.Remarks ?? Place.Remarks])
                        .Where(line => !string.IsNullOrEmpty(line)).Select(line => line!),
                ],
                Notes.RecordedBy, Notes.RecordNumber, LabelDate.Of(Notes.EventDate, Notes.DateVerbatim),
                Later is null ? Named("det.", Notes.IdentifiedBy, Notes.DateIdentified) : Named(Later), Accession);
        }

        public PrintedLabel Slip() => new(
            Code, "", Later?.Family ?? "", Name, Later?.Qualifier ?? "", [], Notes.RecordedBy, Notes.RecordNumber, "",
            Later is null ? "" : Named(Later), Accession);

        private static string Named(Later later) => Named(
            later.Kind == DeterminationKind.NewerName ? "name brought up by" : later.Kind.Said(), later.IdentifiedBy,
            later.DateIdentified);

        private static string Named(string how, string who, string when) => who.Length == 0
            ? ""
            : $"{how} {who}{(when.Length > 0 ? $", {CollectingDate.FromIso8601(when).ForPeople()}" : "")}";

        private static string? Elevation(string? text) => string.IsNullOrEmpty(text) ? null : $"Elevation {text}";
    }
}
