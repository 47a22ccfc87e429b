using System.Globalization;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

public sealed class SpecimenPageModel(AccessionDb db, TypedNumbers typed) : PageModel
{
    public ShownSpecimen Shown { get; private set; } = null!;

    public bool IsCurator => User.IsInRole(nameof(Role.Curator));

    public string? Point => Shown.Place is { Latitude: { } latitude, Longitude: { } longitude }
        ? string.Create(CultureInfo.InvariantCulture, $"{latitude:0.######}, {longitude:0.######}")
            + (Shown.Place.UncertaintyInMeters is { } radius
                ? string.Create(CultureInfo.InvariantCulture, $" ± {radius:#,0} m")
                : "")
            + (Shown.Place.GeodeticDatum.Length > 0 ? $" ({Shown.Place.GeodeticDatum})" : "")
        : null;

    public string? Elevation => Shown.Place is { MinimumElevationInMeters: { } low, MaximumElevationInMeters: { } high }
        ? Core.Localities.Elevation.OfMeters((decimal)low, (decimal)high).ForPeople()
        : null;

    public sealed record ShownSpecimen(
        string CatalogNumber,
        string CurrentName,
        long GatheringId,
        string AccessionNumber,
        FieldNotes Notes,
        PublicPlace Place,
        SensitivityCategory Protection,
        IReadOnlyList<ShownName> Names,
        IReadOnlyList<ShownPart> Parts,
        DuplicateSheets Duplicates,
        IReadOnlyList<TrailEntry> Trail)
    {
        public string Label => $"{Notes.RecordedBy} {Notes.RecordNumber}".Trim();
    }

    public sealed record ShownName(string Name, string Qualifier, string IdentifiedBy, string DateIdentified);

    public sealed record ShownPart(string Code, string Holder, bool IsNumbered);

    public sealed record TrailEntry(DateTime At, string What, string Who);

    public async Task<IActionResult> OnGetAsync(string catalogNumber, CancellationToken cancellation)
    {
        if (await LoadAsync(catalogNumber, cancellation) is { } shown)
        {
            Shown = shown;
            return Page();
        }

        // Whatever spelling was typed or scanned, a sheet has one address. A number alone leads there while it is the
        // only one, so it is no address for good.
        var meant = await typed.FindAsync(catalogNumber, cancellation);
        return meant switch
        {
            { Certain: { } written } => RedirectPermanent($"/specimen/{Uri.EscapeDataString(written)}"),
            { Possible: [var only] } => Redirect($"/specimen/{Uri.EscapeDataString(only)}"),
            { Possible.Count: > 1 } => Redirect($"/specimens?q={Uri.EscapeDataString(catalogNumber)}"),
            _ => NotFound(),
        };
    }

    /// <summary>A stored partial date in words.</summary>
    public string ForPeople(string iso) => CollectingDate.FromIso8601(iso).ForPeople();

    private async Task<ShownSpecimen?> LoadAsync(string catalogNumber, CancellationToken cancellation)
    {
        var found = await db.Specimens.Where(s => s.CatalogNumber == catalogNumber)
            .Select(s => new
            {
                s.Id,
                s.CatalogNumber,
                s.CurrentName,
                s.GatheringId,
                s.Gathering.Notes,
                s.Gathering.Place,
                s.Gathering.Protection,
                Accession = db.Accessions.Where(lot => lot.Id == s.Gathering.AccessionId)
                    .Select(lot => new { lot.Number, lot.Act.At, lot.Act.ActorName }).Single(),
                Numbered = new TrailEntry(s.Act.At, "Numbered", s.Act.ActorName),
            })
            .SingleOrDefaultAsync(cancellation);
        if (found is null)
        {
            return null;
        }

        var names = await db.Specimens.Where(s => s.Id == found.Id).SelectMany(s => s.Determinations)
            .OrderBy(d => d.Id)
            .Select(d => new ShownName(d.Name, d.Qualifier, d.IdentifiedBy, d.DateIdentified))
            .ToListAsync(cancellation);
        var parts = await db.Parts.Where(p => p.SpecimenId == found.Id).OrderBy(p => p.Id)
            .Select(p => new ShownPart(p.Code, p.Holder, p.IsNumbered)).ToListAsync(cancellation);
        var duplicates = await DuplicateSheets.OfAsync(db, found.GatheringId, cancellation);
        return new(
            found.CatalogNumber, found.CurrentName, found.GatheringId, found.Accession.Number, found.Notes, found.Place,
            found.Protection, names, parts, duplicates,
            [
                new(
                    found.Accession.At,
                    $"Taken into the register as accession {found.Accession.Number}",
                    found.Accession.ActorName),
                found.Numbered,
                .. await TrailAsync(found.Id, found.GatheringId, cancellation),
            ]);
    }

    private async Task<List<TrailEntry>> TrailAsync(long specimenId, long gatheringId, CancellationToken cancellation)
    {
        var custody = await db.Parts.Where(p => p.SpecimenId == specimenId).SelectMany(p => p.Custody)
            .Select(c => new TrailEntry(c.Act.At, "In the hands of " + c.Holder, c.Act.ActorName))
            .ToListAsync(cancellation);
        var steps = await db.Parts.Where(p => p.SpecimenId == specimenId).SelectMany(p => p.Steps)
            .Select(s => new TrailEntry(s.Act.At, "Number scanned back from the sheet", s.Act.ActorName))
            .ToListAsync(cancellation);
        var protections = await db.Gatherings.Where(g => g.Id == gatheringId).SelectMany(g => g.Protections)
            .Select(p => new
            {
                p.Act.At,
                p.Act.ActorName,
                IsLifted = p.Category == SensitivityCategory.NotSensitive,
            })
            .ToListAsync(cancellation);
        return
        [
            .. custody.Concat(steps)
                .Concat(protections.Select(p => new TrailEntry(
                    p.At, p.IsLifted ? "Protection of the place lifted" : "Place protected", p.ActorName)))
                .OrderBy(entry => entry.At),
        ];
    }
}
