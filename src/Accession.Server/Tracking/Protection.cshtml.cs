using System.Globalization;
using Accession.Core.Localities;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Localities;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

[Authorize(Access.Curators)]
public sealed class ProtectionModel(
    AccessionDb db, ProtectLocality protect, ExactLocalities exactPlaces, InstitutionClock calendar, TimeProvider clock)
    : PageModel
{
    public long Id { get; private set; }

    public string Label { get; private set; } = "";

    public SensitivityCategory Protection { get; private set; }

    public ExactLocalities.Shown? Exact { get; private set; }

    /// <summary>Every decision about the place, that in force first.</summary>
    public IReadOnlyList<ShownDecision> Decisions { get; private set; } = [];

    /// <summary>The day it is at the institution: what is to be looked at again by then is due.</summary>
    public DateOnly Today => calendar.Day(clock.GetUtcNow().UtcDateTime);

    /// <summary>A decision as it was made.</summary>
    public sealed record ShownDecision(
        SensitivityCategory Category, DateOnly? ReviewOn, string? Why, string By, DateTime At);

    [BindProperty]
    public SensitivityCategory? Category { get; set; }

    [BindProperty]
    public DateOnly? ReviewOn { get; set; }

    [BindProperty]
    public string? Reason { get; set; }

    // Chapman 2020, Current Best Practices for Generalizing Sensitive Species Occurrence Data: the four categories.
    public IReadOnlyList<(SensitivityCategory Category, string Words)> Choices { get; } =
    [
        (SensitivityCategory.NotSensitive, "everything, as held"),
        (SensitivityCategory.Low, "a cell of 0.001 degrees, about 100 m (low sensitivity)"),
        (SensitivityCategory.Medium, "a cell of 0.01 degrees, about 1 km (medium)"),
        (SensitivityCategory.High, "a cell of 0.1 degrees, about 10 km (high)"),
        (SensitivityCategory.Extreme, "the county and no coordinates (extreme)"),
    ];

    /// <summary>What everyone may know under a category, in words.</summary>
    public string Words(SensitivityCategory category) => Choices.Single(choice => choice.Category == category).Words;

    /// <summary>A day as people read it.</summary>
    public string Day(DateOnly day) => day.ToString("d MMM yyyy", CultureInfo.InvariantCulture);

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        // The form begins with what holds; what was typed before a refusal stands there instead.
        ReviewOn = Decisions is [var inForce, ..] ? inForce.ReviewOn : null;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(long id, CancellationToken cancellation)
    {
        var outcome = await protect.RunAsync(new(id, Category, ReviewOn, Reason), HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] = $"The place of {outcome.Value} is shown as decided, on every page and in every archive.";
            return Redirect($"/gathering/{id}/protection");
        }

        return await LoadAsync(id, cancellation) ? this.Show(outcome.Refusals) : NotFound();
    }

    public async Task<IActionResult> OnPostLookAsync(long id, CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await exactPlaces.LookAsync(id, HttpContext.Door(), cancellation);
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        if (outcome.IsRefused)
        {
            return this.Show(outcome.Refusals);
        }

        Exact = outcome.Value;
        ReviewOn = Decisions is [var inForce, ..] ? inForce.ReviewOn : null;
        return Page();
    }

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        var gathering = await db.Gatherings.Where(g => g.Id == id)
            .Select(g => new { g.Notes.RecordedBy, g.Notes.RecordNumber, g.Protection })
            .SingleOrDefaultAsync(cancellation);
        if (gathering is null)
        {
            return false;
        }

        (Id, Label, Protection) = (id, $"{gathering.RecordedBy} {gathering.RecordNumber}".Trim(), gathering.Protection);
        Decisions = await db.Gatherings.Where(g => g.Id == id).SelectMany(g => g.Protections)
            .OrderByDescending(p => p.Id)
            .Select(p => new ShownDecision(p.Category, p.ReviewOn, p.Act.Reason, p.Act.ActorName, p.Act.At))
            .ToListAsync(cancellation);
        return true;
    }
}
