using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage.Accounts;
using Accession.Storage.Finding;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Tracking;

public sealed class SpecimenPageModel(
    ReadSpecimen read, SeenSheets seen, TypedNumbers typed, TimeProvider clock) : PageModel
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

    public string? Point => LabelPlace.Point(Shown.Place);

    public string? Elevation => LabelPlace.Elevation(Shown.Place);

    /// <summary>The sheets that bear the number asked for, where it is not one; the page then asks which.</summary>
    public IReadOnlyList<BearingSheet> Bearing { get; private set; } = [];

    /// <summary>The number that was asked for.</summary>
    public string Number { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(string catalogNumber, int? sheet, CancellationToken cancellation)
    {
        Number = SpecimenAddress.NumberIn(catalogNumber);
        var who = User.Actor();
        if (await read.RunAsync(Number, sheet - 1, who, cancellation) is { } one)
        {
            Shown = one;
            return Page();
        }

        var bearing = await read.BearingAsync(Number, who, cancellation);
        switch (bearing)
        {
            case []:
                return await ElsewhereAsync(cancellation);
            case [_, _, ..] when sheet is null:
                Bearing = bearing;
                return Page();
        }

        // In another spelling of its number, and the one that bears it or the one that is meant.
        var meant = sheet is null ? bearing[0] : bearing.Find(other => other.Repeat == sheet - 1);
        if (meant is null
            || await read.RunAsync(meant.CatalogNumber, meant.Repeat, who, cancellation) is not { } other)
        {
            return NotFound();
        }

        Shown = other;
        return Page();
    }

    // Whatever spelling was typed or scanned, a number has one address. One that leads to a sheet while that is the
    // only one is no address for good.
    private async Task<IActionResult> ElsewhereAsync(CancellationToken cancellation)
    {
        var meant = await typed.FindAsync(Number, seen.Of(User.Actor()), cancellation);
        return meant switch
        {
            { Certain: { } written } => RedirectPermanent(SpecimenAddress.Of(written)),
            { Possible: [var only] } => Redirect(SpecimenAddress.Of(only)),
            { Possible.Count: > 1 } => Redirect($"/specimens?q={Uri.EscapeDataString(Number)}"),
            _ => NotFound(),
        };
    }

    /// <summary>A stored partial date in words.</summary>
    public string ForPeople(string iso) => CollectingDate.FromIso8601(iso).ForPeople();
}
