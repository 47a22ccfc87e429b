using System.Globalization;
using Accession.Core.Determinations;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Finding;
using Accession.Storage.Localities;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

public sealed class SpecimenPageModel(
    AccessionDb db, SeenSheets seen, TypedNumbers typed, CorrectedRecords corrected, TimeProvider clock) : PageModel
{
    public ShownSpecimen Shown { get; private set; } = null!;

    public bool IsCurator => User.IsInRole(nameof(Role.Curator));

    /// <summary>Whether this person works at no bench, and so sees no parcel and no load.</summary>
    public bool IsAdministratorOnly => !IsCurator && !User.IsInRole(nameof(Role.Technician));

    public DateTime Now => clock.GetUtcNow().UtcDateTime;

    /// <summary>Whether the pages of accessions and piles open for this person.</summary>
    public bool IsStaff => User.Actor().WorksHere;

    public bool MayName => IsCurator || User.IsInRole(nameof(Role.Determiner));

    public bool MayFile => IsCurator || User.IsInRole(nameof(Role.Technician));

    /// <summary>The address of the sheet that is shown.</summary>
    public string Address => SpecimenAddress.Of(
        Shown.CatalogNumber, Shown.Repeated?.Repeat ?? 0, Shown.Repeated is not null);

    private IQueryable<Specimen> Seen => seen.Of(User.Actor());

    public string? Point => LabelPlace.Point(Shown.Place);

    public string? Elevation => LabelPlace.Elevation(Shown.Place);

    public sealed record ShownSpecimen(
        long Id,
        string CatalogNumber,
        string CurrentName,
        string FiledAs,
        long GatheringId,
        string AccessionNumber,
        FieldNotes Notes,
        PublicPlace Place,
        SensitivityCategory Protection,
        IReadOnlyList<ShownName> Names,
        IReadOnlyList<ShownPart> Parts,
        DuplicateSheets Duplicates,
        Among? Repeated,
        IReadOnlyList<CorrectedRecords.Entry> Corrections,
        IReadOnlyList<TrailEntry> Trail)
    {
        public string Label => $"{Notes.RecordedBy} {Notes.RecordNumber}".Trim();

        /// <summary>What the list had, where it has no place of its own beside what was read from it.</summary>
        public IEnumerable<CorrectedRecords.Entry> Written => Corrections.DistinctBy(entry => entry.Field)
            .Where(entry => entry.Before is { Length: > 0 } && entry.Field is not (CorrectedField.Collectors
                or CorrectedField.Date or CorrectedField.Coordinates or CorrectedField.Elevation));
    }

    /// <summary>Which of the sheets it is that bear one number; 0 for the first.</summary>
    public sealed record Among(int Repeat, int Sheets);

    public sealed record ShownName(
        long Id, string Name, string Qualifier, string IdentifiedBy, string DateIdentified, DeterminationKind Kind,
        SeenOn SeenOn, string Reason, bool Waits)
    {
        public bool IsCurrent { get; init; }

        public string By => IdentifiedBy.Length == 0 || Kind != DeterminationKind.Listed
            ? $"{Kind.Said()} {IdentifiedBy}".TrimEnd()
            : IdentifiedBy;

        public string Seen => SeenOn.Said();
    }

    public sealed record ShownPart(
        long Id, string Code, string Holder, bool IsNumbered, bool IsFromBefore, Zone Zone, string? Place,
        DateTime? CameFromOutsideAt, DateTime? ClearedAt, ClearedBy? ClearedBy, DateTime? MayOpenFrom, Step? NextStep,
        string? Parcel, int? Load)
    {
        /// <summary>Whether it may come in, as <see cref="Part.IsCleared"/> has it.</summary>
        public bool IsCleared => CameFromOutsideAt is null
            ? IsFromBefore || ClearedAt is not null
            : ClearedAt > CameFromOutsideAt;
    }

    /// <summary>The sheets that bear the number asked for, where it is not one; the page then asks which.</summary>
    public IReadOnlyList<BearingSheet> Bearing { get; private set; } = [];

    /// <summary>The number that was asked for.</summary>
    public string Number { get; private set; } = "";

    /// <summary>One of several sheets that bear one number.</summary>
    public sealed record BearingSheet(
        string CatalogNumber, int Repeat, string Name, string Collector, string RecordNumber, string EventDate,
        string DateVerbatim, string Accession)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, isRepeated: true);
    }

    /// <param name="Act">The act of a correction, which has a page of its own.</param>
    public sealed record TrailEntry(DateTime At, string What, string Who, long? Act = null);

    public async Task<IActionResult> OnGetAsync(string catalogNumber, int? sheet, CancellationToken cancellation)
    {
        Number = SpecimenAddress.NumberIn(catalogNumber);
        var bearing = await BearingAsync(Number, cancellation);
        if (bearing.Count == 0)
        {
            return await ElsewhereAsync(cancellation);
        }

        if (sheet is null && bearing.Count > 1)
        {
            Bearing = bearing;
            return Page();
        }

        var meant = sheet is null ? bearing[0] : bearing.FirstOrDefault(one => one.Repeat == sheet - 1);
        if (meant is null)
        {
            return NotFound();
        }

        Shown = await LoadAsync(meant.CatalogNumber, meant.Repeat, bearing.Count, cancellation);
        return Page();
    }

    // Whatever spelling was typed or scanned, a number has one address. One that leads to a sheet while that is the
    // only one is no address for good.
    private async Task<IActionResult> ElsewhereAsync(CancellationToken cancellation)
    {
        var meant = await typed.FindAsync(Number, Seen, cancellation);
        return meant switch
        {
            { Certain: { } written } => RedirectPermanent(SpecimenAddress.Of(written)),
            { Possible: [var only] } => Redirect(SpecimenAddress.Of(only)),
            { Possible.Count: > 1 } => Redirect($"/specimens?q={Uri.EscapeDataString(Number)}"),
            _ => NotFound(),
        };
    }

    // Those that bear the number in another spelling too, where it is one of a series.
    private Task<List<BearingSheet>> BearingAsync(string number, CancellationToken cancellation) => Seen
        .Where(s => db.Specimens.Any(
            o => o.CatalogNumber == number && o.SeriesId == s.SeriesId && o.Number == s.Number))
        .OrderBy(s => s.Repeat)
        .Select(s => new BearingSheet(
            s.CatalogNumber, s.Repeat, s.CurrentName, s.Gathering.Notes.RecordedBy, s.Gathering.Notes.RecordNumber,
            s.Gathering.Notes.EventDate, s.Gathering.Notes.DateVerbatim,
            db.Accessions.Where(lot => lot.Id == s.Gathering.AccessionId).Select(lot => lot.Number).Single()))
        .ToListAsync(cancellation);

    /// <summary>A stored partial date in words.</summary>
    public string ForPeople(string iso) => CollectingDate.FromIso8601(iso).ForPeople();

    private async Task<ShownSpecimen> LoadAsync(
        string catalogNumber, int repeat, int bearing, CancellationToken cancellation)
    {
        var found = await db.Specimens.Where(s => s.CatalogNumber == catalogNumber && s.Repeat == repeat)
            .Select(s => new
            {
                s.Id,
                s.CatalogNumber,
                s.CurrentName,
                s.CurrentDeterminationId,
                s.FiledAs,
                s.GatheringId,
                s.Gathering.Notes,
                s.Gathering.Place,
                s.Gathering.Protection,
                Accession = db.Accessions.Where(lot => lot.Id == s.Gathering.AccessionId)
                    .Select(lot => new
                    {
                        lot.Number,
                        lot.Act.At,
                        lot.Act.ActorName,
                        Source = db.Batches.Where(b => b.Id == lot.BatchId).Select(b => b.Source.Name).Single(),
                    })
                    .Single(),
                IsFromBefore = s.Parts.Any(part => part.IsFromBefore),
                Numbered = new TrailEntry(s.Act.At, "Numbered", s.Act.ActorName),
            })
            .SingleAsync(cancellation);
        var names = await db.Specimens.Where(s => s.Id == found.Id).SelectMany(s => s.Determinations)
            .OrderBy(d => d.Id)
            .Select(d => new ShownName(
                d.Id, d.Name, d.Qualifier, d.IdentifiedBy, d.DateIdentified, d.Kind, d.SeenOn, d.Reason, d.Waits))
            .ToListAsync(cancellation);
        var parts = await db.Parts.Where(p => p.SpecimenId == found.Id).OrderBy(p => p.Id)
            .Select(p => new ShownPart(
                p.Id, p.Code, p.Holder, p.IsNumbered, p.IsFromBefore, p.Zone,
                db.Places.Where(place => place.Id == p.PlaceId).Select(place => place.Name).FirstOrDefault(),
                p.CameFromOutsideAt, p.ClearedAt, p.ClearedBy, p.MayOpenFrom, p.NextStep,
                db.Parcels.Where(parcel => parcel.Id == p.ParcelId).Select(parcel => parcel.Tag).FirstOrDefault(),
                db.Loads.Where(load => load.Id == p.LoadId).Select(load => (int?)load.Number).FirstOrDefault()))
            .ToListAsync(cancellation);
        var corrections = await corrected.EntriesAsync(
            db.Corrections.Where(c => c.GatheringId == found.GatheringId), cancellation);
        var duplicates = await DuplicateSheets.OfAsync(
            db, found.GatheringId, seen.GatheringsOf(User.Actor()), cancellation);
        return new(
            found.Id, found.CatalogNumber, found.CurrentName, found.FiledAs, found.GatheringId, found.Accession.Number,
            found.Notes, found.Place,
            found.Protection,
            names.ConvertAll(name => name with
            {
                IsCurrent = name.Id == (found.CurrentDeterminationId ?? names[0].Id),
            }),
            parts, duplicates,
            bearing > 1 ? new(repeat, bearing) : null,
            corrections,
            [
                .. found.IsFromBefore
                    ? [TakenOver(found.Numbered, found.Accession.Source, found.Accession.Number)]
                    : new TrailEntry[]
                    {
                        new(
                            found.Accession.At,
                            $"Taken into the register as accession {found.Accession.Number}",
                            found.Accession.ActorName),
                        found.Numbered,
                    },
                .. (await TrailAsync(found.Id, found.GatheringId, cancellation))
                    .Concat(corrections.Select(c => new TrailEntry(c.At, c.Sentence(), c.By, c.ActId)))
                    .OrderBy(entry => entry.At),
            ]);
    }

    private static TrailEntry TakenOver(TrailEntry act, string source, string accession) => act with
    {
        What = $"Taken over from {source} with the number it bore, as accession {accession}",
    };

    private async Task<List<TrailEntry>> TrailAsync(long specimenId, long gatheringId, CancellationToken cancellation)
    {
        var custody = await db.Parts.Where(p => p.SpecimenId == specimenId).SelectMany(p => p.Custody)
            .Select(c => new TrailEntry(c.Act.At, "In the hands of " + c.Holder, c.Act.ActorName))
            .ToListAsync(cancellation);
        var steps = await db.Parts.Where(p => p.SpecimenId == specimenId).SelectMany(p => p.Steps)
            .Where(s => s.Step != Step.Treated)
            .Select(s => new TrailEntry(
                s.Act.At,
                s.Step == Step.Numbered ? "Number scanned back from the sheet"
                    : s.Mark == StepMark.Done ? s.Step.ToString()
                    : s.Step.ToString() + ": taken back",
                s.Act.ActorName))
            .ToListAsync(cancellation);
        var treated = await TreatmentTrail.OfAsync(db, specimenId, cancellation);
        var protections = await db.Gatherings.Where(g => g.Id == gatheringId).SelectMany(g => g.Protections)
            .Select(p => new
            {
                p.Act.At,
                p.Act.ActorName,
                IsLifted = p.Category == SensitivityCategory.NotSensitive,
            })
            .ToListAsync(cancellation);
        var named = await db.Determinations.Where(d => d.SpecimenId == specimenId && d.Kind != DeterminationKind.Listed)
            .Select(d => new TrailEntry(d.Act.At, "Named " + d.Name + " by " + d.IdentifiedBy, d.Act.ActorName))
            .ToListAsync(cancellation);
        var chosen = await db.Specimens.Where(s => s.Id == specimenId).SelectMany(s => s.Choices)
            .Where(c => c.Counts)
            .Join(db.Determinations, c => c.DeterminationId, d => d.Id, (c, d) => new TrailEntry(
                c.Act.At, d.Name + " became the current name", c.Act.ActorName))
            .ToListAsync(cancellation);
        var filed = await db.Specimens.Where(s => s.Id == specimenId).SelectMany(s => s.Filings)
            .Select(f => new TrailEntry(f.Act.At, "Filed as " + f.Name, f.Act.ActorName))
            .ToListAsync(cancellation);
        return
        [
            .. custody.Concat(steps).Concat(treated).Concat(named).Concat(chosen).Concat(filed)
                .Concat(protections.Select(p => new TrailEntry(
                    p.At, p.IsLifted ? "Protection of the place lifted" : "Place protected", p.ActorName))),
        ];
    }
}
