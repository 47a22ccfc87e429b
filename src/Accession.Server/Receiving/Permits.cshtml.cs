using Accession.Core.Accessions;
using Accession.Core.Outcomes;
using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

public sealed class PermitsModel(AccessionDb db, WritePermit write, SetPermitAside setAside) : PageModel
{
    public long Id { get; private set; }

    public string Source { get; private set; } = "";

    public ShownProgress? Work { get; private set; }

    public IReadOnlyList<ShownPermit> Shown { get; private set; } = [];

    public IReadOnlyList<ShownPaper> Papers { get; private set; } = [];

    public int RowsOutside { get; private set; }

    public IReadOnlyList<(PermitKind Kind, string Words)> Kinds { get; } =
    [
        .. Enum.GetValues<PermitKind>()
            .Select(kind => (kind, kind == PermitKind.Other ? "Other" : PermitWords.Of(kind))),
    ];

    /// <summary>The permit that the form corrects; null for a new one.</summary>
    [BindProperty(SupportsGet = true)]
    public long? Correct { get; set; }

    [BindProperty]
    public PermitKind? Kind { get; set; }

    [BindProperty]
    public string? Number { get; set; }

    [BindProperty]
    public string? Issuer { get; set; }

    [BindProperty]
    public DateOnly? ValidFrom { get; set; }

    [BindProperty]
    public DateOnly? ValidUntil { get; set; }

    [BindProperty]
    public string? Country { get; set; }

    [BindProperty]
    public string? StateProvince { get; set; }

    [BindProperty]
    public string? Counties { get; set; }

    [BindProperty]
    public string? Taxa { get; set; }

    [BindProperty]
    public string? Conditions { get; set; }

    [BindProperty]
    public long? PaperId { get; set; }

    [BindProperty]
    public string? Why { get; set; }

    private PermitTerms Terms => new(
        Kind, Text(Number), Text(Issuer), ValidFrom, ValidUntil, Text(Country), Text(StateProvince),
        PermitTerms.Entries(Counties), PermitTerms.Entries(Taxa), Text(Conditions), PaperId);

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        if (Correct is { } corrects)
        {
            if (Shown.SingleOrDefault(permit => permit.Id == corrects && permit.Holds) is not { } shown)
            {
                return NotFound();
            }

            Fill(shown.Terms);
        }

        return Page();
    }

    public async Task<IActionResult> OnPostAsync(long id, CancellationToken cancellation)
    {
        if (!ModelState.IsValid)
        {
            return await RefusedAsync(
                id, [new(RefusalKind.Invalid, "A date was not understood. Write it as year-month-day.")], "ValidFrom",
                cancellation);
        }

        var outcome = await write.RunAsync(new(id, Correct, Terms, Why), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            var field = Kind is null ? nameof(Kind) : ValidUntil < ValidFrom ? nameof(ValidUntil) : nameof(Number);
            return await RefusedAsync(id, outcome.Refusals, field, cancellation);
        }

        TempData["Said"] = $"{outcome.Value} is written down. The rows are being compared with it.";
        return Redirect($"/batch/{id}/permits");
    }

    public async Task<IActionResult> OnPostSetAsideAsync(
        long id, long permit, string? reason, CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await setAside.RunAsync(new(id, permit, reason), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            return await RefusedAsync(id, outcome.Refusals, "", cancellation);
        }

        TempData["Said"] = $"{outcome.Value} is set aside. It stays here, with the reason.";
        return Redirect($"/batch/{id}/permits");
    }

    private void Fill(PermitTerms terms)
    {
        (Kind, Number, Issuer, ValidFrom, ValidUntil) =
            (terms.Kind, terms.Number, terms.Issuer, terms.From, terms.Until);
        (Country, StateProvince, Conditions, PaperId) =
            (terms.Country, terms.StateProvince, terms.Conditions, terms.PaperId);
        (Counties, Taxa) = (string.Join('\n', terms.Counties), string.Join('\n', terms.Taxa));
    }

    private static string Text(string? typed) => typed?.Trim() ?? "";

    private async Task<IActionResult> RefusedAsync(
        long id, IReadOnlyList<Refusal> refusals, string field, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        ModelState.Clear();
        return this.Show(refusals, field);
    }

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        Work = await ShownProgress.LatestAsync(db, ComparePermitsWork.Kind, id, cancellation);
        var source = await db.Batches.Where(b => b.Id == id && b.JoinedToBatchId == null).Select(b => b.Source.Name)
            .SingleOrDefaultAsync(cancellation);
        if (source is null)
        {
            return false;
        }

        (Id, Source) = (id, source);
        Shown = await ShownPermit.OfAsync(db, id, cancellation);
        Papers = await ShownPaper.OfAsync(db, id, cancellation);
        RowsOutside = await db.Rows.Where(SettledRows.OutsidePermits).CountAsync(r => r.BatchId == id, cancellation);
        return true;
    }
}
