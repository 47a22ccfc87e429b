using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Localities;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// Corrects the record of one sheet's gathering: what was written, what stands, and, before it is done, what will
/// stand.
/// </summary>
[Authorize(Access.Curators)]
public sealed class CorrectPageModel(
    AccessionDb db, SeenSheets seen, ReadSpecimen read, CorrectedRecords records, CorrectRecord correct,
    InstitutionClock institution, TimeProvider clock) : PageModel
{
    /// <summary>Before the name of a field stands what it was when the page was opened.</summary>
    public const string Was = "Was_";

    [BindProperty]
    public string? Reason { get; set; }

    /// <summary>The version that the form shows.</summary>
    [BindProperty]
    public Guid Seen { get; set; }

    /// <summary>Whether the exact place of a protected plant stands in the form, because it was looked at.</summary>
    [BindProperty]
    public bool IsExact { get; set; }

    public Sheet Of { get; private set; } = null!;

    public DuplicateSheets Together { get; private set; } = null!;

    public IReadOnlyList<Line> Lines { get; private set; } = [];

    /// <summary>What will stand; null while nobody asked.</summary>
    public CorrectedRecords.Preview? WillStand { get; private set; }

    public bool IsProtected => Of.Protection != SensitivityCategory.NotSensitive;

    /// <summary>The sheet whose page led here.</summary>
    public sealed record Sheet(
        string CatalogNumber, int Repeat, bool IsRepeated, long GatheringId, long FirstGatheringId, Guid Version,
        SensitivityCategory Protection, string Label)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    /// <summary>A field of the form.</summary>
    /// <param name="Typed">What stands in the field: what was typed, otherwise what stands.</param>
    public sealed record Line(CorrectedField Field, string Written, string Stands, string Typed)
    {
        public bool IsLong => Field is CorrectedField.Locality or CorrectedField.Habitat or CorrectedField.Remarks
            or CorrectedField.AssociatedTaxa or CorrectedField.Collectors;
    }

    public async Task<IActionResult> OnGetAsync(string catalogNumber, int? sheet, CancellationToken cancellation)
    {
        if (!await FindAsync(catalogNumber, sheet, cancellation))
        {
            return NotFound();
        }

        await FillAsync(await records.StandsAsync(Of.GatheringId, cancellation) ?? [], cancellation);
        return Page();
    }

    /// <summary>Puts the exact place of a protected plant into the form; the look is on record.</summary>
    public async Task<IActionResult> OnPostLookAsync(
        string catalogNumber, int? sheet, CancellationToken cancellation)
    {
        if (!await FindAsync(catalogNumber, sheet, cancellation))
        {
            return NotFound();
        }

        IsExact = true;
        return await ShowAsync(cancellation);
    }

    /// <summary>Shows what will stand, and changes nothing.</summary>
    public async Task<IActionResult> OnPostPreviewAsync(
        string catalogNumber, int? sheet, CancellationToken cancellation)
    {
        if (!await FindAsync(catalogNumber, sheet, cancellation))
        {
            return NotFound();
        }

        var change = new FactChange.Set(Changed());
        var today = institution.Day(clock.GetUtcNow().UtcDateTime);
        var shown = IsProtected && IsExact
            ? await records.PreviewExactAsync(Of.GatheringId, change, today, HttpContext.Door(), cancellation)
            : (await records.PreviewAsync([Of.GatheringId], change, today, cancellation)).ToArray();
        if (shown.IsRefused || shown.Value is not [var preview])
        {
            return shown.IsRefused ? await ShowAsync(shown.Refusals, cancellation) : NotFound();
        }

        WillStand = preview;
        return preview.WhyNot.Count > 0
            ? await ShowAsync(preview.WhyNot, cancellation)
            : await ShowAsync(cancellation);
    }

    public async Task<IActionResult> OnPostAsync(string catalogNumber, int? sheet, CancellationToken cancellation)
    {
        if (!await FindAsync(catalogNumber, sheet, cancellation))
        {
            return NotFound();
        }

        var outcome = await correct.RunAsync(
            new(Of.GatheringId, Seen, Changed(), Reason), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            return await FindAsync(catalogNumber, sheet, cancellation)
                ? await ShowAsync(outcome.Refusals, cancellation)
                : NotFound();
        }

        TempData["Said"] = outcome.Value.Gatherings == 1
            ? "The record is corrected. What was written stays beside it, on the trail."
            : $"{outcome.Value.Gatherings} records of this gathering are corrected. What was written stays beside "
                + "them.";
        return Redirect(Of.Address);
    }

    /// <summary>What was wrong with a field; null where nothing was.</summary>
    public string? Problem(string field) =>
        ModelState.TryGetValue(field, out var state) && state.Errors.Count > 0 ? state.Errors[0].ErrorMessage : null;

    // Only what was changed in this form: somebody else may have corrected another field meanwhile.
    private Dictionary<CorrectedField, string?> Changed() => CorrectedFields.All
        .Where(field => Request.Form.ContainsKey(field.ToString())
            && Typed(field.ToString()) != Typed(Was + field))
        .ToDictionary(field => field, field => (string?)Typed(field.ToString()));

    private string Typed(string name) => Request.Form[name].ToString().Trim().ReplaceLineEndings(" ");

    private async Task<IActionResult> ShowAsync(IReadOnlyList<Refusal> refusals, CancellationToken cancellation)
    {
        await ShowAsync(cancellation);
        return this.Show(refusals);
    }

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        if (!IsProtected || !IsExact)
        {
            await FillAsync(await records.StandsAsync(Of.GatheringId, cancellation) ?? [], cancellation);
            return Page();
        }

        var looked = await records.LookAsync(Of.GatheringId, HttpContext.Door(), cancellation);
        await FillAsync(looked.IsRefused ? [] : looked.Value, cancellation);
        return Page();
    }

    private async Task FillAsync(IReadOnlyList<CorrectedRecords.Stand> stands, CancellationToken cancellation)
    {
        var typed = Request.HasFormContentType ? Changed() : [];
        Lines =
        [
            .. stands.Where(one => !one.IsWithheld).Select(one => new Line(
                one.Field, one.Written, one.Stands, typed.GetValueOrDefault(one.Field) ?? one.Stands)),
        ];
        foreach (var cleared in typed.Where(one => one.Value is null or ""))
        {
            Lines = [.. Lines.Select(line => line.Field == cleared.Key ? line with { Typed = "" } : line)];
        }

        Together = await read.DuplicatesAsync(Of.FirstGatheringId, User.Actor(), cancellation);
    }

    private async Task<bool> FindAsync(string catalogNumber, int? sheet, CancellationToken cancellation)
    {
        var number = SpecimenAddress.NumberIn(catalogNumber);
        var found = await seen.Of(User.Actor())
            .Where(s => s.CatalogNumber == number && (sheet == null || s.Repeat == sheet - 1))
            .OrderBy(s => s.Repeat).Take(2)
            .Select(s => new Sheet(
                s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                s.GatheringId, s.Gathering.DuplicateOfId ?? s.GatheringId, s.Gathering.Version, s.Gathering.Protection,
                s.Gathering.Notes.RecordedBy + " " + s.Gathering.Notes.RecordNumber))
            .ToListAsync(cancellation);
        if (found is not [var only])
        {
            return false;
        }

        Of = only;
        return true;
    }
}
